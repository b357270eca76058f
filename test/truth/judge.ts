import type { DayKnobs, DayTruth } from '../../demo/cell.ts';
import type { LadderAnswer } from '../../src/ladder/index.ts';

/** A day whose truth is known, whichever way it was made. */
interface KnownDay {
  readonly knobs: Pick<DayKnobs, 'leadsDeg'>;
  readonly truth: Pick<
    DayTruth,
    | 'bestLeadOverBandDeg'
    | 'limitLeadDeg'
    | 'followingGainPercent'
    | 'torqueNm'
    | 'meanPowerW'
    | 'lossPercent'
  >;
}

/** What one day's answer was worth against the truth; null where the question did not arise. */
export interface Verdict {
  /** The best was answered, and its interval holds the true one. */
  readonly bestHeld: boolean | null;
  /** Sd of the error of the best in terms of the interval's own: a well-made interval has about 1. Closed ones only. */
  readonly bestError: number | null;
  readonly knowsBest: boolean;
  /** One entry a setting given. */
  readonly pastLimit: readonly boolean[];
  readonly pastBest: readonly boolean[];
  /** Loss of mean power beyond that of the best setting the rule permits [%]. */
  readonly givenUp: readonly number[];
  /** The ladder was called finished though its next rung truly gains what is worth having. */
  readonly finishedEarly: boolean | null;
  readonly stepsHeld: readonly boolean[];
  /** The band of a step held the truth at every speed at once. */
  readonly stepCurvesHeld: readonly boolean[];
  readonly limitHeld: boolean | null;
  readonly followingHeld: boolean | null;
}

function errorOf(truth: number, { value, low, high }: LadderAnswer['best']): number | null {
  if (value === null || low === null || high === null) return null;
  return (value - truth) / ((high - low) / (2 * 1.96));
}

const inside = (value: number, low: number | null, high: number | null) =>
  (low === null || value >= low) && (high === null || value <= high);

/** The shipped holdbacks, from the lowest of best, highest clean rung and limit: what the rule permits, all known. */
function permitted(day: KnownDay, holdback: number): number {
  const { bestLeadOverBandDeg, limitLeadDeg } = day.truth;
  const limit = limitLeadDeg ?? Number.POSITIVE_INFINITY;
  const clean = day.knobs.leadsDeg.filter((lead) => lead <= limit);
  const highestClean = clean.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...clean);
  return Math.min(bestLeadOverBandDeg, limit, highestClean) - holdback;
}

export function judge(day: KnownDay, answer: LadderAnswer, worthPercent: number): Verdict {
  const { truth, knobs } = day;
  const best = truth.bestLeadOverBandDeg;
  const limit = truth.limitLeadDeg;
  const given = Object.values(answer.uses).flatMap((use) =>
    use.value === null ? [] : [{ value: use.value, holdback: use.holdback }],
  );
  const top = Math.max(...knobs.leadsDeg);
  const nextGain = 100 * (truth.meanPowerW(top + 2) / truth.meanPowerW(top) - 1);
  const unfinished = nextGain >= worthPercent && (limit === null || limit > top + 2);
  return {
    bestHeld: answer.best.value === null ? null : inside(best, answer.best.low, answer.best.high),
    bestError: errorOf(best, answer.best),
    knowsBest: answer.best.low !== null && answer.best.high !== null,
    pastLimit: limit === null ? [] : given.map(({ value }) => value > limit),
    pastBest: given.map(({ value }) => value > best),
    givenUp: given.map(
      ({ value, holdback }) =>
        truth.lossPercent(value) - truth.lossPercent(permitted(day, holdback)),
    ),
    finishedEarly: unfinished ? answer.next.action === 'stop' : null,
    stepsHeld: answer.steps.map((step) =>
      inside(
        100 * (truth.meanPowerW(step.to) / truth.meanPowerW(step.from) - 1),
        step.lowPercent,
        step.highPercent,
      ),
    ),
    stepCurvesHeld: answer.steps
      .filter((step) => step.bySpeed.speedRpm.length > 0)
      .map(({ from, to, bySpeed }) =>
        bySpeed.speedRpm.every((rpm, i) =>
          inside(
            100 * (truth.torqueNm(rpm, to) / truth.torqueNm(rpm, from) - 1),
            bySpeed.lowPercent[i]!,
            bySpeed.highPercent[i]!,
          ),
        ),
      ),
    limitHeld:
      answer.limit === null || answer.limit.value === null || limit === null
        ? null
        : inside(limit, answer.limit.low, answer.limit.high),
    followingHeld:
      answer.following === null
        ? null
        : inside(
            truth.followingGainPercent,
            answer.following.gainPercent.low,
            answer.following.gainPercent.high,
          ),
  };
}

/** Share of `true` among the entries that arose; NaN of none. */
export function share(entries: readonly (boolean | null)[]): number {
  const known = entries.filter((entry) => entry !== null);
  return known.filter(Boolean).length / known.length;
}

/** Sd about zero of the entries that arose; NaN of none. */
function sdOf(entries: readonly (number | null)[]): number {
  const known = entries.filter((entry) => entry !== null);
  return Math.sqrt(known.reduce((sum, value) => sum + value * value, 0) / known.length);
}

/** One line a kind, for the record. */
export function tableOf(kinds: ReadonlyMap<string, readonly Verdict[]>): string {
  const percent = (value: number) => (Number.isNaN(value) ? '–' : (100 * value).toFixed(1));
  const rows = [...kinds].map(([kind, verdicts]) => {
    const all = <T>(of: (verdict: Verdict) => readonly T[]) => verdicts.flatMap(of);
    const answered = verdicts.filter((verdict) => verdict.bestHeld !== null);
    return [
      kind.padEnd(18),
      `${verdicts.length} days`,
      `best answered ${answered.length}, held ${percent(share(verdicts.map((v) => v.bestHeld)))}, error ${sdOf(verdicts.map((v) => v.bestError)).toFixed(2)} sd`,
      `past limit ${percent(share(all((v) => v.pastLimit)))}`,
      `past best ${percent(share(all((v) => v.pastBest)))}`,
      `gave up > 1.5 % ${percent(share(all((v) => v.givenUp).map((loss) => loss > 1.5)))}`,
      `finished early ${percent(share(verdicts.map((v) => v.finishedEarly)))}`,
      `steps ${percent(share(all((v) => v.stepsHeld)))}`,
      `by speed ${percent(share(all((v) => v.stepCurvesHeld)))}`,
      `limit ${percent(share(verdicts.map((v) => v.limitHeld)))}`,
      `following ${percent(share(verdicts.map((v) => v.followingHeld)))}`,
    ].join(' | ');
  });
  return rows.join('\n');
}

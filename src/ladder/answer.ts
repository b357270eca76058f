import { InputError } from '../errors.ts';
import { readBand } from './band.ts';
import { middleLimit, nextGains, worthOfNext } from './decide.ts';
import type { ResponsePoint } from './form.ts';
import { bestOf, intervalOf, NOTHING } from './interval.ts';
import { kneesOf } from './knee.ts';
import { LEAST_RUNGS, usesOf } from './leave.ts';
import { exhaustLimitOf, findLimit, limitForUse } from './limit.ts';
import { limitAnswer, limitBySpeed } from './limitAnswer.ts';
import { isMixture, mixtureOf } from './mixture.ts';
import { nextMove } from './next.ts';
import { gridPosterior, type ResponsePosterior } from './posterior.ts';
import { type Priors, priorsFor } from './priors.ts';
import { quantileOf } from './quantiles.ts';
import { summaryOf } from './sentences.ts';
import { modelSpeeds } from './speeds.ts';
import { rungsOf, stepsOf } from './steps.ts';
import { pictureSettings, responseCurve, surfaceOf } from './surface.ts';
import type { LadderAnswer, LadderInput, LadderPull, SettingInterval } from './types.ts';
import { warningsOf } from './warnings.ts';
import { unwatched } from './words.ts';

/** Changes whenever the same pulls would give another answer. */
export const LADDER_VERSION = 3;

/** A pull is said to disagree with the others above this chance. */
const STRAY_CHANCE = 0.6;
/**
 * Usual distance between neighbouring rungs: the median, or the kind's own where there are fewer than two. Wide gaps are
 * no reason to leap: at most twice the kind's own. Where settings were read, gaps within the readings' error are none.
 */
function usualRung(us: readonly number[], fallback: number, readSd: number): number {
  const gaps = us.slice(1).map((u, i) => u - us[i]!);
  if (gaps.length === 0) return fallback;
  gaps.sort((a, b) => a - b);
  return Math.min(Math.max(gaps[gaps.length >> 1]!, 2 * readSd), 2 * fallback);
}

function checkInput({ bandRpm, step, uses, worthPercent }: LadderInput): void {
  if (!(bandRpm[1] > bandRpm[0])) {
    throw new InputError(`The band from ${bandRpm[0]} to ${bandRpm[1]} rpm is empty.`, {
      expected: 'a lower and a higher speed',
    });
  }
  if (!(step > 0))
    throw new InputError(`The step ${step} in which settings are given out must be above zero.`);
  if (!(worthPercent > 0))
    throw new InputError(`The gain worth having, ${worthPercent} %, must be above zero.`);
  for (const { name, holdback } of uses) {
    if (!(holdback >= 0))
      throw new InputError(`The holdback ${holdback} of the use ${name} must not be below zero.`);
  }
}

/**
 * From the pulls of a ladder to a decision: what each step gained, where the best and the knee lie, where the limit,
 * which setting to leave for each use, and what to do next. Pure: the same pulls give the same answer.
 *
 * @throws InputError when the band is empty, the step or the worthwhile gain is not above zero, a holdback is below zero
 */
export function answerLadder(input: LadderInput): LadderAnswer {
  checkInput(input);
  const { kind } = input;
  const mirror = kind.safeDirection === 'lower' ? 1 : -1;
  const reading = readBand(input, mirror);
  // In the day's order, so that a list in another order gives the same answer to the last bit.
  const counted = [...reading.counted].sort((a, b) => a.pull.order - b.pull.order);
  const rungs = rungsOf(counted);
  const us = rungs.map((rung) => rung.u);
  const readSd = Math.max(0, ...counted.map(({ pull }) => pull.settingSd ?? 0));
  const rung = usualRung(us, kind.defaultRung, readSd);
  const lowest = us[0] ?? 0;
  const highest = us.at(-1) ?? 0;
  const meanPower =
    counted.length === 0 ? 1 : counted.reduce((sum, one) => sum + one.power, 0) / counted.length;
  const posterior = posteriorOf(
    counted.map((one) => ({
      u: one.u,
      order: one.pull.order,
      y: one.power / meanPower,
      ySd: one.powerSd / meanPower,
    })),
    counted.map((one) => one.pull.settingSd ?? 0),
    priorsFor(kind, lowest, highest, input.repeatabilityPercent),
  );
  const { draws } = posterior;
  const chosen = new Set<LadderPull>(counted.map((one) => one.pull));
  const limit = findLimit(input, chosen, mirror, rung);
  const bandLimit = limitForUse(limit, chosen, input.bandRpm, mirror, exhaustLimitOf(input));
  const best = posterior.bestQuantile(0.5);
  const knees = kneesOf(draws, rung, input.worthPercent / 100).sort();

  const strays = counted.filter((_, i) => posterior.strayChance[i]! > STRAY_CHANCE);
  const lastAny = input.pulls.reduce<LadderPull | null>(
    (latest, pull) =>
      Number.isFinite(pull.setting) && (latest === null || pull.order >= latest.order)
        ? pull
        : latest,
    null,
  );
  const top = Math.min(highest, limit.highestClean ?? highest);
  const gains = nextGains(draws, top, top + rung).sort();
  const worthGain = input.worthPercent / 100;
  const leastHoldback = Math.min(
    ...input.uses.map((use) => use.holdback),
    Number.POSITIVE_INFINITY,
  );
  const speeds = modelSpeeds({ ...reading, counted }, draws, (lowest + highest) / 2, rung);
  const steps = stepsOf(rungs, draws, speeds, input.worthPercent, (lowest + highest) / 2, mirror);
  const move = nextMove({
    kind,
    mirror,
    rung,
    worthPercent: input.worthPercent,
    rungs: rungs.map(({ u, pulls }) => ({ u, pulls: pulls.length })),
    lastU: lastAny === null ? highest : mirror * lastAny.setting,
    limit,
    limitMiddle: middleLimit(bandLimit),
    strayU: strays.length === 0 ? null : strays[0]!.u,
    best,
    chanceWorth:
      gains.reduce((count, gain) => count + (gain >= worthGain ? 1 : 0), 0) / gains.length,
    lastStepPercent: steps.at(-1)?.measuredPercent ?? null,
    middleGain: quantileOf(gains, 0.5),
    chanceBestBelowLadder: rungs.length === 0 ? 0 : posterior.chanceBestBelow(lowest),
    worth: worthOfNext(
      draws,
      best,
      top,
      top + rung,
      Number.isFinite(leastHoldback) ? leastHoldback : 0,
    ),
  });

  const reach = [lowest - 2 * rung, highest + 2 * rung] as const;
  const bestAnswer = bestOf(
    posterior,
    reach,
    [lowest - rung, highest + rung],
    rungs.length,
    mirror,
  );
  const uses = usesOf(
    input,
    posterior,
    limit,
    chosen,
    move,
    rungs.length,
    bestAnswer.value !== null,
    mirror,
  );
  const kneeReach = [lowest, highest + 2 * rung] as const;
  const knee: SettingInterval =
    rungs.length < 2
      ? NOTHING
      : intervalOf(
          quantileOf(knees, 0.5),
          quantileOf(knees, 0.025),
          quantileOf(knees, 0.975),
          kneeReach,
          mirror,
        );
  const picture = counted.length === 0 ? [] : pictureSettings(lowest, highest, rung);
  const surface =
    speeds === null || rungs.length < LEAST_RUNGS
      ? null
      : surfaceOf(picture, reach, draws, speeds, (lowest + highest) / 2, rung, mirror);
  const repeatSd = Float64Array.from(draws.repeatSd).sort();
  const answer = {
    version: LADDER_VERSION,
    best: bestAnswer,
    knee,
    limit: limitAnswer(limit, bandLimit, mirror),
    limitBySpeed: limitBySpeed(limit, speeds?.speedRpm ?? null, mirror),
    limitWatched: limit.watched,
    highestClean: limit.highestClean === null ? null : mirror * limit.highestClean,
    uses,
    next: {
      action: move.action,
      value: move.u === null ? null : mirror * move.u,
      worthPercent: move.worth === null ? null : 100 * move.worth,
      why: limit.watched ? move.why : unwatched(move.why),
    },
    steps,
    repeatability: {
      value: 100 * quantileOf(repeatSd, 0.5),
      low: 100 * quantileOf(repeatSd, 0.025),
      high: 100 * quantileOf(repeatSd, 0.975),
      from: repeatabilityFrom(input, rungs),
    },
    dots: reading.counted.map(({ pull, power, powerSd }) => {
      const half = 1.96 * Math.hypot(powerSd, power * quantileOf(repeatSd, 0.5));
      return {
        id: pull.id,
        setting: pull.setting,
        meanPowerW: { value: power, low: power - half, high: power + half },
      };
    }),
    response: responseCurve(picture, draws, meanPower, mirror),
    map: surface?.map ?? null,
    // What is gained over the best fixed setting cannot be told before that is known.
    following: bestAnswer.value === null ? null : (surface?.following ?? null),
    mixture: isMixture(input) ? mixtureOf(input, draws, counted, bestAnswer, reach, rung) : null,
    warnings: warningsOf(
      input,
      reading,
      limit,
      strays.map((one) => one.pull),
      rungs,
      move,
    ),
  };
  return { ...answer, headline: move.headline, summary: summaryOf(answer, kind, move) };
}

/**
 * The response, where a setting may itself be measured with an error. An error e of the setting moves a pull's power by
 * slope·e, so its variance grows by (slope·sd)² with the slope that the pulls leave possible there: the method of
 * effective variance (Orear 1982, Am. J. Phys. 50, 912), in two passes.
 */
function posteriorOf(
  points: readonly ResponsePoint[],
  settingSds: readonly number[],
  priors: Priors,
): ResponsePosterior {
  const first = gridPosterior(points, priors);
  if (settingSds.every((sd) => !(sd > 0))) return first;
  const { draws } = first;
  const widened = points.map((point, i) => {
    let square = 0;
    for (let d = 0; d < draws.count; d++) {
      const slope = draws.shape.slope(
        point.u - draws.best[d]!,
        draws.curvature[d]!,
        draws.lean[d]!,
      );
      square += slope ** 2 / draws.count;
    }
    return { ...point, ySd: Math.hypot(point.ySd, Math.sqrt(square) * settingSds[i]!) };
  });
  return gridPosterior(widened, priors);
}

function repeatabilityFrom(
  input: LadderInput,
  rungs: readonly { readonly pulls: readonly unknown[] }[],
): LadderAnswer['repeatability']['from'] {
  if (input.repeatabilityPercent !== null) return 'stated';
  if (rungs.some((rung) => rung.pulls.length > 1)) return 'repeats';
  return rungs.length > 3 ? 'pulls' : 'prior';
}

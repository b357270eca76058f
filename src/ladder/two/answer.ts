import { InputError } from '../../errors.ts';
import type { Banded } from '../../pull/types.ts';
import { readBand } from '../band.ts';
import { LAMBDA, SPARK_LEAD } from '../kinds.ts';
import { bandOf, quantileOf } from '../quantiles.ts';
import type { LadderInput, SettingInterval } from '../types.ts';
import { percentText, unwatched } from '../words.ts';
import { twoSpeeds } from './bySpeed.ts';
import { type Cleared, clearedBy, mayRun } from './clean.ts';
import { LEAST_PLACES, nextTwo, ridgeAt } from './next.ts';
import { type SurfaceDraws, surfaceLoss, surfacePosterior } from './surface.ts';
import { bestsBySpeed, settingFrom, tableOf, within } from './table.ts';
import type { TwoAnswer, TwoInput, TwoPull, TwoUse, TwoUseAnswer } from './types.ts';
import { lambdaText, leadText, placeText } from './words.ts';

/** Changes whenever the same pulls would give another answer. */
export const TWO_VERSION = 1;
/** Half-width of a loss up to which a place is shown as known [%]: what is worth having, or this if that is less. */
const KNOWN_PERCENT = 1;
/** The picture needs fewer draws than the answers do. */
const MAP_PART = 2;
const MAP_LEADS = 33;
const MAP_LAMBDAS = 25;

/** Usual distance between neighbouring values that were set: their median gap, at most twice the kind's own rung. */
function usualRung(values: readonly number[], fallback: number): number {
  const own = [...new Set(values.map((value) => Number(value.toFixed(4))))].sort((a, b) => a - b);
  const gaps = own.slice(1).map((value, i) => value - own[i]!);
  if (gaps.length === 0) return fallback;
  gaps.sort((a, b) => a - b);
  return Math.max(Math.min(gaps[gaps.length >> 1]!, 2 * fallback), fallback / 4);
}

/**
 * From pulls with lead and mixture in any pattern to a decision: the best of both with intervals, the ridge, the picture
 * of what each place gives up, the next pull, the setting for each use and its table by speed. Pure: the same pulls give
 * the same answer.
 *
 * @throws InputError  the band is empty, or a step or the gain worth having is not above zero
 */
export function answerTwo(input: TwoInput): TwoAnswer {
  const { bandRpm, worthPercent, stepDeg, stepLambda } = input;
  if (!(bandRpm[1] > bandRpm[0]))
    throw new InputError(`The band from ${bandRpm[0]} to ${bandRpm[1]} rpm is empty.`, {
      expected: 'a lower and a higher speed',
    });
  if (!(worthPercent > 0 && stepDeg > 0 && stepLambda > 0))
    throw new InputError('Steps and the gain worth having must be above zero.');
  const byId = new Map(input.pulls.map((pull) => [pull.id, pull]));
  const reading = readBand(asLadder(input), 1);
  const counted = [...reading.counted].sort((a, b) => a.pull.order - b.pull.order);
  const pulls = counted.map(({ pull }) => byId.get(pull.id)!);
  const meanPower =
    counted.length === 0 ? 1 : counted.reduce((sum, one) => sum + one.power, 0) / counted.length;
  const rungs = [
    usualRung(
      pulls.map(({ leadDeg }) => leadDeg),
      SPARK_LEAD.defaultRung,
    ),
    usualRung(
      pulls.map(({ lambda }) => lambda),
      LAMBDA.defaultRung,
    ),
  ] as const;
  const { draws, stray } = surfacePosterior(
    counted.map((one, i) => ({
      leadDeg: pulls[i]!.leadDeg,
      lambda: pulls[i]!.lambda,
      lambdaSd: pulls[i]!.lambdaSd,
      day: pulls[i]!.day,
      order: one.pull.order,
      y: one.power / meanPower,
      ySd: one.powerSd / meanPower,
    })),
    input.repeatabilityPercent,
  );
  const cleared = clearedBy(input, new Set(pulls.map(({ id }) => id)), rungs);
  const span = (of: (pull: TwoPull) => number, rung: number) => {
    const values = pulls.map(of);
    const [low, high] = values.length === 0 ? [0, 0] : [Math.min(...values), Math.max(...values)];
    return {
      picture: [low - rung, high + rung] as const,
      reach: [low - 2 * rung, high + 2 * rung] as const,
    };
  };
  const lead = span(({ leadDeg }) => leadDeg, rungs[0]);
  const lambda = span((pull) => pull.lambda, rungs[1]);
  const places = new Set(pulls.map((pull) => `${pull.leadDeg} ${pull.lambda}`)).size;
  const both = variesIn(pulls);
  const enough = both && places >= LEAST_PLACES;
  const sorted = (column: Float64Array) => Float64Array.from(column).sort();
  const bestLeadDeg = enough ? within(sorted(draws.bestLead), lead.reach) : NOT_KNOWN;
  const bestLambda = enough ? within(sorted(draws.bestLambda), lambda.reach) : NOT_KNOWN;
  const last = input.pulls.reduce<TwoPull | null>(
    (latest, pull) => (latest === null || pull.order >= latest.order ? pull : latest),
    null,
  );
  const move = nextTwo({
    draws,
    cleared,
    rungs,
    worth: worthPercent / 100,
    made: pulls,
    last,
    stray: stray < 0 ? null : pulls[stray]!,
  });
  const said = (why: string) => (cleared.watched || pulls.length === 0 ? why : unwatched(why));
  const known = bestLeadDeg.value !== null && bestLambda.value !== null;
  const uses = input.uses.map((use) =>
    useOf(input, use, draws, cleared, rungs, { enough, known }, said),
  );
  const speeds = twoSpeeds(reading, pulls, draws, rungs);
  const bests =
    speeds === null || !known
      ? null
      : bestsBySpeed(speeds, draws, rungs, input.table.everyRpm, {
          lead: lead.reach,
          lambda: lambda.reach,
        });
  const steps = [stepDeg, stepLambda] as const;
  const tables = input.uses.map((use, i) => {
    const none = (why: string) => ({ use: use.name, rows: null, why: said(why) });
    if (uses[i]!.leadDeg === null) return none(uses[i]!.why);
    if (speeds === null)
      return none('Typed peaks say nothing speed by speed: a table needs recorded curves.');
    if (bests === null)
      return none('Not known yet: a table needs the best of both, and only a limit is known.');
    const { leadDeg, lambda: at } = uses[i]!;
    const rows = tableOf(
      use,
      { leadDeg: leadDeg!, lambda: at! },
      bests,
      cleared,
      steps,
      input.extraHoldbackDeg,
      input.table,
    );
    if (rows === null)
      return none('Not known yet: nothing that ran clean clears a setting at every speed.');
    return {
      use: use.name,
      rows,
      why: said(
        `Lead ${leadText(use.holdbackDeg + input.extraHoldbackDeg)} and lambda ${lambdaText(use.holdbackLambda)} to the safe side of the lowest of best and clean at each speed, smoothed, never steeper than ${leadText(input.table.steepestDeg)} and ${lambdaText(input.table.steepestLambda)} in 500 rpm.`,
      ),
    };
  });
  const net = (range: readonly [number, number], count: number) =>
    Array.from({ length: count }, (_, i) => range[0] + ((range[1] - range[0]) * i) / (count - 1));
  const lambdas = pulls.length === 0 ? [] : net(lambda.picture, MAP_LAMBDAS);
  const leads = pulls.length === 0 ? [] : net(lead.picture, MAP_LEADS);
  const ridge = lambdas.map((at) => bandOf(ridgeAt(draws, at)));
  const answer = {
    version: TWO_VERSION,
    bestLeadDeg,
    bestLambda,
    ridgeDegPerTenth: bandOf(draws.ridge.map((value) => value / 10)),
    limitWatched: cleared.watched,
    repeatabilityPercent: bandOf(draws.repeatSd.map((value) => 100 * value)),
    next: {
      action: move.action,
      at: move.at,
      worthPercent: move.worthPercent,
      why: said(move.why),
    },
    uses,
    ridge: {
      lambda: lambdas,
      leadDeg: ridge.map(({ value }) => value),
      lowDeg: ridge.map(({ low }) => low),
      highDeg: ridge.map(({ high }) => high),
    },
    map: mapOf(draws, leads, lambdas, cleared, rungs, Math.max(worthPercent, KNOWN_PERCENT)),
    dots: input.pulls.map((pull) => ({
      id: pull.id,
      leadDeg: pull.leadDeg,
      lambda: pull.lambda,
      meanPowerW: counted.find((one) => one.pull.id === pull.id)?.power ?? null,
      state: stateOf(
        pull,
        cleared,
        counted.some((one) => one.pull.id === pull.id),
      ),
    })),
    tables,
    warnings: warningsOf(input, cleared, reading.leftOut, stray < 0 ? null : pulls[stray]!, both),
  };
  return {
    ...answer,
    headline: both || pulls.length === 0 ? move.headline : 'Only one setting was varied.',
    summary: summaryOf(bestLeadDeg, bestLambda, answer.ridgeDegPerTenth, uses, cleared, known),
  };
}

const NOT_KNOWN: SettingInterval = { value: null, low: null, high: null };

/** The band's reading asks for a ladder; it looks at everything but the setting. */
function asLadder(input: TwoInput): LadderInput {
  return {
    kind: SPARK_LEAD,
    pulls: input.pulls.map(({ leadDeg, lambda, lambdaSd: _sd, day: _day, ...pull }) => ({
      ...pull,
      setting: Number.isFinite(lambda) ? leadDeg : Number.NaN,
    })),
    bandRpm: input.bandRpm,
    uses: [],
    aspiration: input.aspiration,
    step: input.stepDeg,
    worthPercent: input.worthPercent,
    repeatabilityPercent: input.repeatabilityPercent,
    worstInletDeltaK: 0,
    worstFuelDeltaOctane: 0,
    holdbackPer10K: 0,
    holdbackPerOctane: 0,
  };
}

function variesIn(pulls: readonly TwoPull[]): boolean {
  const differs = (of: (pull: TwoPull) => number) =>
    new Set(pulls.map((pull) => of(pull).toFixed(4))).size > 1;
  return differs(({ leadDeg }) => leadDeg) && differs(({ lambda }) => lambda);
}

function useOf(
  input: TwoInput,
  use: TwoUse,
  draws: SurfaceDraws,
  cleared: Cleared,
  rungs: readonly [number, number],
  { enough, known }: { readonly enough: boolean; readonly known: boolean },
  said: (why: string) => string,
): TwoUseAnswer {
  const nothing = (why: string): TwoUseAnswer => ({
    name: use.name,
    leadDeg: null,
    lambda: null,
    givesUpPercent: null,
    chancePastBest: null,
    why: said(why),
  });
  if (input.aspiration !== 'natural')
    return nothing(
      `No rule is shipped for ${input.aspiration === 'boosted' ? 'a boosted engine' : 'an engine on nitrous'}: its knock limit decides, and the shop must set its own.`,
    );
  if (cleared.clean.length === 0) return nothing('Not known yet: no pull has run clean.');
  if (!enough)
    return nothing(
      `Not known yet: it takes both settings varied, at ${LEAST_PLACES} places or more.`,
    );
  if (!known && cleared.limits.length === 0)
    return nothing('Not known yet: the pulls have not come near enough to the best of both.');
  const lambdas = Float64Array.from(draws.bestLambda).sort();
  const found = settingFrom(
    use,
    lambdas,
    (lambda) => ridgeAt(draws, lambda),
    cleared,
    [input.stepDeg, input.stepLambda],
    input.extraHoldbackDeg,
    // At most one rung short of all that was run.
    {
      leadDeg: cleared.lowest!.leadDeg - rungs[0],
      lambda: cleared.lowest!.lambda - rungs[1],
      isStrict: true,
    },
  );
  if (found === null)
    return nothing(
      'Not known yet: nothing that was run clears a setting on the safe side of the best with this holdback; make pulls with less lead or richer.',
    );
  let givesUp = 0;
  for (let d = 0; d < draws.count; d++)
    givesUp += (100 * surfaceLoss(draws, d, found.leadDeg, found.lambda)) / draws.count;
  const place = { leadDeg: tidy(found.leadDeg), lambda: tidy(found.lambda) };
  return {
    name: use.name,
    ...place,
    givesUpPercent: givesUp,
    chancePastBest: found.chancePastBest,
    why: said(
      `${placeText(place)} stands at least ${leadText(use.holdbackDeg + input.extraHoldbackDeg)} and lambda ${lambdaText(use.holdbackLambda)} to the safe side of the best and of what ran clean; it gives up ${percentText(givesUp)}.`,
    ),
  };
}

const tidy = (value: number) => Number(value.toFixed(6));

function mapOf(
  draws: SurfaceDraws,
  leads: readonly number[],
  lambdas: readonly number[],
  cleared: Cleared,
  rungs: readonly [number, number],
  knownPercent: number,
): TwoAnswer['map'] {
  const count = Math.floor(draws.count / MAP_PART);
  const column = new Float64Array(count);
  const cells = lambdas.map((lambda) =>
    leads.map((leadDeg) => {
      let mean = 0;
      for (let i = 0; i < count; i++) {
        column[i] = 100 * surfaceLoss(draws, MAP_PART * i, leadDeg, lambda);
        mean += column[i]! / count;
      }
      column.sort();
      return {
        loss: mean,
        half: (quantileOf(column, 0.975) - quantileOf(column, 0.025)) / 2,
        open: mayRun(cleared, { leadDeg, lambda }, rungs),
      };
    }),
  );
  return {
    leadDeg: leads,
    lambda: lambdas,
    lossPercent: cells.map((row) => row.map(({ loss }) => loss)),
    halfPercent: cells.map((row) => row.map(({ half }) => half)),
    known: cells.map((row) => row.map(({ half }) => half <= knownPercent)),
    open: cells.map((row) => row.map(({ open }) => open)),
  };
}

function stateOf(
  pull: TwoPull,
  cleared: Cleared,
  counts: boolean,
): TwoAnswer['dots'][number]['state'] {
  const same = (place: { readonly leadDeg: number; readonly lambda: number }) =>
    place.leadDeg === pull.leadDeg && place.lambda === pull.lambda;
  if (cleared.limits.some(same)) return 'limit';
  if (!counts) return 'left out';
  return cleared.watched && cleared.clean.some(same) ? 'clean' : 'not watched';
}

function warningsOf(
  input: TwoInput,
  cleared: Cleared,
  leftOut: readonly { readonly pull: { readonly id: string }; readonly because: string }[],
  stray: TwoPull | null,
  both: boolean,
): string[] {
  const byId = new Map(input.pulls.map((pull) => [pull.id, pull]));
  const warnings: string[] = [];
  if (!cleared.watched && input.pulls.length > 0)
    warnings.push(
      'Limit not watched: no ear, plug, sensor, knock channel or exhaust limit is noted, so what was run stands in for what ran clean.',
    );
  if (!both && input.pulls.length > 0)
    warnings.push('Only one of lead and mixture was varied: a ladder of that one says more.');
  if (stray !== null)
    warnings.push(
      `Pulls disagree: the one at ${placeText(stray)} is off by more than this cell repeats and counts for little.`,
    );
  for (const { pull, because } of leftOut)
    warnings.push(`The pull at ${placeText(byId.get(pull.id)!)} is left out: ${because}.`);
  return warnings;
}

function summaryOf(
  lead: SettingInterval,
  lambda: SettingInterval,
  ridge: Banded,
  uses: readonly TwoUseAnswer[],
  cleared: Cleared,
  known: boolean,
): string {
  const parts: string[] = [];
  if (known) {
    parts.push(
      `The best is near ${placeText({ leadDeg: lead.value!, lambda: lambda.value! })} (${ends(lead, leadText)}; lambda ${ends(lambda, lambdaText)}).`,
      ridge.low > 0 || ridge.high < 0
        ? `With each 0.1 of lambda leaner the best lead moves by ${leadText(ridge.value)}.`
        : 'Whether the best lead moves with the mixture cannot be told from chance.',
    );
  } else parts.push('The best of both is not known yet.');
  const left = uses.flatMap(({ name, leadDeg, lambda: at, givesUpPercent }) =>
    leadDeg === null || at === null
      ? []
      : [
          `for ${name} leave ${placeText({ leadDeg, lambda: at })}, which gives up ${percentText(givesUpPercent!)}`,
        ],
  );
  if (left.length > 0) parts.push(`${left.join('; ').replace(/^f/, 'F')}.`);
  if (!cleared.watched) parts.push('The limit was not watched.');
  return parts.join(' ');
}

function ends({ low, high }: SettingInterval, text: (value: number) => string): string {
  if (low !== null && high !== null) return `${text(low)} to ${text(high)}`;
  if (low !== null) return `above ${text(low)}`;
  return high !== null ? `below ${text(high)}` : 'no end known';
}

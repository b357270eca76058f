import { quantileOf } from '../quantiles.ts';
import type { SettingInterval } from '../types.ts';
import { bestAtSpeed, bestLeadAtSpeed, type TwoSpeeds } from './bySpeed.ts';
import { type Cleared, isCleared } from './clean.ts';
import type { SurfaceDraws } from './surface.ts';
import type { Place, TableRow, TableRules, TwoUse } from './types.ts';

/*
 * Lead and mixture by speed. At each speed the mixture stands the use's holdback richer than the lowest of the best there
 * and what ran clean, then the lead its own holdback below the lowest of the best for that mixture and what ran clean
 * with it; both lower by whole steps until the chance to stand past the best is what the use permits, but in a table never
 * below what was run: where a speed's best is hardly known, an untried rich mixture or late spark is no safer. Then the table is
 * made to be driven: smoothed, its slope limited, and each of the two only ever lowered by that, so that no entry of the
 * table is less safe than the figure it came from.
 */

export interface SpeedBests {
  readonly speedRpm: number;
  readonly lead: SettingInterval;
  readonly lambda: SettingInterval;
  /** Sorted draws of the best mixture. */
  readonly lambdas: Float64Array;
  /** Sorted draws of the best lead for a mixture. */
  readonly leadsAt: (lambda: number) => Float64Array;
}

/** How far a speed's own best may stand from the band's [rungs]. */
const REACH = 5;

/** The best at each speed of a table. @param reach  lead and lambda beyond which an end is open */
export function bestsBySpeed(
  speeds: TwoSpeeds,
  draws: SurfaceDraws,
  rungs: readonly [number, number],
  everyRpm: number,
  reach: { readonly lead: readonly [number, number]; readonly lambda: readonly [number, number] },
): SpeedBests[] {
  return tableSpeeds(speeds.speedRpm, everyRpm).map((speedRpm) => {
    const m = nearest(speeds.speedRpm, speedRpm);
    const each = Array.from({ length: speeds.draws }, (_, d) =>
      bestAtSpeed(speeds, draws, d, m, rungs, REACH),
    );
    const sorted = (j: 0 | 1) => Float64Array.from(each, (pair) => pair[j]).sort();
    const [leads, lambdas] = [sorted(0), sorted(1)];
    return {
      speedRpm,
      lead: within(leads, reach.lead),
      lambda: within(lambdas, reach.lambda),
      lambdas,
      leadsAt: (lambda) =>
        Float64Array.from({ length: speeds.draws }, (_, d) =>
          bestLeadAtSpeed(speeds, draws, d, m, lambda, rungs[0], REACH),
        ).sort(),
    };
  });
}

/** An interval of sorted draws; ends beyond reach are open. */
export function within(
  sorted: Float64Array,
  [from, to]: readonly [number, number],
): SettingInterval {
  const at = (p: number) => {
    const value = quantileOf(sorted, p);
    return value < from || value > to ? null : value;
  };
  return { value: at(0.5), low: at(0.025), high: at(0.975) };
}

/** Whole multiples of `every` within the speeds that all pulls cover. */
function tableSpeeds(speedRpm: readonly number[], every: number): number[] {
  const [low, high] = [speedRpm[0]!, speedRpm.at(-1)!];
  const first = Math.ceil(low / every - 1e-9);
  const last = Math.floor(high / every + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * every);
}

function nearest(speedRpm: readonly number[], speed: number): number {
  const step = (speedRpm.at(-1)! - speedRpm[0]!) / (speedRpm.length - 1);
  return Math.min(speedRpm.length - 1, Math.max(0, Math.round((speed - speedRpm[0]!) / step)));
}

/** Chance that a sorted draw lies below a value. */
export function chanceBelow(sorted: Float64Array, value: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (sorted[half]! < value) low = half + 1;
    else high = half;
  }
  return low / sorted.length;
}

const floorTo = (value: number, step: number) => step * Math.floor(value / step + 1e-6);

/** How far a setting may be lowered for the chance to stand past the best, and what is said where that is not enough. */
export interface Floor extends Place {
  /** null where the chance is not held at the floor; otherwise the setting stays there. */
  readonly isStrict: boolean;
}

/**
 * The setting for a use from the bests: mixture first, then lead for it. Null where nothing that ran clean clears it, or
 * the floor is strict and too high.
 */
export function settingFrom(
  use: TwoUse,
  lambdas: Float64Array,
  leadsAt: (lambda: number) => Float64Array,
  cleared: Cleared,
  steps: readonly [leadDeg: number, lambda: number],
  extraHoldbackDeg: number,
  floor: Floor,
): { leadDeg: number; lambda: number; chancePastBest: number } | null {
  const { clean } = cleared;
  if (clean.length === 0) return null;
  const heldDeg = use.holdbackDeg + extraHoldbackDeg;
  const leanest = Math.max(...clean.map(({ lambda }) => lambda));
  const lambda = lowered(
    Math.min(quantileOf(lambdas, 0.5), leanest) - use.holdbackLambda,
    steps[1],
    floor.lambda,
    (at) => chanceBelow(lambdas, at) <= use.chancePastBest,
  );
  if (floor.isStrict && chanceBelow(lambdas, lambda) > use.chancePastBest) return null;
  const leads = leadsAt(lambda);
  const held = (leadDeg: number) => ({
    leadDeg: leadDeg + heldDeg,
    lambda: lambda + use.holdbackLambda,
  });
  // The most lead that ran clean with this mixture and its holdback, or leaner.
  const most = Math.max(
    ...clean
      .filter((one) => one.lambda >= lambda + use.holdbackLambda - 1e-9)
      .map(({ leadDeg }) => leadDeg),
  );
  if (!Number.isFinite(most)) return null;
  const leadDeg = lowered(
    Math.min(quantileOf(leads, 0.5), most) - heldDeg,
    steps[0],
    floor.leadDeg,
    (at) => chanceBelow(leads, at) <= use.chancePastBest && isCleared(cleared, held(at)),
  );
  if (floor.isStrict && chanceBelow(leads, leadDeg) > use.chancePastBest) return null;
  if (!isCleared(cleared, held(leadDeg))) return null;
  return {
    leadDeg,
    lambda,
    chancePastBest: Math.max(chanceBelow(leads, leadDeg), chanceBelow(lambdas, lambda)),
  };
}

/** Down to a whole step, then by steps until it is sure enough or the next would pass the floor. */
function lowered(
  from: number,
  step: number,
  floor: number,
  isSure: (at: number) => boolean,
): number {
  let at = floorTo(from, step);
  while (!isSure(at) && at - step >= floor - 1e-9) at = floorTo(at - step + 1e-6 * step, step);
  return at;
}

/** The table of one use, or null where a speed has no setting. @param setting  the use's own over the whole band */
export function tableOf(
  use: TwoUse,
  setting: Place,
  bests: readonly SpeedBests[],
  cleared: Cleared,
  steps: readonly [number, number],
  extraHoldbackDeg: number,
  rules: TableRules,
): readonly TableRow[] | null {
  const { lowest } = cleared;
  if (lowest === null) return null;
  const floor: Floor = {
    leadDeg: Math.min(lowest.leadDeg, setting.leadDeg),
    lambda: Math.min(lowest.lambda, setting.lambda),
    isStrict: false,
  };
  const raw = bests.map(({ lambdas, leadsAt }) =>
    settingFrom(use, lambdas, leadsAt, cleared, steps, extraHoldbackDeg, floor),
  );
  if (raw.length === 0 || raw.some((one) => one === null)) return null;
  const speeds = bests.map(({ speedRpm }) => speedRpm);
  const lead = drivable(
    speeds,
    raw.map((one) => one!.leadDeg),
    rules.steepestDeg / 500,
  );
  const lambda = drivable(
    speeds,
    raw.map((one) => one!.lambda),
    rules.steepestLambda / 500,
  );
  return bests.map(({ speedRpm, lead: bestLeadDeg, lambda: bestLambda }, i) => ({
    speedRpm,
    leadDeg: rounded(lead[i]!, steps[0] / 2),
    lambda: rounded(lambda[i]!, steps[1] / 2),
    bestLeadDeg,
    bestLambda,
  }));
}

/** Down to a half step, without the dust of the division. */
const rounded = (value: number, step: number) => Number(floorTo(value, step).toFixed(4));

/**
 * Smoothed and limited in slope, never raised: the lower of each value and its mean with its neighbours, then the highest
 * curve below that whose slope nowhere exceeds `steepest`.
 */
export function drivable(
  at: readonly number[],
  values: readonly number[],
  steepest: number,
): number[] {
  const smooth = values.map((value, i) => {
    const [left, right] = [values[i - 1], values[i + 1]];
    if (left === undefined || right === undefined) return value;
    return Math.min(value, 0.25 * left + 0.5 * value + 0.25 * right);
  });
  return smooth.map((value, i) =>
    smooth.reduce(
      (low, other, j) => Math.min(low, other + steepest * Math.abs(at[j]! - at[i]!)),
      value,
    ),
  );
}

import { tBelow, tQuantile } from '../numerics/studentT.ts';
import { REPEAT_LOG_SD, REPEAT_MEDIAN } from './priors.ts';

/*
 * The drift of a day told apart from the part.
 *
 *   z_i = μ_d + g·[i is B] + δ·t_i + e_i,   e_i ~ N(0, σ²),
 *
 * z the log mean power [%], μ_d the day's level, t the place in the day's order. Two ways to g:
 *
 * Blocks. Where the pulls fall into neighbours of one A and one B, of one day, the block's difference is
 * d_k = g + δ·s_k + noise with s_k = ±1 as B was second or first, and the blocks' means hold δ alone (2δ from block to
 * block), with noise that has nothing to do with that of the differences. So δ̂ comes from the means, and Student's
 * test is of d_k − δ̂ s_k. A sudden change of the day hits one block, not the whole test.
 *
 * Least squares of the whole model, for any other order (A/B/A). σ² is settled by the residuals together with what is
 * known beforehand of a cell's repeatability: a log-normal of log sd λ counts as 1/(2λ²) degrees of freedom (the two
 * have the same variance of log σ²). There a sudden change of the day could look like the part, so g is the average over
 * two kinds of day, each as likely beforehand: a steady drift of any size, and a step after any one of the pulls, of
 * which STEP_SDS·σ is usual. Given the day's shape s (of mean 0 and mean square 1 within its day), with y and b the log
 * power and [is B] less their days' means,
 *
 *   A = (bᵀb  bᵀs; bᵀs  sᵀs + κ),  κ = 1/STEP_SDS² for a step and 0 for the drift,  (ĝ, â) = A⁻¹ (bᵀy, sᵀy),
 *   Q = ν₀σ₀² + yᵀy − (bᵀy, sᵀy)(ĝ, â)ᵀ,   g ~ ĝ + t_ν √(Q/ν · (A⁻¹)₁₁),   weight ∝ |A|^(−½) Q^(−ν/2),
 *
 * ν = ν₀ + pulls − days − 1 (the usual normal–gamma law). Where both halves of A agree, or the drift is seen within the
 * runs, the step has little weight; else the interval is as wide as it must be.
 */

/** One pull of a part test that counts, in the order made. */
export interface PartPoint {
  readonly group: 'a' | 'b';
  readonly day: string;
  /** Place in its day's order, excluded pulls counted. */
  readonly order: number;
  /** Log mean power over the band [%]: 100 times the natural logarithm. */
  readonly logPowerPercent: number;
}

/** A figure with its standard error and the degrees of freedom of that. */
export interface Estimate {
  readonly value: number;
  readonly error: number;
  readonly freedom: number;
}

/** Value and interval that leaves a part out on both sides together. */
export function intervalOf({ value, error, freedom }: Estimate, leave: number) {
  const half = tQuantile(1 - leave / 2, freedom) * error;
  return { value, low: value - half, high: value + half };
}

/** Chance that the true figure is above zero. */
export const chanceAbove = ({ value, error, freedom }: Estimate): number =>
  tBelow(value / error, freedom);

/**
 * Differences of B over A by block [%] with the drift taken out, and what the blocks' means say of the drift; null where
 * the pulls do not fall into blocks from the first to the last whole one.
 * @param points  in the order made; one that has no partner yet is left to the next look
 */
export function inBlocks(
  points: readonly PartPoint[],
): { readonly differences: readonly number[]; readonly driftPercent: number | null } | null {
  const blocks: { d: number; s: number; mean: number; at: number; day: string }[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) {
    const [first, second] = [points[i]!, points[i + 1]!];
    if (first.group === second.group || first.day !== second.day) return null;
    const s = second.group === 'b' ? 1 : -1;
    const apart = second.order - first.order;
    blocks.push({
      d: s * (second.logPowerPercent - first.logPowerPercent),
      s: s * apart,
      mean: (first.logPowerPercent + second.logPowerPercent) / 2,
      at: (first.order + second.order) / 2,
      day: first.day,
    });
  }
  if (blocks.length === 0) return null;
  const drift = slopeWithin(blocks);
  return {
    differences: blocks.map(({ d, s }) => 100 * Math.expm1((d - (drift ?? 0) * s) / 100)),
    driftPercent: drift,
  };
}

/** Slope of the blocks' means over the order, within days; null where no day has two of them. */
function slopeWithin(blocks: readonly { mean: number; at: number; day: string }[]): number | null {
  let [cross, square] = [0, 0];
  for (const day of new Set(blocks.map((block) => block.day))) {
    const own = blocks.filter((block) => block.day === day);
    const [at, mean] = [
      own.reduce((sum, block) => sum + block.at, 0) / own.length,
      own.reduce((sum, block) => sum + block.mean, 0) / own.length,
    ];
    for (const block of own) {
      cross += (block.at - at) * (block.mean - mean);
      square += (block.at - at) ** 2;
    }
  }
  return square > 0 ? cross / square : null;
}

export interface Separated {
  /** Log gain of B over A with a steady drift taken out [%]; null where the order cannot tell it from that, or the days. */
  readonly gain: Estimate | null;
  /** Drift with each pull [%]; null where it cannot be told from the part. */
  readonly drift: Estimate | null;
  /** Pull-to-pull sd [%] with its degrees of freedom. */
  readonly repeatability: { readonly value: number; readonly freedom: number };
}

/** A step of the day, in sds of pull to pull (ours): 1 % where pulls repeat within 0.4 %. */
const STEP_SDS = 2.5;

/** Part of a column's square that must be left after the others are taken out of it: less is rounding. */
const LEAST_LEFT = 1e-9;

/**
 * Gain and drift by least squares.
 * @param statedPercent  the cell's pull-to-pull sd that the shop states [%], or null
 */
export function byLeastSquares(
  points: readonly PartPoint[],
  statedPercent: number | null,
): Separated {
  const days = [...new Set(points.map(({ day }) => day))];
  const y = Float64Array.from(points, ({ logPowerPercent }) => logPowerPercent);
  const isB = Float64Array.from(points, ({ group }) => (group === 'b' ? 1 : 0));
  const order = Float64Array.from(points, (point) => point.order);
  const levels = days.map((day) =>
    Float64Array.from(points, (point) => (point.day === day ? 1 : 0)),
  );
  // The column of interest less all that the others can say of it: ĝ is then one product (Frisch and Waugh).
  const rest = (column: Float64Array, others: readonly Float64Array[]) => {
    const left = lessOthers(column, others);
    return dot(left, left) > LEAST_LEFT * Math.max(1, dot(column, column)) ? left : null;
  };
  const hasDrift = rest(order, levels) !== null;
  const forGain = rest(isB, hasDrift ? [...levels, order] : levels);
  const forDrift = hasDrift ? rest(order, [...levels, isB]) : null;
  const all = [...levels, ...(hasDrift ? [order] : []), ...(forGain !== null ? [isB] : [])];
  const residual = lessOthers(y, all);
  const before = knownBefore(statedPercent);
  const freedom = before.freedom + Math.max(0, points.length - all.length);
  const variance = (before.freedom * before.sd ** 2 + dot(residual, residual)) / freedom;
  const estimate = (column: Float64Array): Estimate => ({
    value: dot(column, y) / dot(column, column),
    error: Math.sqrt(variance / dot(column, column)),
    freedom,
  });
  const drift = forDrift === null ? null : estimate(forDrift);
  return {
    gain: forGain === null ? null : estimate(forGain),
    drift,
    repeatability: { value: Math.sqrt(variance), freedom },
  };
}

/**
 * What is known of a cell's pull-to-pull sd [%] before the test, and how many degrees of freedom that is worth. What is
 * stated moves the middle and counts for no more: a test rests on its own scatter, and a cell can have a worse day.
 */
const knownBefore = (statedPercent: number | null) => ({
  sd: statedPercent ?? 100 * REPEAT_MEDIAN,
  freedom: 1 / (2 * REPEAT_LOG_SD ** 2),
});

/** One kind of day, and what the gain is on it. */
interface OnDay extends Estimate {
  readonly weight: number;
}

/**
 * Log gain of B over A [%] whether the day drifted or changed at once.
 * @param points  of at least one day that has both sides
 * @param statedPercent  as for `byLeastSquares`
 */
export function whateverTheDay(
  points: readonly PartPoint[],
  statedPercent: number | null,
): readonly OnDay[] {
  const days = [...new Set(points.map(({ day }) => day))];
  const levels = days.map((day) => Float64Array.from(points, (point) => +(point.day === day)));
  const within = (column: Float64Array) => lessOthers(column, levels);
  const y = within(Float64Array.from(points, ({ logPowerPercent }) => logPowerPercent));
  const b = within(Float64Array.from(points, ({ group }) => +(group === 'b')));
  const before = knownBefore(statedPercent);
  const freedom = before.freedom + Math.max(0, points.length - days.length - 1);
  const on = (shape: Float64Array, ridge: number, prior: number) => {
    const raw = within(shape);
    const square = dot(raw, raw);
    // A shape without a place in these days, as a step between two of them.
    if (!(square > LEAST_LEFT)) return [];
    const s = raw.map((value) => value * Math.sqrt(points.length / square));
    const [bb, bs, ss] = [dot(b, b), dot(b, s), dot(s, s) + ridge];
    const determinant = bb * ss - bs * bs;
    if (!(determinant > LEAST_LEFT * bb * ss)) return [];
    const [by, sy] = [dot(b, y), dot(s, y)];
    const value = (ss * by - bs * sy) / determinant;
    const amount = (bb * sy - bs * by) / determinant;
    const q = before.freedom * before.sd ** 2 + Math.max(0, dot(y, y) - by * value - sy * amount);
    const log = Math.log(prior) - 0.5 * Math.log(determinant) - 0.5 * freedom * Math.log(q);
    return [{ value, error: Math.sqrt(((q / freedom) * ss) / determinant), freedom, log }];
  };
  const steps = points.slice(1).map((_, i) => Float64Array.from(points, (__, k) => +(k > i)));
  const found = [
    ...on(
      Float64Array.from(points, ({ order }) => order),
      0,
      0.5,
    ),
    ...steps.flatMap((step) => on(step, 1 / STEP_SDS ** 2, 0.5 / steps.length)),
  ];
  const top = Math.max(...found.map(({ log }) => log));
  const total = found.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  return found.map(({ log, ...one }) => ({ ...one, weight: Math.exp(log - top) / total }));
}

/** Chance that the gain lies below x, over all kinds of day. */
export const chanceBelowOn = (days: readonly OnDay[], x: number): number =>
  days.reduce(
    (sum, { value, error, freedom, weight }) => sum + weight * tBelow((x - value) / error, freedom),
    0,
  );

/** Median, and the interval that leaves a part out on both sides together, over all kinds of day. */
export function intervalOn(days: readonly OnDay[], leave: number) {
  const at = (p: number) => {
    const reach = (z: number) => days.map(({ value, error }) => value + z * error);
    let [low, high] = [Math.min(...reach(-40)), Math.max(...reach(40))];
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (chanceBelowOn(days, middle) < p) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return { value: at(0.5), low: at(leave / 2), high: at(1 - leave / 2) };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** A column less its projection on others (Gram–Schmidt, twice for rounding's sake). */
function lessOthers(column: Float64Array, others: readonly Float64Array[]): Float64Array {
  const bases: Float64Array[] = [];
  const without = (from: Float64Array) => {
    const left = Float64Array.from(from);
    for (let pass = 0; pass < 2; pass++)
      for (const base of bases) {
        const amount = dot(left, base) / dot(base, base);
        for (let i = 0; i < left.length; i++) left[i]! -= amount * base[i]!;
      }
    return left;
  };
  for (const other of others) {
    const left = without(other);
    if (dot(left, left) > LEAST_LEFT * dot(other, other)) bases.push(left);
  }
  return without(column);
}

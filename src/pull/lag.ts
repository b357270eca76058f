import { leastSquares, median } from '../numerics/index.ts';
import { inertiaTorqueNm } from '../trade/index.ts';
import { channelsOf, speedChannel } from './channels.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';

/** How late the torque follows, with the sd of that. */
export interface Lag {
  readonly lagS: number;
  readonly sdS: number;
}

/** What a step must look like before a lag is read from it. */
const STEP = { share: 0.35, watchS: 0.45, leastPoints: 5, longestLagS: 0.4 };
/** Lags weighed, a fifteenth apart from one to the next, each with the width it stands for (flat prior in time). */
const LAGS_S = Array.from({ length: 67 }, (_, i) => 0.0051 * 1.0675 ** i);
/**
 * The engine's own share in a step: the charge follows the throttle as the manifold fills. Time constant
 * volume of manifold over volume displaced × 120/(speed × VE): 10 ms of single runners to 60 ms of a large
 * plenum held at low speed; each equally likely. Our own range from that formula, no source.
 */
const FILLINGS_S = [0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06];
/** How finely the moment is tried at which the throttle moved, between two rows. */
const PART_S = 0.008;
/**
 * Noise of neighbours is correlated and its colour unknown: residuals count for this part of what white ones
 * would. Set so that the sd is that of the error on simulated cells (lag.test.ts).
 */
const WHITE_SHARE = 0.25;
/** A held speed that has moved by so much is held no more: the sweep begins, and its inertia with it. */
const HELD_SHARE = 0.012;
const LEAST_SD_S = 0.002;

/**
 * First-order lag of the torque column [s], read from the recording itself: where the throttle jumps, torque
 * follows through two lags in a row, the filling of the manifold τf and the sensor with its filter τ:
 * T = T₀ + (T₁ − T₀)(1 − (τ e^(−t/τ) − τf e^(−t/τf))/(τ − τf)). Only τ delays a sweep, in which the throttle
 * stands still, so τf is integrated over its range; the sum of both is well seen, and what the shape leaves
 * open between them is in the sd. Every jump up or down within reach of the pull speaks, with T₁ free and the
 * moment of the jump anywhere between the last row before it and the first after. A change of acceleration
 * at the jump passes through the sensor alone and is put in where the inertia is known. Null where no
 * throttle is recorded, it does not jump, or the torque does not follow in such a shape.
 * @param inertiaKgM2 of all that turns; null: not known
 */
export function lagFromThrottle(
  recording: Recording,
  torque: Channel,
  span: PullSpan,
  inertiaKgM2: number | null,
): Lag | null {
  const [throttle] = channelsOf(recording, 'throttle');
  const [time] = channelsOf(recording, 'time');
  if (throttle === undefined || time === undefined) return null;
  const speed = speedChannel(recording);
  // One lag for all steps; each step has a filling of its own, since the speed at which it stands does.
  const logPosterior = Float64Array.from(LAGS_S, Math.log);
  let used = 0;
  for (const row of jumps(throttle, time, span)) {
    const opens = throttle.values[row]! > throttle.values[row - 1]!;
    const step = stepAt(time.values, torque.values, speed.values, row, opens, inertiaKgM2 ?? 0);
    const profile = step === null ? null : profileOf(step);
    if (profile === null) continue;
    used++;
    for (let k = 0; k < LAGS_S.length; k++) logPosterior[k]! += profile[k]!;
  }
  if (used === 0) return null;
  const best = Math.max(...logPosterior);
  const weights = Array.from(logPosterior, (value) => Math.exp(value - best));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = weights.reduce((sum, w, k) => sum + w * LAGS_S[k]!, 0) / total;
  const variance = weights.reduce((sum, w, k) => sum + w * (LAGS_S[k]! - mean) ** 2, 0) / total;
  if (mean > STEP.longestLagS) return null;
  return { lagS: mean, sdS: Math.hypot(LEAST_SD_S, Math.sqrt(variance)) };
}

/** Rows at which the throttle has just jumped by a third of its range or more, near the pull. */
function jumps(throttle: Channel, time: Channel, { firstRow, lastRow }: PullSpan): number[] {
  const values = throttle.values;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!(high - low > 0.2)) return [];
  const found: number[] = [];
  const from = time.values[firstRow]! - 5;
  const to = time.values[lastRow]! + 1;
  for (let row = 1; row < values.length; row++) {
    if (!(time.values[row]! >= from && time.values[row]! <= to)) continue;
    const step = Math.abs(values[row]! - values[row - 1]!);
    if (step > STEP.share * (high - low)) found.push(row);
  }
  return found;
}

interface Step {
  /** Since the first row after the jump [s], and torque less that before it. */
  readonly since: readonly number[];
  readonly rise: readonly number[];
  /** Between the rows before and after the jump [s]. */
  readonly gap: number;
  /** Torque that the change of acceleration takes at once and as it goes on, through the sensor alone. */
  readonly inertiaNm: number;
  readonly inertiaNmPerS: number;
}

/** The readings of one step; null where it is too short, too small or in a gap. */
function stepAt(
  time: Float64Array,
  torque: Float64Array,
  speed: Float64Array,
  row: number,
  opens: boolean,
  inertiaKgM2: number,
): Step | null {
  const before = torque.subarray(Math.max(0, row - 5), row).filter(Number.isFinite);
  if (before.length === 0) return null;
  // A sweep's torque moves until the throttle shuts: where it would then have stood, not where it was before.
  const line = opens ? null : lineFrom(time, torque, row - 1, -1);
  const start =
    line !== null
      ? line[0]! + (line[1]! * (time[row]! - time[row - 1]!)) / 2
      : before.length < 3
        ? before[before.length - 1]!
        : median(before);
  const gap = time[row]! - time[row - 1]!;
  if (!(gap > 0) || gap > 0.2) return null;
  // At a thousand hertz neighbours say the same thing; some forty points of the step are all it has to say.
  const stride = Math.max(1, Math.floor(STEP.watchS / 40 / gap));
  const heldRpm = median(speed.subarray(Math.max(0, row - 5), row));
  const [since, rise]: [number[], number[]] = [[], []];
  for (let i = row; i < time.length && time[i]! - time[row]! < STEP.watchS; i += stride) {
    if (!Number.isFinite(torque[i]!)) continue;
    // The mean of the next readings, so that the noise of one does not end the step.
    if (opens) {
      const next = speed.subarray(i, i + 5);
      if (Math.abs(median(next) - heldRpm) > HELD_SHARE * heldRpm) break;
    }
    since.push(time[i]! - time[row]!);
    rise.push(torque[i]! - start);
  }
  if (since.length < STEP.leastPoints) return null;
  const height = rise[rise.length - 1]!;
  const noise = median(rise.slice(1).map((value, i) => Math.abs(value - rise[i]!)));
  if (Math.abs(height) < 8 * noise) return null;
  const perRate = -inertiaTorqueNm(inertiaKgM2, 1);
  const after = opens ? null : lineFrom(time, speed, row, 1);
  const until = opens ? null : lineFrom(time, speed, row - 1, -1);
  return {
    since,
    rise,
    gap,
    inertiaNm: perRate * ((after?.[1] ?? 0) - (until?.[1] ?? 0)),
    inertiaNmPerS: perRate * 2 * (after?.[2] ?? 0),
  };
}

/**
 * Coefficients at a row of the parabola through a column over what comes after it (1), or of the straight
 * line through what came before it (−1), per second; null where too little is there.
 */
function lineFrom(
  time: Float64Array,
  column: Float64Array,
  row: number,
  direction: 1 | -1,
): readonly number[] | null {
  const [places, values]: [number[][], number[]] = [[], []];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = row; i >= 0 && i < time.length; i += direction) {
    const since = time[i]! - time[row]!;
    if (Math.abs(since) > STEP.watchS) break;
    if (!Number.isFinite(column[i]!) || Math.abs(since) <= last) continue;
    last = Math.abs(since);
    places.push(direction === 1 ? [1, since, since * since] : [1, since]);
    values.push(column[i]!);
  }
  return places.length < 6 ? null : leastSquares(places, values).coefficients;
}

/** Log likelihood of each lag from one step; null where the torque does not step as lags would have it. */
function profileOf(step: Step): Float64Array | null {
  const { since, rise, gap } = step;
  const count = since.length;
  const parts = Math.max(2, Math.ceil(gap / PART_S));
  const places = Array.from({ length: parts }, (_, part) => {
    const offset = (gap * (part + 0.5)) / parts;
    return { offset, fills: FILLINGS_S.map((filling) => decay(since, offset, filling)) };
  });
  let flat = 0;
  for (const value of rise) flat += value * value;
  const profile = new Float64Array(LAGS_S.length);
  const sums = new Float64Array(parts * FILLINGS_S.length);
  const driven = new Float64Array(count);
  let bestSum = Number.POSITIVE_INFINITY;
  LAGS_S.forEach((lagS, k) => {
    places.forEach(({ offset, fills }, part) => {
      const sensor = decay(since, offset, lagS);
      for (let i = 0; i < count; i++) {
        const follows = 1 - sensor[i]!;
        const late = since[i]! + offset - lagS * follows;
        driven[i] = rise[i]! - step.inertiaNm * follows - step.inertiaNmPerS * late;
      }
      fills.forEach((fill, f) => {
        sums[part * FILLINGS_S.length + f] = misfit(driven, sensor, fill, lagS, FILLINGS_S[f]!);
      });
    });
    const least = Math.min(...sums);
    bestSum = Math.min(bestSum, least);
    // Gaussian residuals of unknown size: the likelihood of the sum of squares is its power −n/2.
    const power = (-WHITE_SHARE * count) / 2;
    const floor = Math.max(least, 1e-9 * flat);
    let mean = 0;
    for (const sum of sums) mean += Math.max(sum / floor, 1) ** power / sums.length;
    profile[k] = power * Math.log(floor / flat) + Math.log(mean);
  });
  return bestSum < 0.03 * flat ? profile : null;
}

/** What a lag still holds back of a step, at each reading. */
function decay(since: readonly number[], offset: number, lagS: number): Float64Array {
  const left = new Float64Array(since.length);
  if (lagS > 0)
    for (let i = 0; i < left.length; i++) left[i] = Math.exp(-(since[i]! + offset) / lagS);
  return left;
}

/** Sum of squares of a step about the best multiple of the two lags' shape; no lag equals a filling. */
function misfit(
  driven: Float64Array,
  sensor: Float64Array,
  fill: Float64Array,
  lagS: number,
  filling: number,
): number {
  const [own, filled] = [lagS / (lagS - filling), filling / (lagS - filling)];
  let [square, across, size] = [0, 0, 0];
  for (let i = 0; i < driven.length; i++) {
    const shape = 1 - own * sensor[i]! + filled * fill[i]!;
    square += driven[i]! * driven[i]!;
    across += shape * driven[i]!;
    size += shape * shape;
  }
  return square - (across * across) / size;
}

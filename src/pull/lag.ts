import { median } from '../numerics/index.ts';
import { channelsOf } from './channels.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';

/** How late the torque follows, with the sd of that. */
export interface Lag {
  readonly lagS: number;
  readonly sdS: number;
}

/** What a step must look like before a lag is read from it. */
const STEP = { share: 0.35, watchS: 0.45, leastPoints: 5, longestLagS: 0.4 };
const LAGS_S = Array.from({ length: 80 }, (_, i) => 0.005 * (i + 1));
const PARTS = 6;
/** What the filling of the manifold may add to a step and not to a sweep [s]. Our own figure, no source. */
const FILLING_SD_S = 0.015;

/**
 * First-order lag of the torque column [s], read from the recording itself: where the throttle jumps, the
 * torque follows T = T₀ + (T₁ − T₀)(1 − e^(−t/τ)). Every jump up or down within reach of the pull speaks,
 * with T₁ free and the moment of the jump anywhere between the last row before it and the first after; the
 * posterior over τ is averaged. What it finds is sensor, filter and the filling of the manifold together,
 * which is what must be taken out of a sweep in which the throttle stands still only in part; the filling
 * (some hundredths of a second) makes it an upper figure. Null where no throttle is recorded, it does not
 * jump, or the torque does not follow in such a shape.
 */
export function lagFromThrottle(recording: Recording, torque: Channel, span: PullSpan): Lag | null {
  const [throttle] = channelsOf(recording, 'throttle');
  const [time] = channelsOf(recording, 'time');
  if (throttle === undefined || time === undefined) return null;
  const logPosterior = new Float64Array(LAGS_S.length);
  let used = 0;
  for (const row of jumps(throttle, time, span)) {
    const profile = stepProfile(time.values, torque.values, row);
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
  return { lagS: mean, sdS: Math.hypot(FILLING_SD_S, Math.sqrt(variance)) };
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

/** Log likelihood of each lag from one step; null where the torque does not step as a lag would have it. */
function stepProfile(time: Float64Array, torque: Float64Array, row: number): Float64Array | null {
  const before = torque.subarray(Math.max(0, row - 5), row).filter(Number.isFinite);
  if (before.length === 0) return null;
  const start = before.length < 3 ? before[before.length - 1]! : median(before);
  const gap = time[row]! - time[row - 1]!;
  // At a thousand hertz neighbours say the same thing; some forty points of the step are all it has to say.
  const stride = Math.max(1, Math.floor(STEP.watchS / 40 / gap));
  const [since, rise]: [number[], number[]] = [[], []];
  for (let i = row; i < time.length && time[i]! - time[row]! < STEP.watchS; i += stride) {
    if (!Number.isFinite(torque[i]!)) continue;
    since.push(time[i]! - time[row]!);
    rise.push(torque[i]! - start);
  }
  if (since.length < STEP.leastPoints || !(gap > 0) || gap > 0.2) return null;
  const height = rise[rise.length - 1]!;
  const noise = median(rise.slice(1).map((value, i) => Math.abs(value - rise[i]!)));
  if (Math.abs(height) < 8 * noise) return null;
  const profile = new Float64Array(LAGS_S.length);
  let flat = 0;
  for (const value of rise) flat += value * value;
  let bestSum = Number.POSITIVE_INFINITY;
  for (let k = 0; k < LAGS_S.length; k++) {
    const logs: number[] = [];
    for (let part = 0; part <= PARTS; part++) {
      const offset = (gap * part) / PARTS;
      let [across, own] = [0, 0];
      for (let i = 0; i < since.length; i++) {
        const shape = 1 - Math.exp(-(since[i]! + offset) / LAGS_S[k]!);
        across += shape * rise[i]!;
        own += shape * shape;
      }
      const sum = flat - (across * across) / own;
      bestSum = Math.min(bestSum, sum);
      // Gaussian residuals of unknown size: the likelihood of the sum of squares is its power −n/2.
      logs.push((-since.length / 2) * Math.log(Math.max(sum / flat, 1e-9)));
    }
    const most = Math.max(...logs);
    profile[k] = most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
  }
  return bestSum < 0.03 * flat ? profile : null;
}

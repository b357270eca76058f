import type { Channel, PullSpan } from './recording.ts';

/** Values with their times, in the order of time, without what carries no news. */
export interface Track {
  readonly timeS: Float64Array;
  readonly value: Float64Array;
  /** Rows that were left out because their time did not move on. */
  readonly duplicates: number;
  /** How many rows a value stands before it moves: 1 unless the logger repeats a slower source. */
  readonly held: number;
  /** Longest step of time, and the usual one [s]. */
  readonly longestStepS: number;
  readonly usualStepS: number;
}

/** A column is taken for held when more than this part of its rows repeat the row before, digit for digit. */
const HELD_SHARE = 0.5;
/**
 * Blocks of at least so many values lose their highest and lowest: one wild sample in a thousand hertz is not
 * the engine.
 */
const TRIM_FROM = 5;

/**
 * One channel of a pull, ready to fit: missing values, repeated time stamps and the repeats of a slow source
 * left out, and averaged over equal blocks down to at most `most` points. Block means of white noise and
 * wander are again white noise and wander, so the noise model of the fit holds for them (numerics/wander.ts).
 */
export function condense(
  time: Channel | null,
  channel: Channel,
  span: PullSpan,
  most: number,
): Track {
  const rows = span.lastRow - span.firstRow + 1;
  const times = new Float64Array(rows);
  const values = new Float64Array(rows);
  let [count, duplicates, repeats] = [0, 0, 0];
  for (let row = span.firstRow; row <= span.lastRow; row++) {
    const t = time === null ? row - span.firstRow : time.values[row]!;
    const v = channel.values[row]!;
    if (!Number.isFinite(t) || !Number.isFinite(v)) continue;
    if (count > 0 && t <= times[count - 1]!) {
      duplicates++;
      continue;
    }
    if (count > 0 && v === values[count - 1]) repeats++;
    times[count] = t;
    values[count] = v;
    count++;
  }
  const readings = count;
  const isHeld = repeats > HELD_SHARE * count && repeats < count - 2;
  if (isHeld) {
    count = 0;
    for (let i = 0; i < readings; i++) {
      if (i > 0 && values[i] === values[count - 1]) continue;
      times[count] = times[i]!;
      values[count] = values[i]!;
      count++;
    }
  }
  const steps = new Float64Array(Math.max(0, count - 1));
  let longestStepS = 0;
  for (let i = 0; i < steps.length; i++) {
    steps[i] = times[i + 1]! - times[i]!;
    if (steps[i]! > longestStepS) longestStepS = steps[i]!;
  }
  return {
    ...averaged(times.subarray(0, count), values.subarray(0, count), most),
    duplicates,
    held: isHeld ? readings / count : 1,
    longestStepS,
    usualStepS: count < 2 ? 0 : (times[count - 1]! - times[0]!) / (count - 1),
  };
}

function averaged(times: Float64Array, values: Float64Array, most: number) {
  const block = Math.max(1, Math.ceil(times.length / most));
  const count = Math.floor(times.length / block);
  const timeS = new Float64Array(count);
  const value = new Float64Array(count);
  for (let b = 0; b < count; b++) {
    let [sumT, sum, high, low] = [0, 0, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let i = b * block; i < (b + 1) * block; i++) {
      const v = values[i]!;
      sumT += times[i]!;
      sum += v;
      if (v > high) high = v;
      if (v < low) low = v;
    }
    timeS[b] = sumT / block;
    value[b] = block >= TRIM_FROM ? (sum - high - low) / (block - 2) : sum / block;
  }
  return { timeS, value };
}

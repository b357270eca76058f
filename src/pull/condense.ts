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
/** Blocks of at least so many values lose their highest and lowest: one wild sample in a thousand hertz is not the engine. */
const TRIM_FROM = 5;

/**
 * One channel of a pull, ready to fit: missing values, repeated time stamps and the repeats of a slow source left out, and averaged
 * over equal blocks down to at most `most` points. Block means of white noise and wander are again white noise and
 * wander, so the noise model of the fit holds for them (numerics/wander.ts).
 */
export function condense(
  time: Channel | null,
  channel: Channel,
  span: PullSpan,
  most: number,
): Track {
  const timeS: number[] = [];
  const value: number[] = [];
  let duplicates = 0;
  let last = Number.NEGATIVE_INFINITY;
  let repeats = 0;
  for (let row = span.firstRow; row <= span.lastRow; row++) {
    const t = time === null ? row - span.firstRow : time.values[row]!;
    const v = channel.values[row]!;
    if (!Number.isFinite(t) || !Number.isFinite(v)) continue;
    if (t <= last) {
      duplicates++;
      continue;
    }
    last = t;
    if (value.length > 0 && v === value[value.length - 1]) repeats++;
    timeS.push(t);
    value.push(v);
  }
  const isHeld = repeats > HELD_SHARE * value.length && repeats < value.length - 2;
  const moved = isHeld ? value.map((v, i) => i === 0 || v !== value[i - 1]) : null;
  const times = moved === null ? timeS : timeS.filter((_, i) => moved[i]);
  const values = moved === null ? value : value.filter((_, i) => moved[i]);
  const steps = times.slice(1).map((t, i) => t - times[i]!);
  const sorted = Float64Array.from(steps).sort();
  return {
    ...averaged(times, values, most),
    duplicates,
    held: isHeld ? value.length / values.length : 1,
    longestStepS: sorted.length > 0 ? sorted[sorted.length - 1]! : 0,
    usualStepS: sorted.length > 0 ? sorted[sorted.length >> 1]! : 0,
  };
}

function averaged(times: readonly number[], values: readonly number[], most: number) {
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

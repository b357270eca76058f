import type { Banded } from '../pull/types.ts';

/** Quantile of sorted values by linear interpolation (definition 7 of Hyndman and Fan 1996). */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const i = Math.floor(place);
  const low = sorted[i]!;
  const high = sorted[Math.min(sorted.length - 1, i + 1)]!;
  if (low === high) return low;
  // Between a number and infinity nothing can be interpolated: the nearer of the two.
  if (!Number.isFinite(high - low)) return place - i < 0.5 ? low : high;
  return low + (place - i) * (high - low);
}

/** Middle and 95 % interval of values, which are sorted in place. */
export function bandOf(values: Float64Array): Banded {
  values.sort();
  return {
    value: quantileOf(values, 0.5),
    low: quantileOf(values, 0.025),
    high: quantileOf(values, 0.975),
  };
}

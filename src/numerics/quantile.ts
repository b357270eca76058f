import { InputError } from '../errors.ts';

/**
 * Quantile of the finite values, linear between order statistics (the rule R calls type 7).
 * @throws InputError when no value is finite
 */
export function quantile(values: ArrayLike<number>, probability: number): number {
  const kept = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isFinite(value)) kept[count++] = value;
  }
  if (count === 0) throw new InputError('There is no number to take a quantile of.');
  const place = Math.min(1, Math.max(0, probability)) * (count - 1);
  const below = Math.floor(place);
  const low = select(kept, count, below);
  if (place === below) return low;
  // The next order statistic is the least of what the selection left above.
  let high = Number.POSITIVE_INFINITY;
  for (let i = below + 1; i < count; i++) if (kept[i]! < high) high = kept[i]!;
  return low + (place - below) * (high - low);
}

/**
 * The order statistic of a rank; reorders the values so that what stands before it is no greater and what
 * stands after it no less. Linear in the count where a sort is not.
 * @source C. A. R. Hoare, Algorithm 65: FIND, with the middle of three for the pivot [from memory]; checked
 *   against a sort in quantile.test.ts
 */
function select(values: Float64Array, count: number, rank: number): number {
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const a = values[from]!;
    const b = values[(from + to) >> 1]!;
    const c = values[to]!;
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = from;
    let j = to;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const held = values[i]!;
      values[i++] = values[j]!;
      values[j--] = held;
    }
    if (rank <= j) to = j;
    else if (rank >= i) from = i;
    else break;
  }
  return values[rank]!;
}

/** Median of the finite values. Throws InputError when there is none. */
export const median = (values: ArrayLike<number>): number => quantile(values, 0.5);

/** 1/Φ⁻¹(3/4): makes the median absolute deviation of Gaussian values their standard deviation. */
const MAD_TO_SD = 1.482602218505602;

/** Standard deviation by the median absolute deviation about `centre`; half of the values may be wild. */
export function robustSd(values: ArrayLike<number>, centre = median(values)): number {
  const away = new Float64Array(values.length);
  for (let i = 0; i < away.length; i++) away[i] = Math.abs(values[i]! - centre);
  return MAD_TO_SD * median(away);
}

import { InputError } from '../errors.ts';

/**
 * Quantile of the finite values, linear between order statistics (the rule R calls type 7).
 * @throws InputError when no value is finite
 */
export function quantile(values: ArrayLike<number>, probability: number): number {
  const sorted = Float64Array.from(values).filter(Number.isFinite).sort();
  if (sorted.length === 0) throw new InputError('There is no number to take a quantile of.');
  const place = Math.min(1, Math.max(0, probability)) * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
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

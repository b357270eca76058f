import type { ResponsePosterior } from './posterior.ts';
import type { SettingInterval } from './types.ts';

/** An interval from quantiles in mirrored settings; ends beyond `reach` are open. */
export function intervalOf(
  value: number,
  low: number,
  high: number,
  reach: readonly [number, number],
  mirror: number,
): SettingInterval {
  const shown = value < reach[0] || value > reach[1] ? null : mirror * value;
  const [a, b] = [low < reach[0] ? null : mirror * low, high > reach[1] ? null : mirror * high];
  return mirror > 0 ? { value: shown, low: a, high: b } : { value: shown, low: b, high: a };
}

export const NOTHING: SettingInterval = { value: null, low: null, high: null };

/**
 * Chance left at the closed end when the other is open: half way between that of a one-sided and a two-sided interval,
 * for the same pulls that leave one end open also push the other (test/truth).
 */
const ONE_SIDED = 0.0375;

/** The best with its 95 % interval. An end that lies beyond what the ladder can tell (`reach`) is open. */
export function bestOf(
  posterior: ResponsePosterior,
  reach: readonly [number, number],
  shown: readonly [number, number],
  rungs: number,
  mirror: number,
): SettingInterval {
  if (rungs < 2) return NOTHING;
  const q = posterior.bestQuantile;
  const value = q(0.5);
  const openAbove = q(0.975) > reach[1];
  const openBelow = q(0.025) < reach[0];
  const low = q(openAbove && !openBelow ? ONE_SIDED : 0.025);
  const high = q(openBelow && !openAbove ? 1 - ONE_SIDED : 0.975);
  const interval = intervalOf(value, low, high, reach, mirror);
  return value < shown[0] || value > shown[1] ? { ...interval, value: null } : interval;
}

import type { Window } from '../../src/build/index.ts';

/** The stretch of values that a window is drawn on; what lies beyond is shown at its end. */
export function stretchOf(
  { low, high, stopBelow, stopAbove }: Window,
  value: number | null,
): readonly [number, number] | null {
  if (low !== null && high !== null && high > low) {
    const wide = high - low;
    return [
      Math.min(low - 0.6 * wide, (stopBelow ?? low) - 0.25 * wide),
      Math.max(high + 0.6 * wide, (stopAbove ?? high) + 0.25 * wide),
    ];
  }
  const limit = low ?? high;
  if (limit === null) return null;
  const stops = [stopBelow, stopAbove].filter((one): one is number => one !== null);
  const away = Math.max(
    Math.abs(limit) * 0.4,
    ...stops.map((stop) => 1.5 * Math.abs(stop - limit)),
    value === null ? 0 : Math.min(1.25 * Math.abs(value - limit), Math.abs(limit) * 2),
  );
  const half = away === 0 ? 1 : away;
  return [limit - half, limit + half];
}

/** Share of the way from one end to the other, kept on the picture. */
export const shareOf = (value: number, [from, to]: readonly [number, number]): number =>
  Math.min(1, Math.max(0, (value - from) / (to - from)));

import { type ScaleLinear, scaleLinear } from 'd3-scale';

export type Scale = ScaleLinear<number, number>;
export type Span = readonly [number, number];

/** The rectangle inside the axes [px]. */
export interface Plot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export function linear(domain: Span, range: Span): Scale {
  return scaleLinear().domain(domain).range(range);
}

/** Smallest and largest finite value; null where there is none. */
export function extentOf(
  ...lists: readonly (readonly (number | null | undefined)[])[]
): Span | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const list of lists) {
    for (const value of list) {
      if (value === null || value === undefined || !Number.isFinite(value)) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return low <= high ? [low, high] : null;
}

/** A span widened by a share of its length on each side; a span without length gets one. */
export function padded([low, high]: Span, share: number, least = 1e-9): Span {
  const length = Math.max(high - low, least);
  const middle = (low + high) / 2;
  return [middle - length * (0.5 + share), middle + length * (0.5 + share)];
}

/** Ticks about `every` pixels apart. */
export function ticksFor(scale: Scale, every: number): readonly number[] {
  const [from = 0, to = 0] = scale.range();
  return scale.ticks(Math.max(2, Math.round(Math.abs(to - from) / every)));
}

/** As many decimals as the distance between ticks needs. */
export function decimalsOf(ticks: readonly number[]): number {
  const step = ticks.length > 1 ? Math.abs(ticks[1]! - ticks[0]!) : 1;
  return Math.max(0, Math.min(4, -Math.floor(Math.log10(step) + 1e-9)));
}

/** Value of a curve given at ascending places, between them by straight lines; null outside. */
export function valueAt(
  places: readonly number[],
  values: readonly (number | null)[],
  at: number,
): number | null {
  const count = places.length;
  if (count === 0 || at < places[0]! || at > places[count - 1]!) return null;
  let low = 0;
  let high = count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (places[middle]! <= at) low = middle;
    else high = middle;
  }
  const [a, b] = [values[low], values[high]];
  if (a === null || a === undefined || b === null || b === undefined) return null;
  const length = places[high]! - places[low]!;
  const value = length === 0 ? a : a + ((b - a) * (at - places[low]!)) / length;
  return Number.isFinite(value) ? value : null;
}

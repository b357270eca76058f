import type { ResponseDraws } from './posterior.ts';

/**
 * Where the knee lies for each draw: the setting from which one more rung gains just `worth` of mean power. Mirrored.
 * With d the place below the best and h the rung: k[(d² − (d+h)²) + c(d³ − (d+h)³)] = worth, a quadratic in d.
 * A response too flat for any rung to be worth it has its knee at minus infinity.
 */
export function kneesOf(draws: ResponseDraws, rung: number, worth: number): Float64Array {
  const h = rung;
  if (draws.shape.name !== 'cubic') {
    const { loss } = draws.shape;
    return Float64Array.from({ length: draws.count }, (_, i) => {
      const [b, k, c] = [draws.best[i]!, draws.curvature[i]!, draws.lean[i]!];
      const gain = (d: number) => loss(d, k, c) - loss(d + h, k, c) - worth;
      return b + crossing(gain, -h / 2, -FARTHEST_RUNGS * h);
    });
  }
  return Float64Array.from({ length: draws.count }, (_, i) => {
    const k = draws.curvature[i]!;
    const c = draws.lean[i]!;
    const a = 3 * c * h;
    const b = 2 * h + 3 * c * h * h;
    const e = h * h + c * h * h * h + worth / k;
    const inside = b * b - 4 * a * e;
    if (inside < 0 || b <= 0) return Number.NEGATIVE_INFINITY;
    return draws.best[i]! + (-2 * e) / (b + Math.sqrt(inside));
  });
}

/** How far below the best a knee is looked for [rungs]. */
const FARTHEST_RUNGS = 40;

/** Where a gain that grows from `near` to `far` comes above zero; minus infinity where it does not. */
export function crossing(gain: (d: number) => number, near: number, far: number): number {
  if (gain(far) < 0) return Number.NEGATIVE_INFINITY;
  let [low, high] = [near, far];
  for (let i = 0; i < 24; i++) {
    const half = (low + high) / 2;
    if (gain(half) < 0) low = half;
    else high = half;
  }
  return (low + high) / 2;
}

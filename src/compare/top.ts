import { Matrix, solve } from 'ml-matrix';

/** The top of a curve. */
export interface Top {
  readonly value: number;
  readonly speed: number;
}

/** The top is looked for where the curve holds at least this part of its highest point. */
const NEAR = 0.99;
/** A cubic takes four points; with fewer than this the window says little more than its highest point. */
const LEAST_POINTS = 7;

/*
 * A top is flat, and what is left of the noise stands on it as bumps: the highest point is the highest bump, too high
 * and of a speed that jumps. So the top is that of the least-squares cubic over the speeds near it, which are settled by
 * the group's most likely curve and are the same for all its draws: value and place then follow the noise almost
 * linearly, and their intervals hold what they promise. A cubic, for tops fall off faster on one side.
 */

/**
 * Reads the tops of curves on equally spaced speeds.
 * @param middle  the most likely of these curves; where its highest point stands at an end of the sweep, tops are
 *                highest points
 */
export function topReader(
  speedRpm: readonly number[],
  middle: Float64Array,
): (y: Float64Array) => Top {
  const count = middle.length;
  let peak = 0;
  for (let m = 1; m < count; m++) if (middle[m]! > middle[peak]!) peak = m;
  const least = NEAR * middle[peak]!;
  let [first, last] = [peak, peak];
  while (first > 0 && middle[first - 1]! >= least) first--;
  while (last < count - 1 && middle[last + 1]! >= least) last++;
  const points = last - first + 1;
  if (peak === 0 || peak === count - 1 || points < LEAST_POINTS)
    return (y) => highestOf(speedRpm, y);
  const [centre, half] = [
    (speedRpm[first]! + speedRpm[last]!) / 2,
    (speedRpm[last]! - speedRpm[first]!) / 2,
  ];
  // Coefficients of the cubic in u = (speed − centre) / half are fixed sums of the curve's values.
  const powers = Matrix.zeros(points, 4);
  for (let i = 0; i < points; i++)
    for (let k = 0; k < 4; k++) powers.set(i, k, ((speedRpm[first + i]! - centre) / half) ** k);
  const operator = solve(powers.transpose().mmul(powers), powers.transpose()).to1DArray();
  const sumOf = (y: Float64Array, k: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++) sum += operator[k * points + i]! * y[first + i]!;
    return sum;
  };
  return (y) => {
    const c0 = sumOf(y, 0);
    const c1 = sumOf(y, 1);
    const c2 = sumOf(y, 2);
    const c3 = sumOf(y, 3);
    const at = (u: number) => c0 + u * (c1 + u * (c2 + u * c3));
    // c₁ + 2c₂u + 3c₃u² = 0, the root with falling slope.
    const inside = c2 * c2 - 3 * c1 * c3;
    const u = inside > 0 && c2 - Math.sqrt(inside) !== 0 ? -c1 / (c2 - Math.sqrt(inside)) : NaN;
    const isInside = Math.abs(u) <= 1 && 2 * c2 + 6 * c3 * u < 0;
    const best = isInside ? u : at(-1) > at(1) ? -1 : 1;
    return { value: at(best), speed: centre + half * best };
  };
}

/** The highest point, between samples by the parabola through the three highest. */
function highestOf(x: readonly number[], y: Float64Array): Top {
  let i = 0;
  for (let m = 1; m < y.length; m++) if (y[m]! > y[i]!) i = m;
  if (i === 0 || i === y.length - 1) return { value: y[i]!, speed: x[i]! };
  const [a, b, c] = [y[i - 1]!, y[i]!, y[i + 1]!];
  const bend = a - 2 * b + c;
  const shift = bend < 0 ? (0.5 * (a - c)) / bend : 0;
  return { value: b - 0.25 * (a - c) * shift, speed: x[i]! + shift * (x[1]! - x[0]!) };
}

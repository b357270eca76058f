import { InputError } from '../errors.ts';

/** Equally spaced knots over [low, high]: `segments` intervals, `segments + 3` cubic B-splines. */
export interface KnotGrid {
  readonly low: number;
  readonly high: number;
  readonly segments: number;
}

/**
 * A cubic B-spline on equally spaced knots over [low, high], with the covariance of its coefficients.
 * Plain data: it crosses to the browser as JSON. Linear functionals of the curve (a value at a speed,
 * a mean over a band) have value c·a and variance c·V·c.
 */
export interface SplineFit extends KnotGrid {
  readonly low: number;
  readonly high: number;
  /** Number of equal knot intervals; there are `segments + 3` coefficients. */
  readonly segments: number;
  readonly coefficients: readonly number[];
  /** Row-major (segments+3)², in the squared unit of the ordinate. */
  readonly covariance: readonly number[];
}

/** Cubic B-splines have four that are not zero at any place. */
const ORDER = 4;
/** How far outside its knots, as a part of their span, an abscissa may stand for rounding's sake. */
const EDGE_TOLERANCE = 1e-9;

/** Number of coefficients of a spline on these knots. */
export const coefficientCount = (grid: KnotGrid): number => grid.segments + ORDER - 1;

/**
 * The four cubic B-splines (or their derivatives) that are not zero at x, written to `out`; returns the index
 * of the first. Knots are equal, so the four are fixed polynomials of the place u in the interval.
 *
 * @param derivative 0, 1 or 2; derivatives are per unit of x
 * @source   C. de Boor, A Practical Guide to Splines, ch. IX–X (recursion written out for equal knots) [from
 *   memory]; checked against R's splines::splineDesign in reference/spline.test.ts
 * @throws InputError when x lies outside the knots (nothing is extrapolated) or is not a number
 */
export function basisAt(
  grid: KnotGrid,
  x: number,
  out: Float64Array | number[],
  derivative: 0 | 1 | 2 = 0,
): number {
  const { low, high, segments } = grid;
  const slack = EDGE_TOLERANCE * (high - low);
  if (!(x >= low - slack && x <= high + slack)) {
    throw new InputError(
      `The place ${x} lies outside the curve, which runs from ${low} to ${high}.`,
      {
        found: String(x),
        expected: `between ${low} and ${high}`,
      },
    );
  }
  const step = (high - low) / segments;
  const place = (x - low) / step;
  const first = Math.min(segments - 1, Math.max(0, Math.floor(place)));
  const u = place - first;
  const v = 1 - u;
  if (derivative === 0) {
    out[0] = (v * v * v) / 6;
    out[1] = (4 - 6 * u * u + 3 * u * u * u) / 6;
    out[2] = (4 - 6 * v * v + 3 * v * v * v) / 6;
    out[3] = (u * u * u) / 6;
  } else if (derivative === 1) {
    out[0] = (-v * v) / (2 * step);
    out[1] = (3 * u * u - 4 * u) / (2 * step);
    out[2] = (4 * v - 3 * v * v) / (2 * step);
    out[3] = (u * u) / (2 * step);
  } else {
    const scale = 1 / (step * step);
    out[0] = v * scale;
    out[1] = (3 * u - 2) * scale;
    out[2] = (3 * v - 2) * scale;
    out[3] = u * scale;
  }
  return first;
}

/** A spline's curve, whatever is known of its error. */
export type SplineCurve = Pick<SplineFit, 'low' | 'high' | 'segments' | 'coefficients'>;

/** Value of the spline at x. Throws InputError outside its knots. */
export function evaluateSpline(fit: SplineCurve, x: number): number {
  return combine(fit, x, 0);
}

/** First (or second) derivative of the spline at x, per unit of x. Throws InputError outside its knots. */
export function splineDerivative(fit: SplineFit, x: number, order: 1 | 2 = 1): number {
  return combine(fit, x, order);
}

function combine(fit: SplineCurve, x: number, derivative: 0 | 1 | 2): number {
  const four = [0, 0, 0, 0];
  const first = basisAt(fit, x, four, derivative);
  let sum = 0;
  for (let k = 0; k < ORDER; k++) sum += four[k]! * fit.coefficients[first + k]!;
  return sum;
}

/** The functional "value (or derivative) at x" as a vector over the coefficients. */
export function valueFunctional(
  grid: KnotGrid,
  x: number,
  derivative: 0 | 1 | 2 = 0,
): Float64Array {
  const row = new Float64Array(coefficientCount(grid));
  const four = [0, 0, 0, 0];
  const first = basisAt(grid, x, four, derivative);
  for (let k = 0; k < ORDER; k++) row[first + k] = four[k]!;
  return row;
}

/** Gauss–Legendre, four points on [−1, 1]: exact to degree 7, so for S(x)·x^p up to p = 4. */
const INNER = Math.sqrt(3 / 7 - (2 / 7) * Math.sqrt(6 / 5));
const OUTER = Math.sqrt(3 / 7 + (2 / 7) * Math.sqrt(6 / 5));
const GAUSS_PLACES = [-OUTER, -INNER, INNER, OUTER];
const GAUSS_WEIGHTS = [-1, 1, 1, -1].map((sign) => (18 + sign * Math.sqrt(30)) / 36);

/**
 * The functional "mean over [from, to] of S(x)·x^power" as a vector over the coefficients; exact for power 0
 * to 4. Mean torque: power 0. Mean power of torque [N·m] against speed [rev/min]: power 1, times 2π/60.
 * Throws InputError when the band is empty, leaves the knots, or the power is not 0 to 4.
 */
export function meanFunctional(grid: KnotGrid, from: number, to: number, power = 0): Float64Array {
  if (!(to > from)) throw new InputError(`The band from ${from} to ${to} is empty.`);
  if (!Number.isInteger(power) || power < 0 || power > 4) {
    throw new InputError(`The power ${power} of a mean must be a whole number from 0 to 4.`);
  }
  const row = new Float64Array(coefficientCount(grid));
  const four = [0, 0, 0, 0];
  basisAt(grid, from, four);
  basisAt(grid, to, four);
  const step = (grid.high - grid.low) / grid.segments;
  const lastSegment = grid.segments - 1;
  const start = Math.min(lastSegment, Math.max(0, Math.floor((from - grid.low) / step)));
  for (let segment = start; segment <= lastSegment; segment++) {
    const left = Math.max(from, grid.low + segment * step);
    const right = Math.min(
      to,
      segment === lastSegment ? grid.high : grid.low + (segment + 1) * step,
    );
    if (right <= left) break;
    const half = (right - left) / 2;
    for (let g = 0; g < GAUSS_PLACES.length; g++) {
      const x = left + half * (1 + GAUSS_PLACES[g]!);
      const first = basisAt(grid, x, four);
      const weight = (GAUSS_WEIGHTS[g]! * half * x ** power) / (to - from);
      for (let k = 0; k < ORDER; k++) row[first + k]! += weight * four[k]!;
    }
  }
  return row;
}

/** Value c·a of a functional of the spline. */
export function functionalValue(fit: SplineFit, functional: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < fit.coefficients.length; i++) sum += functional[i]! * fit.coefficients[i]!;
  return sum;
}

/** Covariance c·V·d of two functionals of one spline (a variance when they are the same). */
export function functionalCovariance(
  fit: SplineFit,
  one: ArrayLike<number>,
  other: ArrayLike<number> = one,
): number {
  const count = fit.coefficients.length;
  // A value at a place touches four coefficients; nothing outside them adds to a sum.
  let [from, to] = [0, count];
  while (from < to && other[from] === 0) from++;
  while (to > from && other[to - 1] === 0) to--;
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const weight = one[i]!;
    if (weight === 0) continue;
    let inner = 0;
    for (let j = from; j < to; j++) inner += fit.covariance[i * count + j]! * other[j]!;
    sum += weight * inner;
  }
  return sum;
}

/** Standard deviation of the spline's value at x, from its coefficients' covariance alone. */
export function splineSd(fit: SplineFit, x: number): number {
  const count = fit.coefficients.length;
  const four = [0, 0, 0, 0];
  const first = basisAt(fit, x, four);
  let sum = 0;
  for (let i = 0; i < ORDER; i++) {
    for (let j = 0; j < ORDER; j++) {
      sum += four[i]! * four[j]! * fit.covariance[(first + i) * count + first + j]!;
    }
  }
  return Math.sqrt(Math.max(0, sum));
}

/**
 * Coefficients of the parabola c₀ + c₁u + c₂u² as a spline on these knots, where u runs from −1 to 1 over them:
 * the symmetric means of each coefficient's three knots (Marsden's identity). Exact.
 */
export function parabolaCoefficients(
  grid: KnotGrid,
  [c0, c1, c2]: readonly number[],
): Float64Array {
  const step = 2 / grid.segments;
  return Float64Array.from({ length: coefficientCount(grid) }, (_, i) => {
    const [a, b, c] = [-1 + (i - 2) * step, -1 + (i - 1) * step, -1 + i * step];
    return c0! + (c1! * (a + b + c)) / 3 + (c2! * (a * b + b * c + a * c)) / 3;
  });
}

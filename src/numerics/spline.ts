/**
 * A cubic B-spline on equally spaced knots over [low, high], with the covariance of its coefficients.
 * Plain data: it crosses to the browser as JSON. Linear functionals of the curve (a value at a speed,
 * a mean over a band) have value c·a and variance c·V·c.
 */
export interface SplineFit {
  readonly low: number;
  readonly high: number;
  /** Number of equal knot intervals; there are `segments + 3` coefficients. */
  readonly segments: number;
  readonly coefficients: readonly number[];
  /** Row-major (segments+3)², in the squared unit of the ordinate. */
  readonly covariance: readonly number[];
}

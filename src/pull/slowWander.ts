import type { SplineFit } from '../numerics/index.ts';

/**
 * Wander as slow as the sweep hides in the curve itself, and no fit of one pull can tell it. A cell that
 * wanders within a second wanders over seconds too: this part of the quick wander that the residuals show,
 * forgotten in so many seconds, and never less than the least. Our own figures, no source.
 */
const SHARE_OF_QUICK = 0.45;
const LEAST_REL_SD = 0.0003;
const MEMORY_S = 3;

/**
 * The spline with the slow wander in its covariance: relative, correlated over the time between two speeds.
 * @param wanderSdNm quick wander as the fit found it
 * @param sweepS     time from the lowest speed to the highest
 */
export function withSlowWander(
  spline: SplineFit,
  wanderSdNm: number,
  levelNm: number,
  sweepS: number,
): SplineFit {
  const { coefficients, segments } = spline;
  const size = coefficients.length;
  const relSd = Math.hypot(LEAST_REL_SD, (SHARE_OF_QUICK * wanderSdNm) / levelNm);
  const kept = Math.exp(-sweepS / segments / MEMORY_S);
  // A coefficient is the curve's own height about its knot, so a relative error of the curve is one of it.
  const covariance = spline.covariance.map((value, at) => {
    const [i, j] = [Math.floor(at / size), at % size];
    return value + relSd ** 2 * coefficients[i]! * coefficients[j]! * kept ** Math.abs(i - j);
  });
  return { ...spline, covariance };
}

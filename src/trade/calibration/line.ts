import { leastSquares } from '../../numerics/index.ts';
import { count, finite, possible } from '../possible.ts';

/** y = intercept + slope x, with what the scatter leaves open of both. Units are the caller's. */
export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptSe: number;
  readonly slopeSe: number;
  /** Correlation of the two errors. */
  readonly correlation: number;
  readonly residualSd: number;
  readonly rSquared: number;
  /** Points less 2. */
  readonly degreesOfFreedom: number;
  readonly meanX: number;
  /** Sum of squares of x about its mean. */
  readonly sumSquaresX: number;
}

/**
 * Straight line through three points or more by ordinary least squares: all the scatter in y, x exact.
 * @source  JCGM 100:2008 (GUM) H.3; NIST StRD Norris in the test
 * @throws NonPhysicalError  fewer than three points, all x the same, a value that is no number
 */
export function straightLine(
  points: readonly { readonly x: number; readonly y: number }[],
): StraightLine {
  count('number of points for a line', points.length, 3);
  for (const { x, y } of points) {
    finite('x of a point', x, '');
    finite('y of a point', y, '');
  }
  const meanX = points.reduce((sum, { x }) => sum + x, 0) / points.length;
  const sumSquaresX = points.reduce((sum, { x }) => sum + (x - meanX) ** 2, 0);
  const spread = Math.sqrt(sumSquaresX / points.length);
  possible('spread of x', spread, '', spread > 1e-12 * Math.abs(meanX), 'points at two places');
  const fit = leastSquares(
    points.map(({ x }) => [1, x]),
    points.map(({ y }) => y),
  );
  const [intercept, slope] = fit.coefficients as [number, number];
  const [interceptSe, slopeSe] = fit.standardErrors as [number, number];
  const meanSquare = points.reduce((sum, { x }) => sum + x * x, 0) / points.length;
  return {
    intercept,
    slope,
    interceptSe,
    slopeSe,
    correlation: -meanX / Math.sqrt(meanSquare),
    residualSd: fit.residualSd,
    // A level line through equal values explains nothing and has nothing to explain.
    rSquared: Number.isFinite(fit.rSquared) ? fit.rSquared : 1,
    degreesOfFreedom: points.length - 2,
    meanX,
    sumSquaresX,
  };
}

/**
 * The line at x and the standard uncertainty of the line there: √(u²(a) + x² u²(b) + 2 x r u(a) u(b)).
 * @source  JCGM 100:2008 H.3.4, eq. H.15
 */
export function lineAt(
  line: StraightLine,
  x: number,
): { readonly value: number; readonly standardUncertainty: number } {
  const { interceptSe: ua, slopeSe: ub, correlation } = line;
  const variance = ua ** 2 + (finite('x', x, '') * ub) ** 2 + 2 * x * correlation * ua * ub;
  return {
    value: line.intercept + line.slope * x,
    standardUncertainty: Math.sqrt(Math.max(0, variance)),
  };
}

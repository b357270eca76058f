import { InputError } from '../errors.ts';
import { factorInPlace, solveFactored } from '../numerics/cholesky.ts';
import {
  basisAt,
  coefficientCount,
  evaluateSpline,
  functionalCovariance,
  functionalValue,
  type KnotGrid,
  meanFunctional,
  type SplineFit,
  splineSd,
} from '../numerics/index.ts';
import { RAD_PER_S_PER_RPM } from '../trade/index.ts';
import { REPEATABILITY_REL_SD } from './cell.ts';
import { peaksOf } from './peak.ts';
import type { Banded, Curve, Peak } from './types.ts';

const Z95 = 1.959964;
/** Points a knot interval at which a curve is carried from its own knots to the common ones. */
const POINTS_PER_SEGMENT = 8;

/** The mean of several pulls of one engine at one setting, with its absolute 95 % band. */
export interface MeanCurve {
  readonly pulls: number;
  readonly speedRpm: readonly number[];
  readonly torqueNm: readonly number[];
  readonly lowNm: readonly number[];
  readonly highNm: readonly number[];
  readonly powerW: readonly number[];
  readonly peakTorque: Peak;
  readonly peakPower: Peak;
  /** Mean torque [N·m] and power [W] over a band of speeds that all pulls cover. */
  over(bandRpm: readonly [number, number]): { readonly torqueNm: Banded; readonly powerW: Banded };
}

/**
 * The mean of the curves of k pulls in one air standard, over the speeds that all of them cover.
 *
 * Pull i is T_i(n) = T(n)·(1 + r_i + c) + w_i(n): r_i differs from pull to pull (repeatability), c is common to all
 * (calibration and what else the curve's band holds beyond its own noise), w_i is noise and wander within the pull. Of
 * the mean of k pulls the variance is then Σ var w_i / k² + T²·var r / k + T²·var c: more pulls shrink the first two and
 * never the third. Each curve is carried to common knots by least squares, a linear map P, so that the mean has
 * coefficients Σ P a_i / k and covariance Σ P V_i Pᵀ / k², and the peak of it is found as that of one pull is.
 *
 * @param repeatabilityRelSd  pull-to-pull sd as a part; the one the curves were made with
 * @throws InputError  no curve, curves of two standards, no speeds in common
 */
export function meanCurve(
  curves: readonly Curve[],
  repeatabilityRelSd: number = REPEATABILITY_REL_SD,
): MeanCurve {
  const [first] = curves;
  if (first === undefined) throw new InputError('A mean needs one curve at least.');
  if (curves.some((curve) => curve.standard !== first.standard))
    throw new InputError('These pulls stand in different air standards; choose one for all.');
  const low = Math.max(...curves.map((curve) => curve.spline.low));
  const high = Math.min(...curves.map((curve) => curve.spline.high));
  if (!(high > low)) throw new InputError('These pulls have no speeds in common.');
  const count = curves.length;
  const density = Math.max(
    ...curves.map(({ spline }) => spline.segments / (spline.high - spline.low)),
  );
  const grid: KnotGrid = { low, high, segments: Math.max(1, Math.ceil(density * (high - low))) };
  const spline = meanSpline(
    grid,
    curves.map((curve) => curve.spline),
  );

  const speedRpm = [low, ...first.speedRpm.filter((rpm) => rpm > low && rpm < high), high];
  const torqueNm = speedRpm.map((rpm) => evaluateSpline(spline, rpm));
  const repeat = repeatabilityRelSd / Math.sqrt(count);
  /** What is common to all pulls, as a part of torque: what stands in their bands beyond noise and repeatability. */
  const common = speedRpm.map((rpm, i) => {
    const beyond = curves.map((curve) => {
      const total = (bandAt(curve, rpm) / Z95) ** 2 - splineSd(curve.spline, rpm) ** 2;
      return total / torqueNm[i]! ** 2 - repeatabilityRelSd ** 2;
    });
    return Math.sqrt(Math.max(0, meanOf(beyond)));
  });
  const wholeRelSd = Math.hypot(repeat, meanOf(common));
  const half = speedRpm.map(
    (rpm, i) =>
      Z95 * Math.hypot(splineSd(spline, rpm), Math.hypot(repeat, common[i]!) * torqueNm[i]!),
  );
  const peaks = peaksOf(spline, wholeRelSd);
  return {
    pulls: count,
    speedRpm,
    torqueNm,
    lowNm: torqueNm.map((torque, i) => torque - half[i]!),
    highNm: torqueNm.map((torque, i) => torque + half[i]!),
    powerW: torqueNm.map((torque, i) => torque * speedRpm[i]! * RAD_PER_S_PER_RPM),
    peakTorque: peaks.torque,
    peakPower: peaks.power,
    over([from, to]) {
      if (!(to > from && from >= low - 1 && to <= high + 1))
        throw new InputError(
          `These pulls cover ${low.toFixed(0)} to ${high.toFixed(0)} rev/min together, and not the whole band from ${from} to ${to}.`,
        );
      const mean = (power: 0 | 1): Banded => {
        const scale = power === 1 ? RAD_PER_S_PER_RPM : 1;
        const row = meanFunctional(spline, Math.max(from, low), Math.min(to, high), power).map(
          (weight) => weight * scale,
        );
        const value = functionalValue(spline, row);
        const sd = Math.hypot(Math.sqrt(functionalCovariance(spline, row)), wholeRelSd * value);
        return { value, low: value - Z95 * sd, high: value + Z95 * sd };
      };
      return { torqueNm: mean(0), powerW: mean(1) };
    },
  };
}

/** Half-width of a curve's own band at a speed, between the points of its grid. */
function bandAt({ speedRpm, lowNm, highNm }: Curve, rpm: number): number {
  const after = speedRpm.findIndex((one) => one >= rpm);
  const at = after <= 0 ? (after === 0 ? 1 : speedRpm.length - 1) : after;
  const share = (rpm - speedRpm[at - 1]!) / (speedRpm[at]! - speedRpm[at - 1]!);
  const half = (i: number) => (highNm[i]! - lowNm[i]!) / 2;
  return half(at - 1) + Math.min(1, Math.max(0, share)) * (half(at) - half(at - 1));
}

function meanSpline(grid: KnotGrid, splines: readonly SplineFit[]): SplineFit {
  const size = coefficientCount(grid);
  const coefficients = new Array<number>(size).fill(0);
  const covariance = new Array<number>(size * size).fill(0);
  const share = 1 / splines.length;
  for (const spline of splines) {
    const own = coefficientCount(spline);
    const map = carried(spline, grid);
    for (let j = 0; j < size; j++) {
      for (let a = 0; a < own; a++)
        coefficients[j]! += share * map[j]![a]! * spline.coefficients[a]!;
    }
    // P V, then P V Pᵀ.
    const half = map.map((row) =>
      Array.from({ length: own }, (_, b) => {
        let sum = 0;
        for (let a = 0; a < own; a++) sum += row[a]! * spline.covariance[a * own + b]!;
        return sum;
      }),
    );
    for (let j = 0; j < size; j++) {
      for (let k = 0; k < size; k++) {
        let sum = 0;
        for (let b = 0; b < own; b++) sum += half[j]![b]! * map[k]![b]!;
        covariance[j * size + k]! += share * share * sum;
      }
    }
  }
  return { ...grid, coefficients, covariance };
}

/** P: the coefficients on the common knots that come nearest to a curve's own, as a matrix by its own coefficients. */
function carried(from: KnotGrid, to: KnotGrid): number[][] {
  const size = coefficientCount(to);
  const own = coefficientCount(from);
  const points = POINTS_PER_SEGMENT * to.segments;
  const normal = new Float64Array(size * size);
  const crossed = Array.from({ length: own }, () => new Float64Array(size));
  const [mine, theirs] = [new Float64Array(4), new Float64Array(4)];
  for (let p = 0; p <= points; p++) {
    const rpm = to.low + ((to.high - to.low) * p) / points;
    const j = basisAt(to, rpm, mine);
    const a = basisAt(from, rpm, theirs);
    for (let u = 0; u < 4; u++) {
      for (let v = 0; v < 4; v++) {
        normal[(j + u) * size + j + v]! += mine[u]! * mine[v]!;
        crossed[a + v]![j + u]! += mine[u]! * theirs[v]!;
      }
    }
  }
  factorInPlace(normal, size);
  const columns = crossed.map((column) => solveFactored(normal, size, column));
  return Array.from({ length: size }, (_, j) => columns.map((column) => column[j]!));
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

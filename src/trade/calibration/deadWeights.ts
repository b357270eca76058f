import { tQuantile } from '../../numerics/index.ts';
import { count, finite, notNegative, possible } from '../possible.ts';
import { lineAt, type StraightLine, straightLine } from './line.ts';

/** One reading with weights on the arm, in the order it was taken. */
export interface DeadWeightPoint {
  readonly appliedNm: number;
  readonly readingNm: number;
  /** Whether weights were being put on or taken off. The top step counts as up. */
  readonly direction: 'up' | 'down';
}

/** Uncertainty of a torque read through a calibration: U² = constantNm² + (fraction T)². */
export interface TorqueUncertainty {
  readonly constantNm: number;
  readonly fraction: number;
}

export interface TorqueCalibration {
  /** Reading against applied torque. */
  readonly line: StraightLine;
  /** What the cell shows with nothing on the arm, by the line [N·m]. */
  readonly zeroNm: number;
  /** Reading over applied torque: 1.003 reads 0.3 % high. */
  readonly gain: number;
  /** Largest gap between the readings going down and up at one torque [N·m], down less up; null with one direction. */
  readonly hysteresisNm: number | null;
  /** Largest distance of the mean reading at a torque from the line, with its sign [N·m]. */
  readonly nonLinearityNm: number;
  /** Standard deviation of repeated readings at one torque in one direction [N·m]; null where nothing was repeated. */
  readonly repeatabilityNm: number | null;
  /** Reading at no load after less before [N·m]; null where zero was not read both ways. */
  readonly zeroReturnNm: number | null;
  readonly rangeNm: readonly [least: number, most: number];
  /** Standard uncertainty of a corrected reading, and the same expanded to 95 %. */
  readonly standard: TorqueUncertainty;
  readonly expanded: TorqueUncertainty;
  readonly coverageFactor: number;
}

/** Coverage of the expanded uncertainty. */
export const CALIBRATION_COVERAGE = 0.95;

/**
 * A cell's torque calibrated with dead weights, up and down: the line, what leaves it, and the uncertainty of a torque
 * corrected with it.
 *
 * Uncertainty (GUM): a later single reading scatters about the line with its residual sd s, which holds repeatability,
 * hysteresis and bend alike; the line itself is open by s²/n + (T − x̄)² s²/Sxx, the display by its step/√12, the weights in
 * proportion. For T ≥ 0, (T − x̄)² ≤ x̄² + T², so that
 *   constant² = s² (1 + 1/n + x̄²/Sxx) + step²/12 and fraction² = s²/Sxx + u_arm²
 * is never below the truth. Both divided by the gain, and expanded with t of n − 2: that errs to the wide side for
 * the weights' part, whose size is known better.
 * @param cell.armRelative   armRelativeUncertainty of the weights' torque
 * @param cell.resolutionNm  step of the display
 * @throws NonPhysicalError  fewer than three points, torques below 0, a gain that is not positive
 */
export function calibrateTorque(
  points: readonly DeadWeightPoint[],
  cell: { readonly armRelative: number; readonly resolutionNm: number },
): TorqueCalibration {
  count('number of calibration points', points.length, 3);
  for (const { appliedNm, readingNm } of points) {
    notNegative('applied torque', appliedNm, 'N·m');
    finite('torque reading', readingNm, 'N·m');
  }
  const line = straightLine(points.map(({ appliedNm: x, readingNm: y }) => ({ x, y })));
  possible('gain of the cell', line.slope, '', line.slope > 0, 'more than 0');
  const standard = standardUncertainty(line, points.length, cell);
  const coverageFactor = tQuantile(0.5 + CALIBRATION_COVERAGE / 2, line.degreesOfFreedom);
  const steps = stepsOf(points);
  const applied = points.map(({ appliedNm }) => appliedNm);
  return {
    line,
    zeroNm: line.intercept,
    gain: line.slope,
    hysteresisNm: largest(steps.map(({ up, down }) => gap(mean(down), mean(up)))),
    nonLinearityNm:
      largest(
        steps.map(({ appliedNm, up, down }) =>
          gap(mean([...up, ...down]), lineAt(line, appliedNm).value),
        ),
      ) ?? 0,
    repeatabilityNm: pooledSd(steps.flatMap(({ up, down }) => [up, down])),
    zeroReturnNm: largest(
      steps.map(({ appliedNm, up, down }) =>
        appliedNm === 0 ? gap(down.at(-1) ?? null, up[0] ?? null) : null,
      ),
    ),
    rangeNm: [Math.min(...applied), Math.max(...applied)],
    standard,
    expanded: {
      constantNm: coverageFactor * standard.constantNm,
      fraction: coverageFactor * standard.fraction,
    },
    coverageFactor,
  };
}

function standardUncertainty(
  line: StraightLine,
  n: number,
  cell: { readonly armRelative: number; readonly resolutionNm: number },
): TorqueUncertainty {
  const { residualSd: s, meanX, sumSquaresX, slope } = line;
  const step = notNegative('resolution of the display', cell.resolutionNm, 'N·m');
  const arm = notNegative('relative uncertainty of the arm torque', cell.armRelative, '');
  return {
    constantNm:
      Math.hypot(s * Math.sqrt(1 + 1 / n + meanX ** 2 / sumSquaresX), step / Math.sqrt(12)) / slope,
    fraction: Math.hypot(s / Math.sqrt(sumSquaresX) / slope, arm),
  };
}

/** Torque [N·m] behind a reading: the line turned round. */
export function correctedTorqueNm(calibration: TorqueCalibration, readingNm: number): number {
  return (finite('torque reading', readingNm, 'N·m') - calibration.zeroNm) / calibration.gain;
}

/** Uncertainty [N·m] at a torque, standard or expanded as the one handed in. */
export function torqueUncertaintyNm(uncertainty: TorqueUncertainty, torqueNm: number): number {
  return Math.hypot(
    notNegative('constant part of the uncertainty', uncertainty.constantNm, 'N·m'),
    notNegative('fraction of the uncertainty', uncertainty.fraction, '') *
      finite('torque', torqueNm, 'N·m'),
  );
}

interface Step {
  readonly appliedNm: number;
  readonly up: number[];
  readonly down: number[];
}

/** Readings by applied torque, in the order the torques first came. */
function stepsOf(points: readonly DeadWeightPoint[]): readonly Step[] {
  const steps = new Map<number, Step>();
  for (const { appliedNm, readingNm, direction } of points) {
    const step = steps.get(appliedNm) ?? { appliedNm, up: [], down: [] };
    step[direction].push(readingNm);
    steps.set(appliedNm, step);
  }
  return [...steps.values()];
}

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, v) => sum + v, 0) / values.length;
}

function gap(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : a - b;
}

/** The value farthest from 0, with its sign. */
function largest(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>(
    (far, value) =>
      value !== null && (far === null || Math.abs(value) > Math.abs(far)) ? value : far,
    null,
  );
}

/** Standard deviation within groups, all groups together; null where no group has two. */
function pooledSd(groups: readonly (readonly number[])[]): number | null {
  let [squares, freedom] = [0, 0];
  for (const group of groups) {
    const centre = mean(group) ?? 0;
    squares += group.reduce((sum, v) => sum + (v - centre) ** 2, 0);
    freedom += Math.max(0, group.length - 1);
  }
  return freedom === 0 ? null : Math.sqrt(squares / freedom);
}

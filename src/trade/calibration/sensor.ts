import { tQuantile } from '../../numerics/index.ts';
import { count, finite, notNegative, possible } from '../possible.ts';
import { lineAt, straightLine } from './line.ts';

/** A sensor beside a reference, both in the sensor's own unit. */
export interface SensorPoint {
  readonly reading: number;
  readonly reference: number;
}

/** truth = offset + gain × reading. */
export interface SensorCalibration {
  readonly offset: number;
  readonly gain: number;
  /** Reference less corrected reading, point by point. */
  readonly residuals: readonly number[];
  readonly largestResidual: number;
  /** Expanded 95 % uncertainty of a single corrected reading, the largest over the points; null below three points. */
  readonly uncertainty: number | null;
}

/**
 * Offset and gain of a sensor from points beside a reference: from one point an offset only, from two a line through both,
 * from three on a fitted line with what it leaves open.
 * @param referenceUncertainty  standard uncertainty of the reference, in the sensor's unit
 * @throws NonPhysicalError  no point, two points or more at one reading, a gain that is not positive
 */
export function sensorAgainstReference(
  points: readonly SensorPoint[],
  referenceUncertainty = 0,
): SensorCalibration {
  count('number of calibration points', points.length);
  notNegative('uncertainty of the reference', referenceUncertainty, '');
  for (const { reading, reference } of points) {
    finite('reading', reading, '');
    finite('reference', reference, '');
  }
  if (points.length === 1) {
    const { reading, reference } = points[0]!;
    return answer(points, reference - reading, 1, null);
  }
  if (points.length === 2) {
    const [a, b] = points as [SensorPoint, SensorPoint];
    const apart = b.reading - a.reading;
    possible('distance of the readings', apart, '', apart !== 0, 'points at two readings');
    const gain = (b.reference - a.reference) / apart;
    return answer(points, a.reference - gain * a.reading, gain, null);
  }
  const line = straightLine(points.map(({ reading: x, reference: y }) => ({ x, y })));
  const ofLine = Math.max(
    ...points.map(({ reading }) => lineAt(line, reading).standardUncertainty),
  );
  const k = tQuantile(0.975, line.degreesOfFreedom);
  const uncertainty = k * Math.hypot(line.residualSd, ofLine, referenceUncertainty);
  return answer(points, line.intercept, line.slope, uncertainty);
}

function answer(
  points: readonly SensorPoint[],
  offset: number,
  gain: number,
  uncertainty: number | null,
): SensorCalibration {
  possible('gain of the sensor', gain, '', gain > 0, 'more than 0');
  const residuals = points.map(({ reading, reference }) => reference - offset - gain * reading);
  const largestResidual = residuals.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return { offset, gain, residuals, largestResidual, uncertainty };
}

/** A reading as the reference would have shown it. */
export function correctedReading(
  calibration: Pick<SensorCalibration, 'offset' | 'gain'>,
  reading: number,
): number {
  return calibration.offset + calibration.gain * finite('reading', reading, '');
}

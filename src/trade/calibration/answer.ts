import {
  calibrateTorque,
  correctedTorqueNm,
  type DeadWeightPoint,
  type TorqueCalibration,
  torqueUncertaintyNm,
} from './deadWeights.ts';
import { lineAt } from './line.ts';
import type { DeadWeights, Measured, SensorCheck } from './measured.ts';
import { correctedReading, type SensorCalibration, sensorAgainstReference } from './sensor.ts';
import { armRelativeUncertainty, armTorqueNm } from './torqueArm.ts';

/** One reading of dead weights beside the line. */
export interface WeightResidual extends DeadWeightPoint {
  /** Reading less the line [N·m]. */
  readonly residualNm: number;
  /** The reading turned round through the line [N·m]. */
  readonly correctedNm: number;
  /** 95 % of a torque read through the calibration, there [N·m]. */
  readonly expandedNm: number;
}

export interface DeadWeightsAnswer extends TorqueCalibration {
  readonly kind: 'dead weights';
  /** Of the weights, arm, gravity and level together: relative standard uncertainty. */
  readonly armRelative: number;
  readonly residuals: readonly WeightResidual[];
}

export interface SensorAnswer extends Omit<SensorCalibration, 'residuals'> {
  readonly kind: 'sensor';
  readonly residuals: readonly {
    readonly reading: number;
    readonly reference: number;
    readonly corrected: number;
    /** Reference less corrected reading. */
    readonly residual: number;
  }[];
}

export type CalibrationAnswer = DeadWeightsAnswer | SensorAnswer;

export function answerMeasured(measured: DeadWeights): DeadWeightsAnswer;
export function answerMeasured(measured: SensorCheck): SensorAnswer;
export function answerMeasured(measured: Measured): CalibrationAnswer;
/**
 * All that follows from what was read off: the line, what leaves it, how far a reading through it can be trusted.
 * @throws NonPhysicalError  no calibration: too few points, all at one place, a gain that is not positive
 */
export function answerMeasured(measured: Measured): CalibrationAnswer {
  return measured.kind === 'dead weights' ? answerWeights(measured) : answerSensor(measured);
}

function answerWeights({ arm, uncertainty, resolutionNm, points }: DeadWeights): DeadWeightsAnswer {
  const armRelative = armRelativeUncertainty(uncertainty);
  const applied = points.map(({ massKg, readingNm, direction }) => ({
    appliedNm: armTorqueNm(massKg, arm),
    readingNm,
    direction,
  }));
  const fit = calibrateTorque(applied, { armRelative, resolutionNm });
  return {
    kind: 'dead weights',
    ...fit,
    armRelative,
    residuals: applied.map((point) => ({
      ...point,
      residualNm: point.readingNm - lineAt(fit.line, point.appliedNm).value,
      correctedNm: correctedTorqueNm(fit, point.readingNm),
      expandedNm: torqueUncertaintyNm(fit.expanded, point.appliedNm),
    })),
  };
}

function answerSensor({ points, referenceUncertainty }: SensorCheck): SensorAnswer {
  const { residuals, ...fit } = sensorAgainstReference(points, referenceUncertainty);
  return {
    kind: 'sensor',
    ...fit,
    residuals: points.map((point, index) => ({
      ...point,
      corrected: correctedReading(fit, point.reading),
      residual: residuals[index]!,
    })),
  };
}

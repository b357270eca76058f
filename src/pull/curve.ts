import { correctionMarks } from './air.ts';
import { airStep } from './basis.ts';
import { blipMark } from './blips.ts';
import { fitPull } from './fitPull.ts';
import type { PullSpan, Recording } from './recording.ts';
import type { AirWish, Curve, CurveOptions, Peak, PullFit } from './types.ts';

/**
 * What one pull says about the engine: torque against speed in the air of the standard asked for, with its
 * band, peaks, derived curves, factors of every standard and everything that looked wrong. Plain data.
 * @throws InputError    no speed, no torque or power, too few readings
 * @throws NonPhysicalError  torque that is not positive, air that cannot be
 */
export function curveOf(recording: Recording, span: PullSpan, options: CurveOptions): Curve {
  return curveIn(fitPull(recording, span, options), options);
}

/**
 * A fitted pull in the air of a standard. One factor a pull (see airOf), so the curve, its covariance, bands,
 * peaks and blips are those of a fit to corrected torque, to rounding: nothing in the fit has a scale of its
 * own. What is relative (`commonRelSd`) or belongs to the day (BSFC, volumetric efficiency) stays.
 */
export function curveIn(fit: PullFit, wish: AirWish): Curve {
  const { asRecorded, air, aspiration, version } = fit;
  const step = airStep(fit.basis, air, aspiration, wish);
  const { factor } = step;
  const scaled = (values: readonly number[]) => values.map((value) => value * factor);
  const peak = (of: Peak): Peak => ({
    ...of,
    value: of.value * factor,
    low: of.low * factor,
    high: of.high * factor,
  });
  const { spline, derived, calibration } = asRecorded;
  return {
    ...asRecorded,
    version,
    standard: step.standard,
    correctionFactor: factor,
    factors: air.factors,
    basis: step.basis,
    spline: {
      ...spline,
      coefficients: scaled(spline.coefficients),
      covariance: spline.covariance.map((value) => value * factor * factor),
    },
    residualSdNm: asRecorded.residualSdNm * factor,
    commonSdNm: asRecorded.commonSdNm * factor,
    calibration: { ...calibration, constantSdNm: calibration.constantSdNm * factor },
    torqueNm: scaled(asRecorded.torqueNm),
    lowNm: scaled(asRecorded.lowNm),
    highNm: scaled(asRecorded.highNm),
    powerW: scaled(asRecorded.powerW),
    peakTorque: peak(asRecorded.peakTorque),
    peakPower: peak(asRecorded.peakPower),
    derived: { ...derived, bmepPa: derived.bmepPa === null ? null : scaled(derived.bmepPa) },
    marks: [
      ...fit.pointMarks,
      ...step.marks,
      ...air.marks,
      ...correctionMarks(air, step.standard, aspiration),
      ...fit.blips.map((blip) => blipMark({ ...blip, sizeNm: blip.sizeNm * factor })),
      ...fit.checkMarks,
    ],
  };
}

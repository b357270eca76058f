import { InputError, NonPhysicalError } from '../errors.ts';
import { evaluateSpline, median, splineSd } from '../numerics/index.ts';
import { powerW } from '../trade/index.ts';
import { airOf } from './air.ts';
import { gridOf, systematicSd, typicalExtra } from './bands.ts';
import { chooseTorque } from './basis.ts';
import { timedBlips } from './blips.ts';
import { bySpeedOf } from './bySpeed.ts';
import { calibrationMarks, calibrationSd, columnPerSensor } from './calibration.ts';
import { REPEATABILITY_REL_SD } from './cell.ts';
import { speedChannel } from './channels.ts';
import { checkPull } from './checks/index.ts';
import { conditionsOf } from './conditions.ts';
import { derivedCurves } from './derived.ts';
import { edgeMarks, peaksOf } from './peak.ts';
import { pointsOf } from './points.ts';
import type { PullSpan, Recording, TorqueBasis } from './recording.ts';
import { withSlowWander } from './slowWander.ts';
import { fitTorque, residualFigures } from './torqueFit.ts';
import type { FitOptions, PullAir, PullFit } from './types.ts';

/** Of the computation; a stored fit of another version is computed anew. */
export const CURVE_VERSION = 8;

const Z95 = 1.959963984540054;

/**
 * One pull fitted, its torque in the air of its column: inertia put back where the cell's is known, lag taken
 * out, blips left out. `curveIn` brings it to any standard.
 *
 * The spline's covariance is of this pull against the torque that its engine had in it, each speed by itself:
 * noise, wander quick and slow, and the smoothness that they leave open. It does not hold what multiplies the
 * whole pull (pull-to-pull repeatability, calibration) nor what is the same in every pull of the day (error
 * of the lag and of the inertia). Bands (`lowNm`, `highNm`) and peak intervals are absolute: all of these. On
 * simulated cells the spline's own 95 % band holds the truth at 94 to 97 % of the speeds
 * (test/truth/curve-bands.test.ts).
 * @throws InputError    no speed, no torque or power, too few readings
 * @throws NonPhysicalError  torque that is not positive, air that cannot be
 */
export function fitPull(recording: Recording, span: PullSpan, options: FitOptions): PullFit {
  checkSpan(recording, span);
  const speed = speedChannel(recording);
  const chosen = chooseTorque(recording, options);
  const air = airOf(recording, span, options);
  const columnPerSensorNm = columnPerSensor(chosen, options.cell, loggersFactor(chosen.basis, air));
  const points = pointsOf(recording, span, chosen, options, columnPerSensorNm);
  const level = median(points.torqueNm);
  if (!(level > 0)) {
    throw new NonPhysicalError(
      'The torque of this pull is not positive: nothing drove the brake.',
      {
        column: chosen.channel.header,
        found: `${level.toFixed(1)} N·m in the middle`,
        expected: 'more than 0 N·m',
      },
    );
  }
  const fit = fitTorque(points);
  const { timeS, track } = points;
  const spline =
    track === null
      ? fit.spline
      : withSlowWander(fit.spline, fit.wanderSd, level, timeS[timeS.length - 1]! - timeS[0]!);

  const repeatability = options.repeatabilityRelSd ?? REPEATABILITY_REL_SD;
  const scale = { columnPerSensorNm, ratio: chosen.ratio };
  const calibrated = calibrationSd(options.cell, points.restNm, scale, level);
  const commonRelSd = Math.hypot(repeatability, calibrated.relSd);
  const commonSdNm = calibrated.constantNm;
  const speedRpm = gridOf(spline.low, spline.high);
  const torqueNm = speedRpm.map((rpm) => evaluateSpline(spline, rpm));
  const extra = systematicSd(points, fit);
  const half = speedRpm.map(
    (rpm, i) =>
      Z95 *
      Math.hypot(splineSd(spline, rpm), commonRelSd * torqueNm[i]!, commonSdNm, extra(rpm, points)),
  );
  const peaks = peaksOf(
    spline,
    Math.hypot(commonRelSd, commonSdNm / level, typicalExtra(extra, points, spline, level)),
  );
  const blips = timedBlips(fit, points);
  const asRecorded: PullFit['asRecorded'] = {
    span,
    spline,
    ...residualFigures(fit),
    effectiveDof: fit.effectiveDof,
    commonRelSd,
    commonSdNm,
    calibration: {
      doneOn: options.cell.calibration?.doneOn ?? null,
      applied: options.cell.calibration?.apply ?? false,
      relSd: calibrated.relSd,
      constantSdNm: commonSdNm,
    },
    lagS: points.lagS,
    lagFrom: points.lagFrom,
    speedRpm,
    torqueNm,
    lowNm: torqueNm.map((torque, i) => torque - half[i]!),
    highNm: torqueNm.map((torque, i) => torque + half[i]!),
    powerW: torqueNm.map((torque, i) => powerW(torque, speedRpm[i]!)),
    peakTorque: peaks.torque,
    peakPower: peaks.power,
    derived: derivedCurves(
      recording,
      span,
      speed,
      options.engine,
      { speedRpm, torqueNm },
      loggersFactor(chosen.basis, air),
      air.densityKgPerM3,
    ),
    bySpeed: bySpeedOf(recording, span, speed, spline.low, spline.high),
    conditions: conditionsOf(recording, span, air, points),
  };
  const checked = { recording, span, speed, chosen, points, options, curve: asRecorded, blips };
  return {
    version: CURVE_VERSION,
    asRecorded,
    basis: { air: chosen.basis.air, inertia: points.inertia },
    air,
    aspiration: options.engine.aspiration,
    blips,
    pointMarks: [...points.marks, ...calibrationMarks(options.cell, points.restNm, scale, level)],
    checkMarks: [...checkPull(checked), ...edgeMarks(peaks)],
  };
}

/** What the logger had multiplied observed torque by; 1 where nobody says that it did. */
function loggersFactor({ air }: TorqueBasis, { factors }: PullAir): number | null {
  return air === 'observed' || air === 'unknown' ? 1 : factors[air];
}

function checkSpan({ rows }: Recording, { firstRow, lastRow }: PullSpan): void {
  if (!(firstRow >= 0 && lastRow < rows && lastRow > firstRow)) {
    throw new InputError('The rows given for the pull are not rows of this recording.', {
      found: `rows ${firstRow + 1} to ${lastRow + 1}`,
      expected: `within 1 to ${rows}`,
    });
  }
}

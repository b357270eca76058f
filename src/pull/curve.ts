import { InputError, NonPhysicalError } from '../errors.ts';
import {
  defaultPriors,
  evaluateSpline,
  fitRobustSpline,
  median,
  type RobustFit,
  splineDerivative,
  splineSd,
} from '../numerics/index.ts';
import { powerW } from '../trade/index.ts';
import { airOf, correctionMarks, type PullAir } from './air.ts';
import { airStep, chooseTorque } from './basis.ts';
import { REPEATABILITY_REL_SD } from './cell.ts';
import { channelsOf, finiteIn, orNull, speedChannel } from './channels.ts';
import type { TimedBlip } from './checks/context.ts';
import { checkPull } from './checks/index.ts';
import { derivedCurves, leanestBank, meansBySpeed } from './derived.ts';
import { peaksOf } from './peak.ts';
import { type Points, pointsOf } from './points.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import type { Curve, CurveOptions, Mark } from './types.ts';

/** Of the computation; a stored curve of another version is computed anew. */
export const CURVE_VERSION = 1;

/**
 * Wander of a brake's torque is forgotten in a third of a second, give or take (water, control, load cell):
 * our own figure, no source; the fit learns its own from each pull.
 */
const TYPICAL_WANDER_S = 0.35;
/** The same for the rows of a table of speeds, in rows. */
const TYPICAL_WANDER_ROWS = 1;
/**
 * Roughness of torque curves: sd of the third derivative, speed in half spans, torque as part of its level. A
 * plain curve has 0.4, one with tuning humps 6, a sharp hump more; 4 within a factor of twenty. Our own
 * figure from such curves, no source.
 */
const ROUGHNESS = { median: 4, logSd: 1.5 };
/**
 * Wander as slow as the sweep itself cannot be told from the curve by any fit of one pull: relative sd that
 * absolute bands allow for it. Our own figure, no source.
 */
const SLOW_WANDER_REL_SD = 0.0015;
/**
 * Once blips are out, readings are averaged over so long before the fit. Sample noise is correlated over some
 * hundredths of a second in a way of its own; averaged over it is white beside the wander, as the fit takes
 * it. No engine shows anything shorter.
 */
const BLOCK_S = 0.08;
const LEAST_BLOCKS = 60;
const KNOT_RPM = 150;
/** No engine that is put on a brake turns faster; a column in other units would. */
const HIGHEST_RPM = 40_000;
/** What lasts longer than this is no blip, nor what is as wide as an engine's own humps can be. */
const LONGEST_BLIP_S = 0.5;
const WIDEST_BLIP_RPM = 120;
const Z95 = 1.959963984540054;
const KNOCK_BIN_RPM = 100;

/**
 * What one pull says about the engine: torque against speed in the air of the standard asked for, with its
 * band, peaks, derived curves, factors of every standard and everything that looked wrong. Plain data.
 *
 * The torque is the crank's with inertia put back where the cell's is known, lag taken out, in one factor for
 * the pull's air. Bands and peak intervals are absolute: noise and wander within the pull, pull-to-pull
 * repeatability, calibration, and what rate and lag leave open. The spline's covariance holds the first
 * alone.
 * @throws InputError    no speed, no torque or power, too few readings
 * @throws NonPhysicalError  torque that is not positive, air that cannot be
 */
export function curveOf(recording: Recording, span: PullSpan, options: CurveOptions): Curve {
  checkSpan(recording, span);
  const speed = speedChannel(recording);
  const chosen = chooseTorque(recording, options);
  const air = airOf(recording, span, options);
  const step = airStep(chosen.basis, air, options);
  const points = pointsOf(recording, span, chosen, options);
  const observed = median(points.torqueNm);
  if (!(observed > 0)) {
    throw new NonPhysicalError(
      'The torque of this pull is not positive: nothing drove the brake.',
      {
        column: chosen.channel.header,
        found: `${observed.toFixed(1)} N·m in the middle`,
        expected: 'more than 0 N·m',
      },
    );
  }
  const torqueNm = points.torqueNm.map((torque) => torque * step.factor);
  const fit = fitTorque(points, torqueNm);
  const { spline } = fit;

  const repeatability = options.repeatabilityRelSd ?? REPEATABILITY_REL_SD;
  const commonRelSd = Math.hypot(repeatability, options.cell.calibrationRelSd);
  const slowRelSd = Math.hypot(commonRelSd, SLOW_WANDER_REL_SD);
  const speedRpm = gridOf(spline.low, spline.high);
  const curveNm = speedRpm.map((rpm) => evaluateSpline(spline, rpm));
  const extra = systematicSd(points, step.factor, fit);
  const half = speedRpm.map(
    (rpm, i) =>
      Z95 * Math.hypot(splineSd(spline, rpm), slowRelSd * curveNm[i]!, extra(rpm, points)),
  );
  const peaks = peaksOf(
    spline,
    Math.hypot(slowRelSd, typicalExtra(extra, points, spline, observed)),
  );
  const blips = timedBlips(fit, points);
  const marks: Mark[] = [
    ...points.marks,
    ...step.marks,
    ...air.marks,
    ...correctionMarks(air, step.standard, options.engine.aspiration),
    ...blips.map(blipMark),
  ];
  const curve = {
    version: CURVE_VERSION,
    span,
    standard: step.standard,
    correctionFactor: step.factor,
    factors: air.factors,
    basis: { air: step.basis.air, inertia: points.inertia },
    spline,
    ...residualFigures(fit),
    effectiveDof: fit.effectiveDof,
    commonRelSd,
    lagS: points.lagS,
    lagFrom: points.lagFrom,
    speedRpm,
    torqueNm: curveNm,
    lowNm: curveNm.map((torque, i) => torque - half[i]!),
    highNm: curveNm.map((torque, i) => torque + half[i]!),
    powerW: curveNm.map((torque, i) => powerW(torque, speedRpm[i]!)),
    peakTorque: peaks.torque,
    peakPower: peaks.power,
    derived: derivedCurves(
      recording,
      span,
      speed,
      options.engine,
      { speedRpm, torqueNm: curveNm },
      step.factor,
      air.densityKgPerM3,
    ),
    bySpeed: bySpeedOf(recording, span, speed, spline.low, spline.high),
    conditions: conditionsOf(recording, span, air, points),
  } satisfies Omit<Curve, 'marks'>;
  const context = { recording, span, speed, chosen, points, options, curve, blips };
  return {
    ...curve,
    marks: [...marks, ...checkPull(context)],
  };
}

function checkSpan({ rows }: Recording, { firstRow, lastRow }: PullSpan): void {
  if (!(firstRow >= 0 && lastRow < rows && lastRow > firstRow)) {
    throw new InputError('The rows given for the pull are not rows of this recording.', {
      found: `rows ${firstRow + 1} to ${lastRow + 1}`,
      expected: `within 1 to ${rows}`,
    });
  }
}

function fitTorque(points: Points, torqueNm: readonly number[]): RobustFit {
  const { speedRpm, timeS, intervalS, track } = points;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const rpm of speedRpm) {
    if (rpm < low) low = rpm;
    if (rpm > high) high = rpm;
  }
  if (!(low > 0 && high <= HIGHEST_RPM)) {
    throw new NonPhysicalError('The speeds of this pull cannot be those of any engine.', {
      found: `${low.toFixed(0)} to ${high.toFixed(0)} rev/min`,
      expected: `0 to ${HIGHEST_RPM} rev/min`,
    });
  }
  if (!(high - low > 50)) {
    throw new InputError(
      'The speed of this pull hardly moves, so there is no curve against speed.',
      {
        found: `${low.toFixed(0)} to ${high.toFixed(0)} rev/min`,
        expected: 'a sweep, or steps of speed',
      },
    );
  }
  const segments = Math.min(
    Math.max(8, Math.min(40, Math.round((high - low) / KNOT_RPM))),
    Math.max(3, Math.floor(speedRpm.length / 3)),
  );
  const typical = track === null ? TYPICAL_WANDER_ROWS : TYPICAL_WANDER_S;
  const mostAveraged = Math.max(1, Math.floor(speedRpm.length / LEAST_BLOCKS));
  const block =
    track === null ? 1 : Math.min(mostAveraged, Math.max(1, Math.round(BLOCK_S / intervalS)));
  const priors = {
    ...defaultPriors(typical, block * intervalS),
    roughness: { level: median(torqueNm), ...ROUGHNESS },
  };
  const rate = (high - low) / Math.max(1e-9, timeS[timeS.length - 1]! - timeS[0]!);
  const longestS = Math.min(LONGEST_BLIP_S, WIDEST_BLIP_RPM / rate);
  const longestBlip = track === null ? 1 : Math.max(1, Math.round(longestS / intervalS));
  const series = { time: timeS, x: speedRpm, y: torqueNm };
  // Third derivative, not second: its free part is a parabola, near to what a torque curve is. On simulated
  // sweeps the error is a tenth to a third smaller, and the band holds where the second's falls short.
  return fitRobustSpline({ low, high, segments }, series, 3, priors, longestBlip, block);
}

/**
 * Scale of what the readings stand off the curve, and how much one of them says of the next; blips left out.
 */
function residualFigures({ residual, weight }: RobustFit) {
  let [own, ownCount, next, nextCount] = [0, 0, 0, 0];
  for (let i = 0; i < residual.length; i++) {
    if (!(weight[i]! > 0)) continue;
    own += residual[i]! ** 2;
    ownCount++;
    if (i + 1 < residual.length && weight[i + 1]! > 0) {
      next += residual[i]! * residual[i + 1]!;
      nextCount++;
    }
  }
  const variance = own / Math.max(1, ownCount);
  return {
    residualSdNm: Math.sqrt(variance),
    residualCorrelation: variance > 0 && nextCount > 0 ? next / nextCount / variance : 0,
  };
}

/**
 * Round speeds within the curve, 50 rev/min apart (25 on a short sweep); the ends themselves where no round
 * one fits.
 */
function gridOf(low: number, high: number): number[] {
  const step = high - low > 2000 ? 50 : 25;
  const first = Math.ceil(low / step);
  const last = Math.floor(high / step);
  if (last - first < 2) return [low, (low + high) / 2, high];
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

type Extra = (speedRpm: number, points: Points) => number;

/**
 * What is neither noise nor common to the pull: torque left open by the rate's noise and by the lag's sd
 * [N·m].
 */
function systematicSd(points: Points, factor: number, { spline }: RobustFit): Extra {
  const { track, inertiaSdNm } = points;
  if (track === null || points.speedRpm.length < 2) return () => 0;
  const span = spline.high - spline.low;
  const bins = 40;
  const worst = new Float64Array(bins);
  const rate = new Float64Array(bins);
  points.speedRpm.forEach((rpm, i) => {
    const bin = Math.min(bins - 1, Math.floor(((rpm - spline.low) / span) * bins));
    worst[bin] = Math.max(worst[bin]!, inertiaSdNm[i]!);
    rate[bin] = Math.abs(track.rateRpmPerS(track.fromS + points.timeS[i]! - points.lagS));
  });
  return (rpm) => {
    const bin = Math.min(bins - 1, Math.max(0, Math.floor(((rpm - spline.low) / span) * bins)));
    const byLag = Math.abs(splineDerivative(spline, rpm)) * rate[bin]! * points.lagSdS;
    return Math.hypot(factor * worst[bin]!, byLag);
  };
}

/** The systematic part where peaks stand, as a part of the level: median over the curve. */
function typicalExtra(
  extra: Extra,
  points: Points,
  { low, high }: RobustFit['spline'],
  levelNm: number,
): number {
  const places = Array.from({ length: 21 }, (_, i) => low + ((high - low) * i) / 20);
  return median(places.map((rpm) => extra(rpm, points))) / levelNm;
}

function timedBlips({ blips }: RobustFit, { speedRpm, timeS, track }: Points): TimedBlip[] {
  const origin = track?.fromS ?? 0;
  return blips.map(({ from, to, size }) => ({
    fromS: origin + timeS[from]!,
    toS: origin + timeS[to]!,
    fromRpm: Math.min(speedRpm[from]!, speedRpm[to]!),
    toRpm: Math.max(speedRpm[from]!, speedRpm[to]!),
    sizeNm: size,
  }));
}

function blipMark({ fromS, toS, fromRpm, toRpm, sizeNm }: TimedBlip): Mark {
  const where =
    toRpm - fromRpm < 10
      ? `at ${fromRpm.toFixed(0)} rev/min`
      : `from ${fromRpm.toFixed(0)} to ${toRpm.toFixed(0)} rev/min`;
  return {
    kind: 'blip',
    severity: toS - fromS > 0.15 ? 'look again' : 'note',
    sentence: `Torque stood ${Math.abs(sizeNm).toFixed(0)} N·m ${sizeNm < 0 ? 'below' : 'above'} the curve ${where}; those readings were left out.`,
    fromRpm,
    toRpm,
    sizeNm,
  };
}

/**
 * Means in bins of 100 rev/min. Lambda of the leanest bank; of several knock channels the worst in each bin.
 */
function bySpeedOf(
  recording: Recording,
  span: PullSpan,
  speed: Channel,
  low: number,
  high: number,
): Curve['bySpeed'] {
  const first = Math.ceil(low / KNOCK_BIN_RPM);
  const last = Math.max(first, Math.floor(high / KNOCK_BIN_RPM));
  const places = Array.from({ length: last - first + 1 }, (_, i) => (first + i) * KNOCK_BIN_RPM);
  const means = (channel: Channel | undefined) =>
    channel === undefined ? null : meansBySpeed(channel, speed, span, places);
  const knocks = channelsOf(recording, 'knock').map((channel) => means(channel)!);
  const knock =
    knocks.length === 0
      ? null
      : places.map((_, i) =>
          knocks.reduce<number | null>((worst, { [i]: level }) => {
            if (level === null || level === undefined) return worst;
            return worst === null ? level : Math.max(worst, level);
          }, null),
        );
  return {
    speedRpm: places,
    lambda: means(leanestBank(recording)),
    knock,
    lead: means(channelsOf(recording, 'lead')[0]),
  };
}

/** Oil and water at the start of the pull: medians over its first tenth. */
function conditionsOf(
  recording: Recording,
  span: PullSpan,
  air: PullAir,
  { track }: Points,
): Curve['conditions'] {
  const { firstRow, lastRow } = span;
  const start = { ...span, lastRow: firstRow + Math.max(5, Math.floor((lastRow - firstRow) / 10)) };
  const atStart = (channel: Channel | undefined): number | null => {
    if (channel === undefined) return null;
    const values = finiteIn(channel, start);
    return values.length === 0 ? null : median(values);
  };
  const middle = track === null ? null : (track.fromS + track.toS) / 2;
  return {
    airTemperatureK: orNull(air.temperatureK),
    pressureAbsPa: orNull(air.pressureAbsPa),
    humidity: orNull(air.humidity),
    oilTemperatureK: atStart(channelsOf(recording, 'oilTemperature')[0]),
    waterTemperatureK: atStart(channelsOf(recording, 'waterTemperature')[0]),
    sweepRateRpmPerS:
      track === null || middle === null
        ? null
        : median(
            Array.from({ length: 21 }, (_, i) =>
              track.rateRpmPerS(track.fromS + ((track.toS - track.fromS) * i) / 20),
            ),
          ),
  };
}

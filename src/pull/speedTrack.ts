import { InputError } from '../errors.ts';
import {
  evaluateSpline,
  type FitPriors,
  fitRobustSpline,
  functionalCovariance,
  logSpaced,
  type SplineFit,
  splineDerivative,
  valueFunctional,
} from '../numerics/index.ts';
import type { Track } from './condense.ts';

/** Speed against time, smooth enough to be differentiated. */
export interface SpeedTrack {
  readonly fromS: number;
  readonly toS: number;
  /** Samples that stood away from the track and were left out of it. */
  readonly outliers: number;
  /** rev/min at a time [s]. */
  speedRpm(timeS: number): number;
  /** rev/min per second at a time [s]. */
  rateRpmPerS(timeS: number): number;
  /** Standard deviation of the rate [rev/min per s] from the noise of the speed. */
  rateSd(timeS: number): number;
}

/** A brake's control moves the speed over some tenths of a second; finer knots would only follow noise. */
const KNOT_S = 0.15;
const MOST_SEGMENTS = 80;
const LONGEST_OUTLIER = 3;

/** Speed noise is taken for white: what is slower than a knot is movement of the crank, not noise. */
const WHITE_ONLY: FitPriors = {
  smoothness: logSpaced(1e-4, 1e9, 27),
  share: [0],
  shareWeight: [1],
  memory: [1],
  memoryWeight: [1],
};

/**
 * The penalised spline (third-derivative penalty, REML) of speed against time. Its derivative gives the
 * torque that accelerates the rotating parts; a difference of neighbouring samples would turn 10 rev/min of
 * noise into hundreds of rev/min per second. Fitted over the rows of the pull alone: at its ends nothing of
 * hold or fall-off is in it.
 * @throws InputError when there are too few samples
 */
export function trackSpeed({ timeS, value }: Track): SpeedTrack {
  if (timeS.length < 6) {
    throw new InputError('The pull has too few samples of speed to follow.', {
      found: `${timeS.length} samples`,
      expected: 'at least 6',
    });
  }
  // Time from the start, so that rounding does not depend on the hour of the day.
  const origin = timeS[0]!;
  const time = timeS.map((t) => t - origin);
  const duration = time[time.length - 1]!;
  const segments = Math.max(
    3,
    Math.min(MOST_SEGMENTS, Math.round(duration / KNOT_S), Math.floor(time.length / 3)),
  );
  const grid = { low: 0, high: duration, segments };
  const fit = fitRobustSpline(grid, { time, x: time, y: value }, 3, WHITE_ONLY, {
    longest: LONGEST_OUTLIER,
  });
  const spline: SplineFit = fit.spline;
  const inside = (t: number) => Math.min(duration, Math.max(0, t - origin));
  return {
    fromS: origin,
    toS: origin + duration,
    outliers: fit.blips.length,
    speedRpm: (t) => evaluateSpline(spline, inside(t)),
    rateRpmPerS: (t) => splineDerivative(spline, inside(t)),
    rateSd: (t) => Math.sqrt(functionalCovariance(spline, valueFunctional(spline, inside(t), 1))),
  };
}

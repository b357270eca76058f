import { median, type RobustFit, splineDerivative } from '../numerics/index.ts';
import type { Points } from './points.ts';

/**
 * Round speeds within the curve, 50 rev/min apart (25 on a short sweep); the ends themselves where no round
 * one fits.
 */
export function gridOf(low: number, high: number): number[] {
  const step = high - low > 2000 ? 50 : 25;
  const first = Math.ceil(low / step);
  const last = Math.floor(high / step);
  if (last - first < 2) return [low, (low + high) / 2, high];
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

export type Extra = (speedRpm: number, points: Points) => number;

/**
 * What is neither noise nor common to the pull: torque left open by the rate's noise and by the lag's sd
 * [N·m].
 */
export function systematicSd(points: Points, { spline }: RobustFit): Extra {
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
    return Math.hypot(worst[bin]!, byLag);
  };
}

/** The systematic part where peaks stand, as a part of the level: median over the curve. */
export function typicalExtra(
  extra: Extra,
  points: Points,
  { low, high }: RobustFit['spline'],
  levelNm: number,
): number {
  const places = Array.from({ length: 21 }, (_, i) => low + ((high - low) * i) / 20);
  return median(places.map((rpm) => extra(rpm, points))) / levelNm;
}

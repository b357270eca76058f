import { InputError } from '../errors.ts';
import { functionalCovariance, functionalValue, meanFunctional } from '../numerics/index.ts';
import { RAD_PER_S_PER_RPM } from '../trade/index.ts';
import type { Banded, Curve } from './types.ts';

/**
 * Mean power over a band of speeds [W] with its absolute 95 % interval: the mean of T·ω over speed, each
 * speed counted alike.
 * @throws InputError when the curve does not cover the band
 */
export function meanPowerW(curve: Curve, bandRpm: readonly [number, number]): Banded {
  const { spline, commonRelSd, commonSdNm } = curve;
  const [from, to] = bandRpm;
  if (from < spline.low - 1 || to > spline.high + 1) {
    throw new InputError(
      `The pull covers ${spline.low.toFixed(0)} to ${spline.high.toFixed(0)} rev/min and not the whole band from ${from} to ${to}.`,
      {
        found: `${spline.low.toFixed(0)} to ${spline.high.toFixed(0)} rev/min`,
        expected: `${from} to ${to} rev/min`,
      },
    );
  }
  const low = Math.max(from, spline.low);
  const high = Math.min(to, spline.high);
  const row = meanFunctional(spline, low, high, 1).map((weight) => weight * RAD_PER_S_PER_RPM);
  const value = functionalValue(spline, row);
  const sd = Math.hypot(
    Math.sqrt(functionalCovariance(spline, row)),
    commonRelSd * value,
    // The mean of a constant torque times ω: over a straight band that of its middle speed.
    commonSdNm * RAD_PER_S_PER_RPM * ((low + high) / 2),
  );
  return { value, low: value - 1.959964 * sd, high: value + 1.959964 * sd };
}

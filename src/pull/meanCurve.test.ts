import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { powerW } from '../trade/index.ts';
import { CALIBRATION_REL_SD, REPEATABILITY_REL_SD } from './cell.ts';
import { curveOf } from './curve.ts';
import { findPulls } from './findPulls.ts';
import { meanCurve } from './meanCurve.ts';
import { meanPowerW } from './meanPower.ts';
import { options, simulatedPull, TRUTH } from './simulated.fixture.ts';
import type { Curve } from './types.ts';

const curves = Array.from({ length: 10 }, (_, i) => {
  // Sweeps that do not begin and end alike, so that no two have the same knots.
  const recording = simulatedPull({
    seed: 31 * i + 7,
    fromRpm: 2800 - 10 * i,
    toRpm: 6400 + 15 * i,
  });
  return curveOf(recording, findPulls(recording)[0]!, options());
});

/** A curve as it would be had everything in it been larger by a part. */
function larger(curve: Curve, part: number): Curve {
  const by = (values: readonly number[]) => values.map((value) => value * (1 + part));
  return {
    ...curve,
    spline: { ...curve.spline, coefficients: by(curve.spline.coefficients) },
    torqueNm: by(curve.torqueNm),
    lowNm: curve.lowNm.map((low, i) => low + part * curve.torqueNm[i]!),
    highNm: curve.highNm.map((high, i) => high + part * curve.torqueNm[i]!),
  };
}

describe('the mean of several pulls', () => {
  it('of one pull is that pull, with its own band and peaks', () => {
    const [curve] = curves;
    const mean = meanCurve([curve!]);
    mean.speedRpm.slice(1, -1).forEach((rpm, i) => {
      const at = curve!.speedRpm.indexOf(rpm);
      expect(mean.torqueNm[i + 1]! / curve!.torqueNm[at]!).toBeCloseTo(1, 6);
      const [own, half] = [
        curve!.highNm[at]! - curve!.lowNm[at]!,
        mean.highNm[i + 1]! - mean.lowNm[i + 1]!,
      ];
      expect(half / own).toBeCloseTo(1, 2);
    });
    expect(mean.peakTorque.value / curve!.peakTorque.value).toBeCloseTo(1, 4);
    expect(mean.over([3200, 6000]).powerW.value).toBeCloseTo(
      meanPowerW(curve!, [3200, 6000]).value,
      -1,
    );
  });

  it('holds the truth in 92 to 98 of 100, whatever pull, repeatability and calibration did', () => {
    const normal = gaussian(5);
    const speeds = Array.from({ length: 200 }, (_, i) => 2850 + 17.5 * i);
    const truePower = Math.max(...speeds.map((rpm) => powerW(TRUTH(rpm), rpm)));
    let [inside, places, bands, peaks] = [0, 0, 0, 0];
    const groups = 400;
    for (let group = 0; group < groups; group++) {
      const common = CALIBRATION_REL_SD * normal();
      const made = [0, 1, 2, 3].map((k) =>
        larger(
          curves[(3 * group + k * (1 + (group % 2))) % 10]!,
          common + REPEATABILITY_REL_SD * normal(),
        ),
      );
      const mean = meanCurve(made);
      mean.speedRpm.forEach((rpm, i) => {
        places++;
        if (mean.lowNm[i]! <= TRUTH(rpm) && TRUTH(rpm) <= mean.highNm[i]!) inside++;
      });
      const over = mean.over([3000, 6000]);
      const trueMean = meanOverTruth(3000, 6000);
      if (over.torqueNm.low <= trueMean && trueMean <= over.torqueNm.high) bands++;
      if (mean.peakPower.low <= truePower && truePower <= mean.peakPower.high) peaks++;
    }
    for (const held of [inside / places, bands / groups, peaks / groups]) {
      expect(held).toBeGreaterThan(0.92);
      expect(held).toBeLessThan(0.985);
    }
  });

  it('grows surer with more pulls, never surer than the calibration lets it be', () => {
    const width = (count: number) => {
      const { value, low, high } = meanCurve(curves.slice(0, count)).over([3200, 6000]).torqueNm;
      return (high - low) / value;
    };
    expect(width(4)).toBeLessThan(width(1));
    expect(width(10)).toBeLessThan(width(4));
    expect(width(10)).toBeGreaterThan(2 * 1.96 * CALIBRATION_REL_SD);
  });

  it('refuses what has no mean', () => {
    const [one, two] = curves as [Curve, Curve];
    expect(() => meanCurve([])).toThrow(InputError);
    expect(() => meanCurve([one, { ...two, standard: 'none' }])).toThrow(/different air standards/);
    const apart = { ...two, spline: { ...two.spline, low: 9000, high: 9500 } };
    expect(() => meanCurve([one, apart])).toThrow(/no speeds in common/);
    expect(() => meanCurve([one, two]).over([1000, 6000])).toThrow(/not the whole band/);
  });
});

function meanOverTruth(from: number, to: number): number {
  let sum = 0;
  const steps = 3000;
  for (let i = 0; i < steps; i++) sum += TRUTH(from + ((to - from) * (i + 0.5)) / steps);
  return sum / steps;
}

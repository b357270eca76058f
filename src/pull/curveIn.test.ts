import { describe, expect, it } from 'vitest';
import { functionalCovariance, meanFunctional, splineSd } from '../numerics/index.ts';
import { AIR_CORRECTIONS, vapourPressureFromHumidityPa } from '../trade/index.ts';
import { curveIn, curveOf } from './curve.ts';
import { findPulls } from './findPulls.ts';
import { fitPull } from './fitPull.ts';
import { meanPowerW } from './meanPower.ts';
import { AIR_STANDARDS, type Recording } from './recording.ts';
import { AIR, changed, options, simulatedPull } from './simulated.fixture.ts';
import type { Curve } from './types.ts';

const pullOf = (recording: Recording) => findPulls(recording)[0]!;
const CORRECTED = AIR_STANDARDS.filter((standard) => standard !== 'none');

/** A pull with a blip, so that its size is seen to scale. */
const blipped = (): Recording => {
  const recording = simulatedPull({ seed: 3 });
  const { firstRow, lastRow } = pullOf(recording);
  const at = Math.floor((firstRow + lastRow) / 2);
  return changed(recording, 'torque', (value, row) =>
    row >= at && row < at + 6 ? value - 70 : value,
  );
};

const BAND = [3000, 6000] as const;
const bandSd = ({ spline }: Curve) =>
  Math.sqrt(functionalCovariance(spline, meanFunctional(spline, ...BAND, 1)));

describe('a fit shown in another standard', () => {
  it.each(CORRECTED)('is what a fit of corrected torque would be: %s', (standard) => {
    const recording = blipped();
    const fit = fitPull(recording, pullOf(recording), options());
    const shown = curveIn(fit, { standard });
    const factor = fit.air.factors[standard]!;
    expect(Math.abs(factor - 1)).toBeGreaterThan(0.002);
    // The same torque corrected before the fit, inertia with it, and then left alone.
    const refitted = curveOf(
      changed(recording, 'torque', (torque) => torque * factor),
      pullOf(recording),
      options({ standard: 'none' }, 0.5 * factor),
    );
    shown.speedRpm.forEach((rpm, i) => {
      expect(shown.torqueNm[i]! / refitted.torqueNm[i]!).toBeCloseTo(1, 7);
      expect(shown.lowNm[i]! / refitted.lowNm[i]!).toBeCloseTo(1, 6);
      expect(shown.highNm[i]! / refitted.highNm[i]!).toBeCloseTo(1, 6);
      expect(splineSd(shown.spline, rpm) / splineSd(refitted.spline, rpm)).toBeCloseTo(1, 4);
    });
    for (const which of ['peakTorque', 'peakPower'] as const) {
      for (const end of ['value', 'low', 'high', 'speedRpm'] as const)
        expect(shown[which][end] / refitted[which][end]).toBeCloseTo(1, 6);
    }
    const [one, other] = [meanPowerW(shown, BAND), meanPowerW(refitted, BAND)];
    expect(one.value / other.value).toBeCloseTo(1, 7);
    expect((one.high - one.low) / (other.high - other.low)).toBeCloseTo(1, 5);
    expect(bandSd(shown) / bandSd(refitted)).toBeCloseTo(1, 4);
    const blip = (curve: Curve) => curve.marks.find(({ kind }) => kind === 'blip')!;
    expect(blip(shown).sizeNm! / blip(refitted).sizeNm!).toBeCloseTo(1, 6);
    expect(blip(shown).sentence).toBe(blip(refitted).sentence);
    expect(shown).toEqual(curveOf(recording, pullOf(recording), options({ standard })));
  });

  it('stands within a third of its band of a correction by the air of each moment, where air drifts in the pull', () => {
    const steady = simulatedPull({ seed: 4 });
    const { firstRow, lastRow } = pullOf(steady);
    const part = (row: number) => (row - firstRow) / (lastRow - firstRow) - 0.5;
    // As much as inlet air gains in one pull of a hot cell: 2.5 K, and the barometer 60 Pa.
    const warming = changed(
      changed(steady, 'airTemperature', (value, row) => value + 2.5 * part(row)),
      'barometer',
      (value, row) => value - 60 * part(row),
    );
    const shown = curveOf(warming, pullOf(warming), options());
    const momentFactor = (row: number) => {
      const temperatureK = AIR.temperatureK + 2.5 * part(row);
      return AIR_CORRECTIONS['SAE J1349'].factor({
        temperatureK,
        pressureAbsPa: AIR.pressureAbsPa - 60 * part(row),
        vapourPressurePa: vapourPressureFromHumidityPa(temperatureK, AIR.humidity),
      });
    };
    const momentary = curveOf(
      changed(warming, 'torque', (torque, row) => torque * momentFactor(row)),
      pullOf(warming),
      options({ standard: 'none' }, 0.5 * shown.correctionFactor),
    );
    shown.torqueNm.forEach((torque, i) => {
      const half = (shown.highNm[i]! - shown.lowNm[i]!) / 2;
      expect(Math.abs(torque - momentary.torqueNm[i]!)).toBeLessThan(half / 3);
    });
  });

  it('comes from a kept fit as from a fresh one, and leaves what belongs to the day alone', () => {
    const recording = simulatedPull();
    const fit = fitPull(recording, pullOf(recording), options());
    for (const standard of AIR_STANDARDS) {
      const curve = curveIn(structuredClone(fit), { standard });
      expect(curve).toEqual(curveIn(fit, { standard }));
      expect(curve.derived.bsfcKgPerJ).toEqual(fit.asRecorded.derived.bsfcKgPerJ);
      expect(curve.derived.bmepPa![9]! / curve.torqueNm[9]!).toBeCloseTo((4 * Math.PI) / 0.0042, 6);
    }
  });

  it('takes fuel against observed power where the logger had corrected the torque', () => {
    const recording = simulatedPull();
    const observed = fitPull(recording, pullOf(recording), options({}, 0));
    const factor = observed.air.factors['ISO 1585']!;
    const cell = { ...options({}, 0).cell, torqueIs: { air: 'ISO 1585', inertia: 'out' } as const };
    const corrected = fitPull(
      changed(recording, 'torque', (torque) => torque * factor),
      pullOf(recording),
      options({ cell }),
    );
    corrected.asRecorded.derived.bsfcKgPerJ!.forEach((value, i) => {
      expect(value / observed.asRecorded.derived.bsfcKgPerJ![i]!).toBeCloseTo(1, 6);
    });
  });
});

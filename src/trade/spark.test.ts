import { describe, expect, it } from 'vitest';
import {
  burnedGasSoundMPerS,
  crossleyCookBestLeadDeg,
  crossleyCookTorqueNm,
  knockFrequenciesHz,
  RETARD_CURVATURE_RANGE,
  torqueShareOffBest,
} from './index.ts';

/** Loss [%] of the published regression at a retard from its own best. */
function lossPercent(airPerCylinderG: number, speedRpm: number, retardDeg: number): number {
  const best = crossleyCookBestLeadDeg(airPerCylinderG, speedRpm);
  const at = (leadDeg: number) =>
    crossleyCookTorqueNm({ airPerCylinderG, afr: 12.89, leadDeg, speedRpm });
  return 100 * (1 - at(best - retardDeg) / at(best));
}

describe('torque against lead', () => {
  // The published regression's own losses, computed from its printed coefficients at 2000 to 4000 rev/min.
  it.each([
    [0.5, 5, 0.4, 0.4],
    [0.5, 10, 1.6, 1.6],
    [0.5, 15, 3.6, 3.7],
    [0.5, 20, 6.4, 6.6],
    [0.3, 5, 0.5, 0.5],
    [0.3, 10, 1.9, 2.0],
    [0.3, 15, 4.3, 4.6],
    [0.3, 20, 7.7, 8.2],
  ])('%d g a cylinder, %d° late: %d to %d %%', (charge, retard, low, high) => {
    for (const speed of [2000, 3000, 4000]) {
      expect(lossPercent(charge, speed, retard)).toBeGreaterThan(low - 0.06);
      expect(lossPercent(charge, speed, retard)).toBeLessThan(high + 0.06);
    }
  });

  it('is a parabola about the best whose curvature lies at the flat end of the range', () => {
    const curvature = lossPercent(0.5, 3000, 10) / 100 / 10 ** 2;
    expect(curvature).toBeGreaterThan(0.75 * RETARD_CURVATURE_RANGE[0]);
    expect(curvature).toBeLessThan(RETARD_CURVATURE_RANGE[1]);
    for (const retard of [2, 6, 15])
      expect(1 - lossPercent(0.5, 3000, retard) / 100).toBeCloseTo(
        torqueShareOffBest(retard, curvature),
        10,
      );
  });

  it('has its richest torque at an air ratio of 12.89', () => {
    const at = (afr: number) =>
      crossleyCookTorqueNm({ airPerCylinderG: 0.5, afr, leadDeg: 25, speedRpm: 3000 });
    expect(at(12.89)).toBeGreaterThan(at(12.87));
    expect(at(12.89)).toBeGreaterThan(at(12.91));
  });
});

describe('the ring of a chamber', () => {
  it('at 950 m/s: 86 mm 6474 Hz, 100 mm 5568, 101.6 mm 5480 (by hand from the printed zeros)', () => {
    for (const [boreMm, expected] of [
      [86, 6474],
      [100, 5568],
      [101.6, 5480],
    ] as const)
      expect(
        Math.abs(knockFrequenciesHz(boreMm / 1000, 950)[0]!.frequencyHz - expected),
      ).toBeLessThan(0.6);
  });

  it('at 2500 K has c = 958.3 m/s and modes of 5528, 9170, 11504, 12614 Hz in 101.6 mm', () => {
    const sound = burnedGasSoundMPerS(2500);
    expect(sound).toBeCloseTo(958.4, 0);
    const modes = knockFrequenciesHz(0.1016, 958.3).map(({ frequencyHz }) => frequencyHz);
    [5528, 9170, 11504, 12614].forEach((expected, index) => {
      expect(Math.abs(modes[index]! - expected)).toBeLessThan(1);
    });
  });
});

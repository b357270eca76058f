import { describe, expect, it } from 'vitest';
import { truthOf } from './cell.ts';
import { knobsOf } from './knobs.ts';
import { dayMadeToPeaks } from './made-to-peaks.ts';

/** hp = 550 ft·lbf/s. */
const HP = 745.69987158227;

describe('a day made to given peaks', () => {
  it('has those peaks, offsets included', () => {
    const rungs = [
      [32, 775],
      [34, 799],
      [36, 818],
      [38, 823],
    ].map(([leadDeg, hp]) => ({ leadDeg: leadDeg!, peakPowerW: hp! * HP }));
    for (let seed = 0; seed < 10; seed++) {
      const knobs = knobsOf(dayMadeToPeaks(rungs, { seed, fromRpm: 4000, toRpm: 7500 }));
      const truth = truthOf(knobs);
      rungs.forEach((rung, i) => {
        let peak = 0;
        for (let rpm = 4000; rpm <= 7500; rpm += 1) {
          peak = Math.max(peak, (truth.torqueNm(rpm, rung.leadDeg) * rpm * Math.PI) / 30);
        }
        expect((peak * (1 + truth.offsetsPercent[i]! / 100)) / rung.peakPowerW).toBeCloseTo(1, 5);
        // What the smooth truth cannot explain of such a ladder stays within the repeatability of a good cell.
        expect(Math.abs(truth.offsetsPercent[i]!)).toBeLessThan(0.5);
      });
      expect(truth.bestLeadOverBandDeg).toBeGreaterThan(36);
      expect(truth.bestLeadOverBandDeg).toBeLessThan(40);
    }
  });
});

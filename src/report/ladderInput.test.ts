import { describe, expect, it } from 'vitest';
import { SPARK_LEAD } from '../ladder/kinds.ts';
import type { Curve } from '../pull/types.ts';
import {
  bandFromCurves,
  type DayPull,
  type LadderSettings,
  ladderInputOf,
  NO_BAND_RPM,
} from './ladderInput.ts';

/** As much of a curve as the band is chosen by. */
function curve(low: number, peakTorqueRpm: number, high: number): Curve {
  return {
    spline: {
      low,
      high,
      segments: 1,
      coefficients: [0, 0, 0, 0],
      covariance: new Array(16).fill(0),
    },
    peakTorque: { value: 400, low: 398, high: 402, unit: 'N·m', speedRpm: peakTorqueRpm },
    peakPower: { value: 2e5, low: 1.9e5, high: 2.1e5, unit: 'W', speedRpm: high },
    bySpeed: { speedRpm: [3000, 4000], lambda: null, knock: [0, 3], lead: null },
    derived: { bsfcKgPerJ: null },
    conditions: {
      airTemperatureK: 300,
      pressureAbsPa: null,
      humidity: null,
      oilTemperatureK: null,
      waterTemperatureK: null,
      sweepRateRpmPerS: null,
    },
  } as unknown as Curve;
}

const settings: LadderSettings = {
  kind: SPARK_LEAD,
  bandRpm: null,
  uses: [],
  aspiration: 'natural',
  step: 1,
  worthPercent: 0.75,
  repeatabilityPercent: null,
  worstInletDeltaK: 0,
  worstFuelDeltaOctane: 0,
  holdbackPer10K: 1.5,
  holdbackPerOctane: 1,
};
const pull: DayPull = {
  id: 'a',
  order: 0,
  setting: 30,
  curve: null,
  peakPowerW: null,
  peakTorqueNm: null,
  excludedBecause: null,
  watched: null,
  knockHeard: false,
  aborted: false,
  configuration: null,
};

describe('the band where nobody chose one', () => {
  it('runs from the middle speed of peak torque to where every curve still is, in hundreds', () => {
    expect(
      bandFromCurves([
        curve(2950, 4310, 7290),
        null,
        curve(3020, 4390, 7240),
        curve(3000, 4350, 7300),
      ]),
    ).toEqual([4400, 7200]);
  });

  it('falls back to what the curves share, and to nothing', () => {
    expect(bandFromCurves([curve(3000, 5000, 5200)])).toEqual([3000, 5200]);
    expect(bandFromCurves([curve(3000, 3500, 4000), curve(5000, 5500, 6000)])).toBeNull();
    expect(bandFromCurves([null])).toBeNull();
  });
});

describe('the question that a day puts to the ladder', () => {
  it('takes spline, knock and air from the curve, and the chosen band before any other', () => {
    const input = ladderInputOf([{ ...pull, curve: curve(3000, 4200, 7000) }], {
      ...settings,
      bandRpm: [5000, 6000],
    });
    expect(input.bandRpm).toEqual([5000, 6000]);
    expect(input.pulls[0]).toMatchObject({
      setting: 30,
      knock: { speedRpm: [3000, 4000], level: [0, 3] },
      airTemperatureK: 300,
      peakPowerW: 2e5,
    });
    expect(input.pulls[0]).not.toHaveProperty('curve');
  });

  it('stands on typed peaks alone, over the widest band', () => {
    const input = ladderInputOf([{ ...pull, peakPowerW: 3e5 }], settings);
    expect(input.bandRpm).toBe(NO_BAND_RPM);
    expect(input.pulls[0]).toMatchObject({ torque: null, knock: null, peakPowerW: 3e5 });
  });
});

import { describe, expect, it } from 'vitest';
import type { Curve } from '../pull/types.ts';
import { exhaustPeakK, heldLead, lambdasOf, type SetAt, steppedSetting } from './pullSettings.ts';

const at = (more: Partial<SetAt>): SetAt => ({
  leadDeg: 30,
  lambdaTarget: null,
  lambdaMeasured: null,
  lambdaErrorSd: null,
  jets: null,
  loadPercent: null,
  curve: null,
  ...more,
});
const recorded = {
  bySpeed: {
    speedRpm: [3000, 4000, 5000],
    lambda: [0.7, 0.86, 0.88],
    exhaustTemperatureK: [900, null, 1010],
  },
} as unknown as Curve;

describe('lambda at a pull', () => {
  it('is the target where one was set, without an error', () => {
    expect(lambdasOf([at({ lambdaTarget: 0.86, curve: recorded })], [3500, 5000])).toEqual([
      { lambda: 0.86, sd: 0 },
    ]);
  });

  it('is what was read over the band where nothing was set, with the error of a reading', () => {
    const [one] = lambdasOf([at({ curve: recorded })], [3500, 5000]);
    expect(one!.lambda).toBeCloseTo(0.87, 12);
    expect(one!.sd).toBeGreaterThan(0);
    expect(lambdasOf([at({})], null)[0]!.lambda).toBeNaN();
  });

  it('is one rung for one set of jets: the mean of its readings', () => {
    const pulls = [
      at({ jets: '68', lambdaMeasured: 0.86, lambdaErrorSd: 0.01 }),
      at({ jets: '70', lambdaMeasured: 0.9, lambdaErrorSd: 0.01 }),
      at({ jets: '68', lambdaMeasured: 0.87, lambdaErrorSd: 0.01 }),
    ];
    expect(lambdasOf(pulls, null).map(({ lambda }) => lambda)).toEqual([0.865, 0.9, 0.865]);
  });
});

describe('a day’s pulls', () => {
  it('step lead if it took two values, else lambda if that did', () => {
    const [lead, rich] = [at({ leadDeg: 28 }), at({ lambdaTarget: 0.8 })];
    expect(steppedSetting([lead, at({})])).toBe('lead');
    expect(steppedSetting([rich, at({ lambdaTarget: 0.84 })])).toBe('lambda');
    expect(steppedSetting([at({ jets: 'a' }), at({ jets: 'b' })])).toBe('lambda');
    expect(steppedSetting([rich, { ...rich, leadDeg: 28, lambdaTarget: 0.84 }])).toBe('lead');
  });

  it('hold the lead that most stand at', () => {
    const why = heldLead([at({}), at({}), at({ leadDeg: 28 })]);
    expect(why(at({}))).toBeNull();
    expect(why(at({ leadDeg: 28 }))).toContain('holds 30°');
  });

  it('have their hottest exhaust', () => {
    expect(exhaustPeakK(recorded)).toBe(1010);
    expect(exhaustPeakK(null)).toBeNull();
  });
});

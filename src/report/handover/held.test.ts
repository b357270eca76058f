import { describe, expect, it } from 'vitest';
import { apart, differences, placeInWords, rounding } from './held.ts';

describe('a value held against the same computed again', () => {
  it('agrees to one part in a million, and no number agrees with what is past all numbers', () => {
    const differ = (a: unknown, b: unknown) => differences({ a }, { a: b }).length;
    expect(differ(250_000, 250_000 * (1 + 9e-7))).toBe(0);
    expect(differ(250_000, 250_000 * (1 + 2e-6))).toBe(1);
    expect(differ(JSON.parse('1e999'), 250_000)).toBe(1);
    expect(differ(JSON.parse('-1e999'), JSON.parse('1e999'))).toBe(1);
    expect(differ(null, undefined)).toBe(0);
    expect(differ([1, 2], { 0: 1, 1: 2 })).toBe(1);
    expect(differ('1', 1)).toBe(1);
  });

  it('tells the most by which two that agree are rounded otherwise', () => {
    expect(rounding({ a: [1, 2], b: 'x' }, { a: [1, 2], b: 'x' })).toBe(0);
    expect(rounding({ a: [1, 2 + 4e-12] }, { a: [1, 2] })).toBeCloseTo(2e-12, 15);
    // What is told as a difference is no rounding, and what is nothing but rounding has no part to speak of.
    expect(rounding({ a: 1.1, b: 1e-17 }, { a: 1, b: 3e-17 })).toBe(0);
    expect(apart(99, 100)).toBeCloseTo(0.01, 12);
  });

  it('names a place as people count', () => {
    expect(placeInWords('days[0].pulls[2].curve.peakPower.value')).toBe(
      'day 1, pull 3, curve, peak power',
    );
    expect(placeInWords('final.meanTorqueNm.low')).toBe('final, mean torque [N.m], low');
  });
});

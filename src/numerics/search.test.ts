import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { crossingOnInterval, smallestOnInterval } from './index.ts';

describe('smallestOnInterval', () => {
  it('finds the bottom of a parabola anywhere, or the end that is lower (identity)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (bottom, steps) => {
          const { x, value } = smallestOnInterval((at) => (at - bottom) ** 2 + 2, -2, 2, steps);
          const expected = Math.min(2, Math.max(-2, bottom));
          expect(Math.abs(x - expected)).toBeLessThan(1e-6);
          expect(value).toBeCloseTo((expected - bottom) ** 2 + 2, 10);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });

  it('takes the lower of two dips, and a kink', () => {
    const two = (x: number) => Math.min((x - 1) ** 2 + 0.1, (x + 1) ** 2);
    expect(smallestOnInterval(two, -2, 2, 40).x).toBeCloseTo(-1, 6);
    expect(smallestOnInterval((x) => Math.abs(x - 0.3), -1, 1, 7).x).toBeCloseTo(0.3, 7);
  });

  it('refuses an empty interval and a function that is not a number', () => {
    expect(() => smallestOnInterval((x) => x, 1, 1, 5)).toThrow(InputError);
    expect(() => smallestOnInterval(() => Number.NaN, 0, 1, 5)).toThrow(InputError);
  });
});

describe('crossingOnInterval', () => {
  it('finds √2 to the last bit, from either direction', () => {
    expect(crossingOnInterval((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(crossingOnInterval((x) => 2 - x * x, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(crossingOnInterval((x) => x, 0, 2)).toBe(0);
  });

  it('refuses an interval without a crossing', () => {
    expect(() => crossingOnInterval((x) => x * x + 1, -1, 1)).toThrow(InputError);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { median, quantile } from './quantile.ts';

describe('quantile', () => {
  it('is that of the sorted values, whatever their order and however many are alike', () => {
    const value = fc.oneof(
      fc.double({ min: -1e9, max: 1e9, noNaN: true }),
      fc.integer({ min: -3, max: 3 }),
      fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY),
    );
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 200 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, probability) => {
          const sorted = values.filter(Number.isFinite).sort((a, b) => a - b);
          if (sorted.length === 0) {
            expect(() => quantile(values, probability)).toThrow(InputError);
            return;
          }
          const before = [...values];
          const place = probability * (sorted.length - 1);
          const below = sorted[Math.floor(place)]!;
          const above = sorted[Math.ceil(place)]!;
          const expected = below + (place - Math.floor(place)) * (above - below);
          expect(quantile(values, probability)).toBeCloseTo(expected, 9);
          expect(values).toEqual(before);
        },
      ),
      { seed: 11, numRuns: 400 },
    );
  });

  // Type 7 of R's quantile(): 1:4 at 0.3 is 1.9.
  it('goes straight between order statistics', () => {
    expect(quantile([4, 1, 3, 2], 0.3)).toBeCloseTo(1.9, 12);
    expect(median(Float64Array.from({ length: 1001 }, (_, i) => (i * 7919) % 1001))).toBe(500);
  });
});

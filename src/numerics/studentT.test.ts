import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { tQuantile } from './studentT.ts';

describe("quantile of Student's t", () => {
  // Reference: the printed tables of t, three decimals (NIST/SEMATECH e-Handbook 1.3.6.7.2; from memory).
  it.each([
    [0.975, 1, 12.706],
    [0.975, 2, 4.303],
    [0.975, 3, 3.182],
    [0.975, 4, 2.776],
    [0.975, 5, 2.571],
    [0.975, 8, 2.306],
    [0.975, 10, 2.228],
    [0.975, 30, 2.042],
    [0.95, 9, 1.833],
    [0.995, 16, 2.921],
    [0.975, Number.POSITIVE_INFINITY, 1.96],
  ])('p %d, ν %d: %d (reference)', (p, nu, expected) => {
    expect(Math.abs(tQuantile(p, nu) - expected)).toBeLessThan(0.0005 + 1e-9);
  });

  it('has closed forms for ν = 1 and 2 (identity)', () => {
    for (const p of [0.6, 0.9, 0.99, 0.0001]) {
      expect(tQuantile(p, 1)).toBeCloseTo(Math.tan(Math.PI * (p - 0.5)), 8);
      expect(tQuantile(p, 2)).toBeCloseTo((2 * p - 1) / Math.sqrt(2 * p * (1 - p)), 8);
    }
  });

  it('meets its expansion where it changes to it, and falls with ν (identity)', () => {
    for (const p of [0.9, 0.975, 0.995]) {
      const steps = [199, 200, 201, 202].map((nu) => tQuantile(p, nu));
      const fall = steps.slice(1).map((t, i) => steps[i]! - t);
      expect(fall[1]! / fall[0]!).toBeCloseTo(1, 1);
      expect(fall[2]! / fall[1]!).toBeCloseTo(1, 1);
    }
    expect(tQuantile(0.975, 5.9)).toBe(tQuantile(0.975, 5));
  });

  it('refuses what is no probability and no degree of freedom', () => {
    for (const p of [0, 1, Number.NaN]) expect(() => tQuantile(p, 5)).toThrow(InputError);
    for (const nu of [0, 0.5, Number.NaN]) expect(() => tQuantile(0.9, nu)).toThrow(InputError);
  });
});

import { describe, expect, it } from 'vitest';
import { ensembleDraws, xorshift } from './ensemble.ts';

describe('draws by an ensemble of walkers', () => {
  // Reference: closed forms of a tilted Gaussian, mean (1, −20), sds 0.1 and 30, correlation 0.9.
  const log = (x: Float64Array) => {
    const [a, b] = [(x[0]! - 1) / 0.1, (x[1]! + 20) / 30];
    return -0.5 * ((a * a - 2 * 0.9 * a * b + b * b) / (1 - 0.81));
  };
  const uniform = xorshift(7);
  const starts = Array.from({ length: 12 }, () => Float64Array.of(uniform(), 40 * uniform()));

  it('have the mean, the spread and the tilt of the density', () => {
    const draws = ensembleDraws(log, starts, 200, 2000, 2);
    const n = draws.length;
    const mean = [0, 1].map((j) => draws.reduce((sum, x) => sum + x[j]! / n, 0));
    const moment = (i: number, j: number) =>
      draws.reduce((sum, x) => sum + ((x[i]! - mean[i]!) * (x[j]! - mean[j]!)) / n, 0);
    expect(mean[0]).toBeCloseTo(1, 1.7);
    expect(Math.abs(mean[1]! + 20)).toBeLessThan(3);
    expect(Math.sqrt(moment(0, 0))).toBeCloseTo(0.1, 1.9);
    expect(Math.abs(Math.sqrt(moment(1, 1)) - 30)).toBeLessThan(2);
    expect(moment(0, 1) / Math.sqrt(moment(0, 0) * moment(1, 1))).toBeCloseTo(0.9, 1);
  });

  it('are the same each time', () => {
    const once = () => ensembleDraws(log, starts, 10, 10, 5).map((x) => [...x]);
    expect(once()).toEqual(once());
  });
});

import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { defaultPriors, fitPenalisedSpline } from './penalised.ts';
import { HUMPED, SMOOTH, simulatedSweep } from './simulated.fixture.ts';
import { evaluateSpline, splineSd } from './spline.ts';

const grid = { low: 3000, high: 7400, segments: 28 };
const roughness = { level: 450, median: 4, logSd: 1.5 };
const SEEDS = 24;

function fitSweep(
  truth: (x: number) => number,
  seed: number,
  white: number,
  wander: number,
  memory: number,
) {
  const sweep = simulatedSweep(truth, seed, { whiteSd: white, wanderSd: wander, memory });
  const weight = sweep.y.map(() => 1);
  const priors = { ...defaultPriors(0.25, 0.02), roughness };
  return fitPenalisedSpline(grid, { ...sweep, weight }, 3, priors);
}

describe('the penalised spline', () => {
  it('returns a parabola as it is, whatever the smoothness', () => {
    const parabola = (x: number) => 300 + 0.05 * x - 6e-6 * x * x;
    const fit = fitSweep(parabola, 1, 0, 0, 1);
    for (let x = 3000; x <= 7400; x += 100) {
      expect(evaluateSpline(fit.spline, x)).toBeCloseTo(parabola(x), 5);
    }
  });

  it.each([
    ['white noise', 5, 0, 1],
    ['correlation over 0.03 s', 0, 8, 0.03],
    ['correlation over 0.1 s', 0, 6, 0.1],
    ['correlation over 0.3 s', 0, 4, 0.3],
    ['white noise and a wander over 0.25 s', 6, 2.5, 0.25],
  ])('holds the truth in 92 to 98 of 100 places: %s', (_, white, wander, memory) => {
    let inside = 0;
    let places = 0;
    for (const truth of [SMOOTH, HUMPED]) {
      for (let seed = 1; seed <= SEEDS; seed++) {
        const fit = fitSweep(truth, seed * 7919, white, wander, memory);
        for (let x = 3000; x <= 7400; x += 100) {
          const error = evaluateSpline(fit.spline, x) - truth(x);
          if (Math.abs(error) < 1.96 * splineSd(fit.spline, x)) inside++;
          places++;
        }
      }
    }
    const coverage = (100 * inside) / places;
    expect(coverage).toBeGreaterThanOrEqual(92);
    expect(coverage).toBeLessThanOrEqual(98);
  });

  it('does not take a slow wander for the curve', () => {
    const fit = fitSweep(SMOOTH, 77, 0, 4, 0.3);
    expect(fit.effectiveDof).toBeLessThan(10);
    expect(fit.wanderSd).toBeGreaterThan(2);
  });

  it('refuses too few points and values that are not numbers', () => {
    const few = { time: [0, 1, 2], x: [3000, 4000, 5000], y: [1, 2, 3], weight: [1, 1, 1] };
    expect(() => fitPenalisedSpline(grid, few, 3, defaultPriors(0.25, 1))).toThrow(InputError);
    const { time, x, y } = simulatedSweep(SMOOTH, 1, { whiteSd: 1, wanderSd: 0, memory: 1 });
    y[7] = Number.NaN;
    const series = { time, x, y, weight: y.map(() => 1) };
    expect(() => fitPenalisedSpline(grid, series, 3, defaultPriors(0.25, 0.02))).toThrow(
      InputError,
    );
  });
});

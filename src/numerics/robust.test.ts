import { describe, expect, it } from 'vitest';
import { defaultPriors } from './penalised.ts';
import { fitRobustSpline } from './robust.ts';
import { HUMPED, SMOOTH, simulatedSweep } from './simulated.fixture.ts';
import { evaluateSpline } from './spline.ts';

const grid = { low: 3000, high: 7400, segments: 28 };
const priors = { ...defaultPriors(0.25, 0.02), roughness: { level: 450, median: 4, logSd: 1.5 } };
const noise = { whiteSd: 5, wanderSd: 2.5, memory: 0.2 };
const robust = (sweep: { time: number[]; x: number[]; y: number[] }) =>
  fitRobustSpline(grid, sweep, 3, priors, { longest: 25 });

describe('the robust fit', () => {
  it.each([
    ['one wild sample', 1, 80],
    ['a dead half second', 25, -480],
    ['a sag of a few sds for 0.3 s', 15, -20],
  ])('marks and leaves out %s', (_, length, size) => {
    for (const seed of [3, 4, 5]) {
      const clean = simulatedSweep(HUMPED, seed, noise);
      const struck = {
        ...clean,
        y: clean.y.map((y, i) => (i >= 300 && i < 300 + length ? y + size : y)),
      };
      const [without, fit] = [robust(clean), robust(struck)];
      const blip = fit.blips.find(({ from, to }) => from <= 300 + length && to >= 300);
      expect(blip).toBeDefined();
      expect(Math.abs(blip!.from - 300)).toBeLessThanOrEqual(4);
      expect(blip!.size / size).toBeGreaterThan(0.6);
      expect(blip!.size / size).toBeLessThan(1.6);
      for (let x = 3000; x <= 7400; x += 100) {
        const moved = evaluateSpline(fit.spline, x) - evaluateSpline(without.spline, x);
        expect(Math.abs(moved)).toBeLessThan(4);
      }
    }
  });

  it('takes nothing for a blip that is smaller than what is worth it, the curve’s own shape least of all', () => {
    const still = { whiteSd: 0.02, wanderSd: 0.01, memory: 0.2 };
    const bent = (x: number) => 400 + 15 * Math.exp(-0.5 * ((x - 4200) / 220) ** 2);
    const clean = simulatedSweep(bent, 2, still);
    const search = { longest: 25, least: 2 };
    expect(fitRobustSpline(grid, clean, 3, priors, { longest: 25 }).blips).not.toEqual([]);
    expect(fitRobustSpline(grid, clean, 3, priors, search).blips).toEqual([]);
    const struck = { ...clean, y: clean.y.map((y, i) => (i >= 300 && i < 306 ? y - 30 : y)) };
    const { blips } = fitRobustSpline(grid, struck, 3, priors, search);
    expect(blips.map(({ from, to }) => [from, to])).toEqual([[300, 305]]);
    expect(blips[0]!.size).toBeCloseTo(-30, 0);
  });

  it('seldom marks what is not there', () => {
    let marked = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const truth = seed % 2 === 0 ? SMOOTH : HUMPED;
      marked += robust(simulatedSweep(truth, seed * 31, noise)).blips.length;
    }
    expect(marked).toBeLessThanOrEqual(4);
  });
});

import { describe, expect, it } from 'vitest';
import { truthOf } from './cell.ts';
import { dayOfKind, KINDS_OF_DAY, type KindOfDay, LEAST_SOAK_PERCENT } from './kinds-of-day.ts';
import { knobsOf } from './knobs.ts';

const days = (kind: KindOfDay) =>
  Array.from({ length: 60 }, (_, seed) => {
    const knobs = knobsOf(dayOfKind(kind, seed));
    return { knobs, truth: truthOf(knobs), top: Math.max(...knobs.leadsDeg) };
  });

describe('the kinds of day', () => {
  it.each(KINDS_OF_DAY)('climb in steps of 2 degrees from below the best (%s)', (kind) => {
    for (const { knobs, truth } of days(kind)) {
      const rungs = [...new Set(knobs.leadsDeg)];
      expect(rungs.length).toBeGreaterThan(1);
      for (const [i, rung] of rungs.slice(1).entries()) expect(rung - rungs[i]!).toBe(2);
      expect(rungs[0]!).toBeLessThan(truth.bestLeadOverBandDeg);
    }
  });

  it('are as flat and as steep as they are called', () => {
    for (const { knobs } of days('flat')) expect(knobs.engine.curvature).toBeLessThanOrEqual(4e-4);
    for (const { knobs } of days('steep')) {
      expect(knobs.engine.curvature).toBeGreaterThanOrEqual(8e-4);
    }
  });

  it('repeat a rung, drift, and stop short only where they say so', () => {
    for (const kind of KINDS_OF_DAY) {
      for (const { knobs, truth, top } of days(kind)) {
        const repeated = new Set(knobs.leadsDeg).size < knobs.leadsDeg.length;
        expect(repeated).toBe(kind === 'repeat' || kind === 'drift and repeat');
        if (kind.startsWith('drift')) {
          expect(Math.abs(knobs.driftPercentPerPull)).toBeGreaterThanOrEqual(LEAST_SOAK_PERCENT);
        }
        expect(knobs.limit !== null).toBe(kind.startsWith('knock'));
        if (kind === 'unfinished') expect(top).toBeLessThan(truth.bestLeadOverBandDeg);
      }
    }
    for (const { truth } of days('knock in the way')) {
      expect(truth.limitLeadDeg!).toBeLessThan(truth.bestLeadOverBandDeg);
    }
  });
});

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearedBy, isCleared, mayRun } from './clean.ts';
import {
  answerTwo,
  SHIPPED_TABLE,
  speedTable,
  speedTableCsv,
  type TwoInput,
  type TwoPull,
} from './index.ts';
import { drivable } from './table.ts';

const pull = (
  order: number,
  leadDeg: number,
  lambda: number,
  power: number,
  more: Partial<TwoPull> = {},
): TwoPull => ({
  id: `p${order}`,
  leadDeg,
  lambda,
  lambdaSd: 0,
  day: 0,
  order,
  torque: null,
  peakPowerW: power,
  peakTorqueNm: null,
  excludedBecause: null,
  watched: 'ear',
  knockHeard: false,
  aborted: false,
  knock: null,
  airTemperatureK: null,
  configuration: null,
  ...more,
});

const input = (pulls: readonly TwoPull[], more: Partial<TwoInput> = {}): TwoInput => ({
  pulls,
  bandRpm: [4000, 6000],
  uses: [{ name: 'bursts', holdbackDeg: 2, holdbackLambda: 0.02, chancePastBest: 0.025 }],
  aspiration: 'natural',
  stepDeg: 1,
  stepLambda: 0.01,
  worthPercent: 0.75,
  repeatabilityPercent: null,
  exhaustLimitK: null,
  extraHoldbackDeg: 0,
  table: SHIPPED_TABLE,
  ...more,
});

const power = (lead: number, lambda: number) =>
  3e5 * (1 - 6e-4 * (lead - 31 - 10 * (lambda - 0.88)) ** 2 - 1.8 * (lambda - 0.88) ** 2);
const netPulls = (leads: readonly number[], lambdas: readonly number[]) =>
  lambdas.flatMap((lambda, i) =>
    leads.map((lead, j) => pull(i * leads.length + j, lead, lambda, power(lead, lambda))),
  );

describe('lead and lambda at once', () => {
  it('finds the best of an exact surface, and says what to leave in it on its safe side', () => {
    const answer = answerTwo(
      input(netPulls([25, 28, 31, 34], [0.82, 0.85, 0.88, 0.91]), { repeatabilityPercent: 0.1 }),
    );
    expect(answer.bestLeadDeg.value).toBeGreaterThan(30);
    expect(answer.bestLeadDeg.value).toBeLessThan(32);
    expect(Math.abs(answer.bestLambda.value! - 0.88)).toBeLessThan(0.012);
    const [use] = answer.uses;
    expect(use!.leadDeg).toBeLessThanOrEqual(29);
    expect(use!.lambda).toBeLessThanOrEqual(0.86);
    expect(answer.tables[0]).toMatchObject({ rows: null });
    expect(answer.limitWatched).toBe(true);
    expect(answer.next.why).not.toContain('not watched');
  });

  it('says in every recommendation that nobody watched', () => {
    const pulls = netPulls([25, 28, 31], [0.82, 0.85, 0.88]).map((one) => ({
      ...one,
      watched: 'not' as const,
    }));
    const answer = answerTwo(input(pulls));
    expect(answer.limitWatched).toBe(false);
    for (const why of [
      answer.next.why,
      ...answer.uses.map((use) => use.why),
      ...answer.tables.map((table) => table.why),
    ])
      expect(why).toContain('limit not watched');
    expect(answer.warnings.join(' ')).toContain('Limit not watched');
  });

  it('takes a hot exhaust for a limit, whatever the power', () => {
    const pulls = netPulls([25, 28, 31], [0.82, 0.85, 0.88]).map((one) => ({
      ...one,
      exhaustPeakK: one.lambda > 0.87 ? 1250 : 1100,
    }));
    const answer = answerTwo(input(pulls, { exhaustLimitK: 1200 }));
    expect(answer.dots.filter(({ state }) => state === 'limit')).toHaveLength(3);
    for (const { lambda } of answer.uses) expect(lambda ?? 0).toBeLessThanOrEqual(0.83);
    expect(answer.next.at?.lambda ?? 0).toBeLessThan(0.88);
  });

  it('answers nothing at all, one pull, and one setting alone without a number that looks sure', () => {
    const barred = netPulls([26, 28, 30, 32], [0.85]).map((one) => ({
      ...one,
      knockHeard: one.leadDeg > 31,
    }));
    for (const pulls of [[], [pull(0, 26, 0.82, 3e5)], netPulls([26, 28, 30], [0.85]), barred]) {
      const answer = answerTwo(input(pulls));
      expect(answer.bestLeadDeg.value).toBeNull();
      expect(answer.uses[0]!.leadDeg).toBeNull();
      expect(answer.headline).not.toBe('');
    }
  });

  // Property: whatever was run and seen, the next pull is at most one rung past one clean pull, in one setting.
  it('never sends the next pull more than one rung past what ran clean', () => {
    const one = fc.record({
      lead: fc.integer({ min: 0, max: 5 }),
      lambda: fc.integer({ min: 0, max: 4 }),
      knock: fc.boolean(),
      watched: fc.constantFrom('ear', 'not', null),
      noise: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 9 }), (made) => {
        const pulls = made.map(({ lead, lambda, knock, watched, noise }, i) => {
          const [l, m] = [24 + 2.5 * lead, 0.8 + 0.03 * lambda];
          return pull(i, l, m, power(l, m) * (1 + noise), {
            knockHeard: knock && i % 3 === 0,
            watched: watched as TwoPull['watched'],
          });
        });
        const { next } = answerTwo(input(pulls));
        if (next.at === null || next.action === 'back') return;
        const { at } = next;
        const watchedAny = pulls.some((p) => p.knockHeard || p.watched === 'ear');
        const clean = pulls.filter((p) => !p.knockHeard && (!watchedAny || p.watched === 'ear'));
        const [rungDeg, rungLambda] = [4 + 1e-6, 0.04 + 1e-6];
        const allowed =
          (clean.length === 0 && pulls.some((p) => p.leadDeg >= at.leadDeg)) ||
          clean.some(
            (p) =>
              (at.leadDeg <= p.leadDeg + rungDeg && at.lambda <= p.lambda + 1e-6) ||
              (at.leadDeg <= p.leadDeg + 1e-6 && at.lambda <= p.lambda + rungLambda),
          );
        expect(allowed).toBe(true);
        for (const p of pulls.filter(({ knockHeard }) => knockHeard !== false))
          expect(at.leadDeg >= p.leadDeg && at.lambda >= p.lambda).toBe(false);
      }),
      { numRuns: 12, seed: 4 },
    );
  });
});

describe('what ran clean', () => {
  const rungs = [2, 0.02] as const;
  const pulls = [pull(0, 28, 0.85, 3e5), pull(1, 30, 0.85, 3e5, { knockHeard: true })];
  const cleared = clearedBy(input(pulls), new Set(['p0', 'p1']), rungs);

  it('clears what is richer and has less lead, and bars what is leaner or has more', () => {
    expect(isCleared(cleared, { leadDeg: 27, lambda: 0.84 })).toBe(true);
    expect(isCleared(cleared, { leadDeg: 29, lambda: 0.84 })).toBe(false);
    expect(isCleared(cleared, { leadDeg: 27, lambda: 0.86 })).toBe(false);
    expect(mayRun(cleared, { leadDeg: 30, lambda: 0.84 }, rungs)).toBe(true);
    expect(mayRun(cleared, { leadDeg: 30, lambda: 0.85 }, rungs)).toBe(false);
    expect(mayRun(cleared, { leadDeg: 30, lambda: 0.87 }, rungs)).toBe(false);
    expect(mayRun(cleared, { leadDeg: 28, lambda: 0.87 }, rungs)).toBe(true);
    expect(mayRun(cleared, { leadDeg: 28, lambda: 0.89 }, rungs)).toBe(false);
  });
});

describe('a table that can be driven', () => {
  it('is nowhere above what it was made from, nor steeper than it may be', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 10, max: 40, noNaN: true }), { minLength: 1, maxLength: 20 }),
        (values) => {
          const at = values.map((_, i) => 2000 + 500 * i);
          const smooth = drivable(at, values, 3 / 500);
          smooth.forEach((value, i) => {
            expect(value).toBeLessThanOrEqual(values[i]! + 1e-9);
            if (i > 0) expect(Math.abs(value - smooth[i - 1]!)).toBeLessThanOrEqual(3 + 1e-9);
          });
        },
      ),
      { numRuns: 200, seed: 5 },
    );
  });

  it('is plain CSV with units in its header, one block a load', () => {
    const row = {
      speedRpm: 4000,
      leadDeg: 28.5,
      lambda: 0.86,
      bestLeadDeg: { value: null, low: null, high: null },
      bestLambda: { value: null, low: null, high: null },
    };
    expect(
      speedTableCsv(
        speedTable([{ loadPercent: null, rows: [row] }], {
          fuel: 'gasoline, summer',
          stoichiometricAfr: 14.7,
        }),
      ),
    ).toBe(
      'engine speed (rpm),spark lead (degrees before top centre),lambda (1),"air to fuel by mass (1; gasoline, summer)"\r\n4000,28.5,0.860,12.64\r\n',
    );
    const loads = speedTableCsv(
      speedTable(
        [
          { loadPercent: null, rows: [row] },
          { loadPercent: 60, rows: [row] },
        ],
        null,
      ),
    );
    expect(loads.split('\r\n')).toEqual([
      'load (%),engine speed (rpm),spark lead (degrees before top centre),lambda (1)',
      '100,4000,28.5,0.860',
      '60,4000,28.5,0.860',
      '',
    ]);
  });
});

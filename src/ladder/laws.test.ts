import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import { dayOfKind, KINDS_OF_DAY } from '../../demo/kinds-of-day.ts';
import { answerLadder } from './index.ts';
import { typedLadder } from './typed.fixture.ts';
import type { LadderAnswer, LadderInput } from './types.ts';

/** What must hold of every answer, whatever the pulls. */
function expectLawful(input: LadderInput, answer: LadderAnswer): void {
  const settings = input.pulls.map((pull) => pull.setting);
  // Never more than twice the usual two degrees, however wide the ladder's own gaps.
  const rung = 4;
  for (const [name, use] of Object.entries(answer.uses)) {
    const rule = input.uses.find((one) => one.name === name)!;
    expect(use.why.length).toBeGreaterThan(20);
    if (use.value === null) continue;
    expect(use.value % input.step).toBeCloseTo(0, 9);
    expect(use.chancePastBest!).toBeLessThanOrEqual(rule.chancePastBest);
    expect(use.chancePastLimit ?? 0).toBeLessThanOrEqual(rule.chancePastLimit);
    expect(use.value).toBeLessThanOrEqual(Math.max(...settings) - rule.holdback + 1e-6);
    expect(use.givesUpPercent!).toBeGreaterThanOrEqual(0);
    if (!answer.limitWatched) expect(use.why).toContain('limit not watched');
  }
  const heard = input.pulls.filter((pull) => pull.knockHeard !== false).map((p) => p.setting);
  if (answer.next.value !== null && answer.highestClean !== null) {
    expect(answer.next.value).toBeLessThanOrEqual(answer.highestClean + rung + 1e-9);
    if (heard.length > 0) expect(answer.next.value).toBeLessThan(Math.min(...heard));
  }
  if (heard.length > 0) expect(answer.next.action).not.toBe('pull');
  for (const { value, low, high } of [answer.best, answer.knee]) {
    if (value !== null && low !== null) expect(low).toBeLessThanOrEqual(value);
    if (value !== null && high !== null) expect(high).toBeGreaterThanOrEqual(value);
  }
  // Plain data that crosses to the browser unharmed: no NaN, no infinity.
  expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
  expect(answer.headline.endsWith('.')).toBe(true);
  expect(answer.headline.length).toBeLessThan(60);
}

describe('laws of the answer', () => {
  it('hold for typed ladders of any sense or none', () => {
    const rung = fc.record({
      step: fc.integer({ min: 10, max: 24 }),
      power: fc.double({ min: 300, max: 420, noNaN: true }),
      heard: fc.boolean(),
      watched: fc.constantFrom(null, 'ear' as const, 'plug' as const, 'not' as const),
      aborted: fc.boolean(),
      excluded: fc.integer({ min: 0, max: 9 }),
    });
    fc.assert(
      fc.property(
        fc.array(rung, { maxLength: 9 }),
        fc.integer({ min: 0, max: 3 }),
        (rungs, calm) => {
          const input = typedLadder(
            rungs.map(({ step, power, heard, watched, aborted, excluded }) => [
              2 * step,
              power,
              {
                watched,
                knockHeard: heard && calm === 0,
                aborted: aborted && calm < 2,
                excludedBecause: excluded === 0 ? 'left out' : null,
              },
            ]),
          );
          expectLawful(input, answerLadder(input));
        },
      ),
      { seed: 20, numRuns: 60, endOnFailure: true },
    );
  });

  it('hold for simulated days of every kind', () => {
    for (const kind of KINDS_OF_DAY) {
      for (let seed = 3001; seed <= 3003; seed++) {
        const { input } = simulateCurveDay(dayOfKind(kind, seed));
        expectLawful(input, answerLadder(input));
      }
    }
  });

  it('are the same twice', () => {
    const { input } = simulateCurveDay({ seed: 4 });
    expect(answerLadder(input)).toEqual(answerLadder(input));
  });
});

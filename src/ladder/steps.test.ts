import { describe, expect, it } from 'vitest';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import { answerLadder } from './index.ts';
import { typedLadder } from './typed.fixture.ts';

describe('steps', () => {
  it('say in words what their interval says', () => {
    const rungs = [
      [24, 380],
      [26, 392],
      [28, 394],
      [30, 388],
    ] as const;
    const words = answerLadder(typedLadder(rungs, { repeatabilityPercent: 0.12 })).steps.map(
      (step) => step.word,
    );
    expect(words).toEqual(['real', 'small', 'loss']);
    const level = rungs.map(([lead], i) => [lead, i % 2 === 0 ? 380 : 381] as const);
    const loose = answerLadder(typedLadder(level, { repeatabilityPercent: 1 }));
    expect(loose.steps.at(-1)!.word).toBe('cannot be told from chance');
  });

  it('take the mean of a repeated rung, and show what differs between rungs', () => {
    const answer = answerLadder(
      typedLadder([
        [24, 380],
        [24, 384],
        [26, 391, { configuration: 'other air cleaner' }],
      ]),
    );
    expect(answer.steps).toHaveLength(1);
    expect(answer.steps[0]!.measuredPercent).toBeCloseTo(100 * (391 / 382 - 1), 9);
    expect(answer.steps[0]!.besides).toBe('other air cleaner');
    expect(answer.repeatability.from).toBe('repeats');
  });

  it('borrow from the rest of the ladder: an odd pull in a smooth ladder moves its own step less than it measured', () => {
    const smooth = [
      [24, 380],
      [26, 388],
      [28, 393],
      [30, 395],
      [32, 394],
    ] as const;
    const odd = smooth.map(([lead, power]) => [lead, lead === 28 ? power + 3 : power] as const);
    const stepOf = (rungs: typeof odd) => answerLadder(typedLadder(rungs)).steps[1]!;
    const moved = stepOf(odd).gainPercent - stepOf(smooth.map((rung) => rung)).gainPercent;
    const measured =
      stepOf(odd).measuredPercent - stepOf(smooth.map((rung) => rung)).measuredPercent;
    expect(moved).toBeLessThan(measured / 2);
    const { lowPercent, highPercent } = stepOf(odd);
    expect(highPercent - lowPercent).toBeLessThan(2);
  });

  it('are grey speed by speed, where curves allow', () => {
    const { input } = simulateCurveDay({ seed: 11 });
    for (const { bySpeed } of answerLadder(input).steps) {
      expect(bySpeed.speedRpm.length).toBeGreaterThan(20);
      bySpeed.gainPercent.forEach((gain, i) => {
        expect(bySpeed.toldFromChance[i]).toBe(Math.abs(gain) > bySpeed.chancePercent[i]!);
        expect(bySpeed.highPercent[i]! - gain).toBeCloseTo(bySpeed.chancePercent[i]!, 9);
      });
    }
  });
});

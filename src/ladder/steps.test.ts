import { describe, expect, it } from 'vitest';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import { Chance } from '../../demo/random.ts';
import { answerLadder } from './index.ts';
import { tubeMultiplier } from './steps.ts';
import { typedLadder } from './typed.fixture.ts';

describe('the band that holds at all speeds at once', () => {
  it('is the usual 1.96 where all speeds move as one', () => {
    expect(tubeMultiplier(0)).toBeCloseTo(1.959964, 5);
    expect(tubeMultiplier(3)).toBeGreaterThan(tubeMultiplier(1));
  });

  it('holds 95 % of a wave with two free amplitudes, whose path is its angle', () => {
    // ξ₁cos t + ξ₂sin t has unit variance everywhere and runs a path of length 2 over t in [0, 2].
    const chance = new Chance(7, 'tube');
    const c = tubeMultiplier(2);
    let held = 0;
    const rounds = 20_000;
    for (let i = 0; i < rounds; i++) {
      const [x, y] = [chance.normal(), chance.normal()];
      let top = 0;
      for (let t = 0; t <= 2; t += 0.05) {
        top = Math.max(top, Math.abs(x * Math.cos(t) + y * Math.sin(t)));
      }
      if (top <= c) held++;
    }
    expect(Math.abs(held / rounds - 0.95)).toBeLessThan(0.006);
  });
});

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
    const loose = answerLadder(typedLadder(rungs, { repeatabilityPercent: 1 }));
    expect(loose.steps[1]!.word).toBe('cannot be told from chance');
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
    expect(answer.steps[0]!.gainPercent).toBeCloseTo(100 * (391 / 382 - 1), 0);
    expect(answer.steps[0]!.besides).toBe('other air cleaner');
    expect(answer.repeatability.from).toBe('repeats');
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

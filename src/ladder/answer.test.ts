import { describe, expect, it } from 'vitest';
import { answerLadder, LAMBDA } from './index.ts';
import { typedLadder } from './typed.fixture.ts';
import type { LadderAnswer, LadderPull } from './types.ts';

const heard: Partial<LadderPull> = { watched: 'ear', knockHeard: true };
const quiet: Partial<LadderPull> = { watched: 'ear' };
const leave = (answer: LadderAnswer) => [answer.uses.bursts!.value, answer.uses.sustained!.value];

/** Common practice, no source: a naturally aspirated pump-fuel V8, all rungs clean, corrected peaks. */
const V8 = [
  [32, 775],
  [34, 799],
  [36, 818],
  [38, 823],
] as const;

describe("the practitioner's ladder, from its four peaks alone", () => {
  for (const percent of [0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, null]) {
    it(`stops paying at 38 and leaves 36 and 34 (repeatability ${percent ?? 'not stated'})`, () => {
      const answer = answerLadder(typedLadder(V8, { repeatabilityPercent: percent }));
      expect(leave(answer)).toEqual([36, 34]);
      expect(['small', 'cannot be told from chance']).toContain(answer.steps[2]!.word);
      expect(answer.steps[0]!.word).toBe('real');
      expect(answer.next.action).toBe('stop');
      expect(answer.limitWatched).toBe(false);
      for (const use of Object.values(answer.uses)) expect(use.why).toContain('limit not watched');
    });

    it(`asks for more after the first step (repeatability ${percent ?? 'not stated'})`, () => {
      const answer = answerLadder(typedLadder(V8.slice(0, 2), { repeatabilityPercent: percent }));
      expect(answer.next).toMatchObject({ action: 'pull', value: 36 });
      expect(leave(answer)).toEqual([null, null]);
      expect(answer.best.value).toBeNull();
      expect(answer.best.low).toBeGreaterThan(34);
    });
  }

  it('has no curves, so says nothing by speed', () => {
    const answer = answerLadder(typedLadder(V8));
    expect(answer.map).toBeNull();
    expect(answer.following).toBeNull();
    expect(answer.steps.every((step) => step.bySpeed.speedRpm.length === 0)).toBe(true);
  });

  it('does not care in which order the pulls are listed', () => {
    const input = typedLadder(V8);
    const turned = answerLadder({ ...input, pulls: [...input.pulls].reverse() });
    const straight = answerLadder(input);
    expect(turned.best).toEqual(straight.best);
    expect(turned.uses).toEqual(straight.uses);
    expect(turned.steps).toEqual(straight.steps);
  });
});

describe('the states of a ladder', () => {
  it('no pulls: start careful, nothing known', () => {
    const answer = answerLadder(typedLadder([]));
    expect(answer.next).toMatchObject({ action: 'pull', value: null });
    expect(leave(answer)).toEqual([null, null]);
    expect(answer.steps).toEqual([]);
    expect(answer.repeatability.from).toBe('prior');
    expect(answer.repeatability.value).toBeCloseTo(0.4, 1);
  });

  it('one pull, and one setting repeated: the second rung next', () => {
    for (const pulls of [
      [[30, 400]],
      [
        [30, 400],
        [30, 402],
        [30, 399],
      ],
    ] as [number, number][][]) {
      const answer = answerLadder(typedLadder(pulls));
      expect(answer.next).toMatchObject({ action: 'pull', value: 32 });
      expect(answer.best).toEqual({ value: null, low: null, high: null });
      expect(leave(answer)).toEqual([null, null]);
    }
  });

  it('all excluded: as without pulls, each with its reason', () => {
    const out = { excludedBecause: 'throttle stuck' };
    const answer = answerLadder(
      typedLadder([
        [30, 400, out],
        [32, 410, out],
      ]),
    );
    expect(answer.next.value).toBeNull();
    expect(answer.warnings.filter((text) => text.includes('throttle stuck'))).toHaveLength(2);
  });

  it('a ladder well past its best: stop, and nothing stands past the best', () => {
    const answer = answerLadder(
      typedLadder([
        [24, 392],
        [26, 397],
        [28, 400],
        [30, 400],
        [32, 397],
        [34, 391],
      ]),
    );
    expect(answer.next.action).toBe('stop');
    expect(answer.best.value).toBeGreaterThan(28);
    expect(answer.best.value).toBeLessThan(30.5);
    expect(answer.best.low).not.toBeNull();
    expect(answer.best.high).not.toBeNull();
    for (const use of Object.values(answer.uses)) {
      expect(use.chancePastBest).toBeLessThanOrEqual(0.025);
      expect(use.value).toBeLessThanOrEqual(27);
    }
    expect(answer.headline).toBe('Stop here. More lead no longer pays.');
  });

  it('a ladder begun past its best: a more careful rung next', () => {
    const answer = answerLadder(
      typedLadder([
        [36, 823],
        [38, 815],
        [40, 800],
      ]),
    );
    expect(answer.next).toMatchObject({ action: 'pull', value: 34 });
    expect(answer.best.low).toBeLessThan(34);
  });

  it('a climbing ladder without repeats: says that drift cannot be told', () => {
    const answer = answerLadder(
      typedLadder([
        [24, 392],
        [26, 397],
        [28, 400],
        [30, 400],
        [32, 397],
      ]),
    );
    expect(answer.warnings.join(' ')).toContain('drift');
  });

  it('one pull far off: the pulls disagree, and the answer hardly moves', () => {
    const rungs = [
      [22, 384],
      [24, 392],
      [26, 397.5],
      [28, 400],
      [30, 400],
      [32, 397],
    ] as const;
    const good = answerLadder(typedLadder(rungs));
    const bad = answerLadder(typedLadder(rungs.map(([x, p]) => [x, x === 26 ? p * 0.95 : p])));
    expect(bad.next).toMatchObject({ action: 'repeat', value: 26 });
    expect(bad.headline).toContain('disagree');
    expect(bad.warnings.join(' ')).toContain('Pulls disagree');
    expect(Math.abs(bad.best.value! - good.best.value!)).toBeLessThan(0.8);
  });

  it('refuses an empty band and a step of nothing, in a sentence', () => {
    expect(() => answerLadder(typedLadder(V8, { bandRpm: [6000, 6000] }))).toThrow('empty');
    expect(() => answerLadder(typedLadder(V8, { step: 0 }))).toThrow('above zero');
  });
});

describe('limits that were heard', () => {
  it('one small step alone ends no ladder: its two pulls may have been off', () => {
    const rungs = [
      [28, 400],
      [30, 402],
    ] as const;
    const answer = answerLadder(typedLadder(rungs));
    expect(answer.steps[0]!.measuredPercent).toBeLessThan(0.75);
    expect(answer.next).toMatchObject({ action: 'pull', value: 32 });
  });

  it('knock after clean rungs: back to the clean one, never further', () => {
    const answer = answerLadder(
      typedLadder([
        [30, 380, quiet],
        [32, 392, quiet],
        [34, 400, heard],
      ]),
    );
    expect(answer.next).toMatchObject({ action: 'back', value: 32 });
    expect(answer.highestClean).toBe(32);
    expect(answer.limit!.low).toBeGreaterThanOrEqual(32);
    expect(answer.limit!.high).toBeLessThanOrEqual(34);
    expect(leave(answer)).toEqual([30, 28]);
    expect(answer.uses.bursts!.why).not.toContain('not watched');
  });

  it('back at a clean rung after knock: stop, and no way up', () => {
    const answer = answerLadder(
      typedLadder([
        [30, 380, quiet],
        [32, 392, quiet],
        [34, 400, heard],
        [32, 391, quiet],
      ]),
    );
    expect(answer.next.action).toBe('stop');
  });

  it('knock at the first rung: further back, and nothing to leave', () => {
    const answer = answerLadder(typedLadder([[30, 380, heard]]));
    expect(answer.next).toMatchObject({ action: 'back', value: 28 });
    expect(leave(answer)).toEqual([null, null]);
  });

  it('an aborted pull still tells of its knock', () => {
    const answer = answerLadder(
      typedLadder([
        [30, 380, quiet],
        [32, 392, quiet],
        [34, 0, { ...heard, aborted: true, peakPowerW: null }],
      ]),
    );
    expect(answer.next).toMatchObject({ action: 'back', value: 32 });
  });

  it('rungs nobody watched above watched ones: repeat and watch, not further', () => {
    const answer = answerLadder(
      typedLadder([
        [28, 370, quiet],
        [30, 384, quiet],
        [32, 394, { watched: 'not' }],
      ]),
    );
    expect(answer.highestClean).toBe(30);
    expect(answer.next).toMatchObject({ action: 'repeat', value: 32 });
  });
});

describe('the holdback', () => {
  it('grows for the worst fuel and the hottest inlet', () => {
    const mild = answerLadder(typedLadder(V8));
    const harsh = answerLadder(typedLadder(V8, { worstInletDeltaK: 20, worstFuelDeltaOctane: 1 }));
    expect(harsh.uses.bursts!.holdback - mild.uses.bursts!.holdback).toBeCloseTo(4, 12);
    expect(harsh.uses.bursts!.value).toBe(32);
  });

  it('has no rule for boosted engines and nitrous', () => {
    for (const aspiration of ['boosted', 'nitrous'] as const) {
      const answer = answerLadder(typedLadder(V8, { aspiration }));
      expect(leave(answer)).toEqual([null, null]);
      expect(answer.uses.bursts!.why).toMatch(/No rule is shipped/);
    }
  });
});

describe('another kind of setting', () => {
  it('lambda: richer is safe, so the ladder climbs to lean and holds back to rich', () => {
    const uses = typedLadder([]).uses.map((use) => ({ ...use, holdback: use.holdback / 100 }));
    const answer = answerLadder(
      typedLadder(
        [
          [0.8, 396],
          [0.82, 398.5],
          [0.84, 400],
          [0.86, 400.4],
          [0.88, 399.6],
          [0.9, 397.9],
        ],
        { kind: LAMBDA, uses, step: 0.01, repeatabilityPercent: 0.15 },
      ),
    );
    expect(answer.best.value).toBeGreaterThan(0.84);
    expect(answer.best.value).toBeLessThan(0.875);
    expect(answer.best.low!).toBeLessThan(answer.best.high!);
    expect(answer.steps.map((step) => [step.from, step.to])[0]).toEqual([0.8, 0.82]);
    expect(answer.uses.bursts!.value!).toBeLessThan(answer.best.value!);
    expect(answer.uses.sustained!.value!).toBeLessThan(answer.uses.bursts!.value!);
  });

  it('is the mirror image of a kind whose safe side is lower', () => {
    const kind = { ...typedLadder([]).kind, safeDirection: 'higher' as const };
    const straight = answerLadder(typedLadder(V8));
    const mirrored = answerLadder(
      typedLadder(
        V8.map(([x, p]) => [-x, p] as const),
        { kind },
      ),
    );
    expect(mirrored.best.value).toBeCloseTo(-straight.best.value!, 12);
    expect(mirrored.best.high).toBeCloseTo(-straight.best.low!, 12);
    expect(mirrored.uses.bursts!.value).toBe(-straight.uses.bursts!.value!);
    expect(mirrored.next.action).toBe(straight.next.action);
    expect(mirrored.response.setting[0]!).toBeLessThan(mirrored.response.setting[1]!);
  });
});

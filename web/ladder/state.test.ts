import { describe, expect, it } from 'vitest';
import type { LadderAnswer, LadderInput } from '../../src/ladder/types.ts';
import { ANSWER, INPUT } from './fixture.test-data.ts';
import { limitStandsInTheWay, onlyPeaks, rungsOf, speedsRun, stateOf } from './state.ts';

const input = (more: Partial<LadderInput>): LadderInput => ({ ...INPUT, ...more });
const answer = (more: Partial<LadderAnswer>): LadderAnswer => ({ ...ANSWER, ...more });
const next = (action: LadderAnswer['next']['action']) => ({ ...ANSWER.next, action });

describe('the state of the page', () => {
  it('begins with no pulls, also where all are left out', () => {
    expect(stateOf(input({ pulls: [] }), null)).toBe('no pulls');
    const out = INPUT.pulls.map((pull) => ({ ...pull, excludedBecause: 'wrong fuel' }));
    expect(stateOf(input({ pulls: out }), null)).toBe('no pulls');
  });

  it('counts rungs, not pulls', () => {
    const twice = INPUT.pulls.slice(0, 2).map((pull) => ({ ...pull, setting: 22 }));
    expect(stateOf(input({ pulls: twice }), ANSWER)).toBe('one pull');
    expect(rungsOf(input({ pulls: twice }))).toEqual([22]);
  });

  it('follows the next move', () => {
    expect(stateOf(INPUT, ANSWER)).toBe('finished');
    expect(stateOf(INPUT, answer({ next: next('pull') }))).toBe('still climbing');
    expect(stateOf(INPUT, answer({ next: next('repeat') }))).toBe('pulls disagree');
    expect(stateOf(INPUT, answer({ next: next('back') }))).toBe('limit in the way');
  });

  it('says no rule for boosted and nitrous engines', () => {
    expect(stateOf(input({ aspiration: 'boosted' }), ANSWER)).toBe('no rule');
  });

  it('sees a limit on the safe side of the best, in either direction', () => {
    const at = (value: number) => answer({ limit: { value, low: null, high: null } });
    expect(limitStandsInTheWay(INPUT, at(27))).toBe(true);
    expect(limitStandsInTheWay(INPUT, at(31))).toBe(false);
    const lean = input({ kind: { ...INPUT.kind, safeDirection: 'higher' } });
    expect(limitStandsInTheWay(lean, at(31))).toBe(true);
    expect(limitStandsInTheWay(lean, at(27))).toBe(false);
    expect(stateOf(INPUT, at(27))).toBe('limit in the way');
  });

  it('knows typed peaks, and the speeds that were run', () => {
    const typed = INPUT.pulls.map((pull) => ({ ...pull, torque: null, peakPowerW: 300_000 }));
    expect(onlyPeaks(input({ pulls: typed }))).toBe(true);
    expect(onlyPeaks(INPUT)).toBe(false);
    expect(speedsRun(input({ pulls: typed }))).toBeNull();
    expect(speedsRun(INPUT)).toEqual([3100, 7300]);
  });
});

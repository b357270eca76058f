import { describe, expect, it } from 'vitest';
import {
  belongsTo,
  type LadderChoice,
  ladderOrder,
  type PullSettings,
  settingsKnown,
  steppedIn,
} from './index.ts';

const pull = (
  leadDeg: number | null,
  lambdaTarget: number | null,
  group: string | null = null,
): PullSettings => ({ leadDeg, lambdaTarget, group });
const ALL: LadderChoice = { setting: 'lead', group: null, heldLeadDeg: null, heldLambda: null };

describe('which pulls are a ladder’s', () => {
  it('all of its group where nothing is held', () => {
    expect(belongsTo(ALL, pull(28, null), null)).toBe(true);
    expect(belongsTo(ALL, pull(null, 0.9), null)).toBe(true);
    expect(belongsTo(ALL, pull(28, null, 'a'), null)).toBe(false);
    expect(belongsTo({ ...ALL, group: 'a' }, pull(28, null, 'A'), null)).toBe(true);
    expect(belongsTo({ ...ALL, group: 'b' }, pull(28, null, 'a'), null)).toBe(false);
  });

  it('those at the held setting alone, the day’s lambda where a pull says none', () => {
    const held: LadderChoice = { ...ALL, heldLambda: 0.86 };
    expect(belongsTo(held, pull(28, 0.86), null)).toBe(true);
    expect(belongsTo(held, pull(28, 0.88), 0.86)).toBe(false);
    expect(belongsTo(held, pull(28, null), 0.86)).toBe(true);
    expect(belongsTo(held, pull(28, null), null)).toBe(false);
    const lambda: LadderChoice = { ...ALL, setting: 'lambda', heldLeadDeg: 30 };
    expect(belongsTo(lambda, pull(30, 0.8), null)).toBe(true);
    expect(belongsTo(lambda, pull(32, 0.8), null)).toBe(false);
    // A setting cannot be stepped and held: what would hold it says nothing.
    expect(belongsTo({ ...ALL, heldLeadDeg: 30 }, pull(28, null), null)).toBe(true);
  });
});

describe('the ladders that a day’s pulls make', () => {
  it('finds a lead ladder and a lambda ladder that share a rung', () => {
    const pulls = [26, 28, 30, 32].map((lead) => pull(lead, 0.86));
    pulls.push(pull(30, 0.82), pull(30, 0.84), pull(34, 0.9, 'a'), pull(36, 0.9, 'a'));
    expect(steppedIn(pulls, null)).toEqual([
      {
        setting: 'lead',
        group: null,
        heldLeadDeg: null,
        heldLambda: 0.86,
        low: 26,
        high: 32,
        pulls: 4,
      },
      {
        setting: 'lambda',
        group: null,
        heldLeadDeg: 30,
        heldLambda: null,
        low: 0.82,
        high: 0.86,
        pulls: 3,
      },
      {
        setting: 'lead',
        group: 'a',
        heldLeadDeg: null,
        heldLambda: 0.9,
        low: 34,
        high: 36,
        pulls: 2,
      },
    ]);
  });

  it('finds none where nothing was stepped', () => {
    expect(steppedIn([pull(30, 0.86), pull(30, 0.86), pull(null, null)], null)).toEqual([]);
    expect(steppedIn([], 0.9)).toEqual([]);
  });
});

it('tells a ladder that steps nothing after one that does, and leaves the rest as they stand', () => {
  const pulls = [pull(30, 0.82), pull(30, 0.85), pull(30, 0.88)];
  const lambda: LadderChoice = { ...ALL, setting: 'lambda', heldLeadDeg: 30 };
  const empty: LadderChoice = { ...ALL, group: 'b' };
  expect([ALL, empty, lambda].map((one) => settingsKnown(one, pulls, null))).toEqual([1, 0, 3]);
  expect(ladderOrder([ALL, empty, lambda], pulls, null)).toEqual([lambda, ALL, empty]);
  expect(ladderOrder([ALL, lambda], [...pulls, pull(32, 0.82)], null)).toEqual([ALL, lambda]);
});

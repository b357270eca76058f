import { describe, expect, it } from 'vitest';
import type { Ladder, Pull } from '../../api/types.gen.ts';
import { choiceInWords, nameOfLadder } from './ladder-words.ts';
import { ladderOffers } from './offers.ts';

const pull = (leadDeg: number, lambdaTarget: number | null, group: string | null = null) =>
  ({ id: `${leadDeg} ${lambdaTarget} ${group}`, leadDeg, lambdaTarget, group }) as Pull;
const ladder = (more: Partial<Ladder> = {}) =>
  ({
    id: 'l',
    name: 'Spark lead',
    setting: 'lead',
    group: null,
    heldLeadDeg: null,
    heldLambda: null,
    ...more,
  }) as Ladder;

describe('the ladders that a day offers', () => {
  it('offers none that its own ladder is already', () => {
    const pulls = [26, 28, 30].map((lead) => pull(lead, 0.86));
    expect(ladderOffers(pulls, [ladder()], null)).toEqual([]);
    expect(ladderOffers(pulls, [], null)).toHaveLength(1);
  });

  it('offers the lambda ladder and the lead ladder within a mixed day, until they are open', () => {
    const pulls = [pull(26, 0.86), pull(28, 0.86), pull(30, 0.86), pull(30, 0.82)];
    const offers = ladderOffers(pulls, [ladder()], null);
    expect(offers.map((offer) => offer.sentence)).toEqual([
      'Lead 26° to 30°, lambda held at 0.86 (3 pulls)',
      'Lambda 0.82 to 0.86, lead held at 30° (2 pulls)',
    ]);
    const opened = ladder({ ...offers[1]!.ladder, id: 'm' } as Partial<Ladder>);
    expect(ladderOffers(pulls, [ladder(), opened], null)).toHaveLength(1);
  });

  it('says which pulls are a ladder’s, and what it is called', () => {
    const mixed = [pull(26, null), pull(26, null, 'B')];
    expect(choiceInWords(ladder(), [pull(26, null)])).toBe('all pulls');
    expect(choiceInWords(ladder(), mixed)).toBe('of no part test');
    expect(choiceInWords(ladder({ group: 'B', heldLambda: 0.86 }), mixed)).toBe(
      'part test B, lambda held at 0.86',
    );
    expect(nameOfLadder(ladder())).toBe('Spark ladder');
    expect(nameOfLadder(ladder({ name: 'Lambda', setting: 'lambda' }))).toBe('Lambda ladder');
    expect(nameOfLadder(ladder({ name: 'carburettor B' }))).toBe('carburettor B');
  });
});

import { describe, expect, it } from 'vitest';
import type { Understood } from '../../api/types.gen.ts';
import { changedAnswers, draftsOf, mergeAnswers } from './answers.ts';

const understood: Understood = {
  fileName: 'pull-01.csv',
  shape: 'abc',
  kind: 'time series',
  rows: 3,
  channels: [
    {
      header: 'Torque',
      quantity: 'torque',
      unit: 'lb-ft',
      basis: { air: 'unknown', inertia: 'unknown' },
      bank: null,
      cylinder: null,
      derivedFrom: null,
    },
    {
      header: 'Chan 7',
      quantity: 'other',
      unit: null,
      basis: null,
      bank: null,
      cylinder: null,
      derivedFrom: null,
    },
    {
      header: 'Power',
      quantity: 'power',
      unit: 'hp',
      basis: null,
      bank: null,
      cylinder: null,
      derivedFrom: 'torque and speed',
    },
  ],
  spans: [],
  questions: [],
  warnings: [],
  answers: { mapping: { 'Old clock': { quantity: 'other', ignore: true } } },
};

describe('what a person says of the headers of a file', () => {
  it('shows what stands in the file and what was left out before, not what was derived', () => {
    expect(draftsOf(understood).map((draft) => [draft.header, draft.ignore])).toEqual([
      ['Torque', false],
      ['Chan 7', false],
      ['Old clock', true],
    ]);
  });

  it('hands on only the headers that were changed', () => {
    const before = draftsOf(understood);
    const now = before.map((draft) =>
      draft.header === 'Chan 7'
        ? { ...draft, quantity: 'oilPressure' as const, unit: 'psi' }
        : draft,
    );
    expect(changedAnswers(before, before)).toEqual({});
    expect(changedAnswers(before, now)).toEqual({
      mapping: { 'Chan 7': { quantity: 'oilPressure', unit: 'psi' } },
    });
  });

  it('adds an answer to those remembered without losing any', () => {
    const merged = mergeAnswers(
      { dayFirst: true, mapping: { a: { quantity: 'lambda' } } },
      { torqueIs: { air: 'observed', inertia: 'out' }, mapping: { b: { quantity: 'knock' } } },
    );
    expect(merged).toEqual({
      dayFirst: true,
      torqueIs: { air: 'observed', inertia: 'out' },
      mapping: { a: { quantity: 'lambda' }, b: { quantity: 'knock' } },
    });
  });
});

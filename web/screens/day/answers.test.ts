import { describe, expect, it } from 'vitest';
import type { Trace, Understood } from '../../api/types.gen.ts';
import { changedAnswers, draftsOf, hasStrangeUnit, mergeAnswers } from './answers.ts';
import { previewOf } from './mapping-sheet.tsx';

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

describe('the values shown under a header', () => {
  const trace = {
    timeS: [0, 1, 2],
    channels: [
      // 100 lb-ft = 135.58 N·m; inside values come back in the unit of the file.
      { header: 'Torque', unit: 'lb-ft', low: [135.58179483314, null, 271.16358966628] },
      { header: 'Chan 7', unit: null, low: [1, 2, 3] },
    ],
  } as unknown as Trace;

  it('come in the unit that the file was read in, with gaps shown', () => {
    expect(previewOf(trace, { header: 'Torque', quantity: 'torque' })).toBe('100  –  200');
    expect(previewOf(trace, { header: 'Chan 7', quantity: 'other' })).toBe('1  2  3');
  });

  it('know the time by the axis of the samples', () => {
    expect(previewOf(trace, { header: 'Time', quantity: 'time' })).toBe('0  1  2');
    expect(previewOf(null, { header: 'Time', quantity: 'time' })).toBe('');
  });

  it('knows a unit that a person wrote and nobody knows', () => {
    const before = draftsOf(understood)[1]!;
    expect(hasStrangeUnit({ ...before, unit: 'furlong' }, before)).toBe(true);
    expect(hasStrangeUnit({ ...before, unit: 'ft·lbf' }, before)).toBe(false);
    expect(hasStrangeUnit({ ...before, unit: 'furlong', ignore: true }, before)).toBe(false);
    const asWritten = { ...before, unit: 'ticks' };
    expect(hasStrangeUnit(asWritten, asWritten)).toBe(false);
  });
});

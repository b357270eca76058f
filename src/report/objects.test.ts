import { describe, expect, it } from 'vitest';
import { FormatError } from '../errors.ts';
import type { Recording } from '../pull/recording.ts';
import { configurationWords } from './configuration.ts';
import { lookObject, refusedObject, refusedSession } from './lookObject.ts';

describe('what was understood of a file', () => {
  it('names each channel as the file has it and turns open questions into warnings', () => {
    const recording: Recording = {
      kind: 'time series',
      rows: 3,
      channels: [
        { header: 'Time, s', quantity: 'time', unit: 's', values: new Float64Array(3) },
        { header: 'Widget', quantity: 'other', unit: null, values: new Float64Array(3) },
      ],
      lineOfRow: new Uint32Array(3),
      warnings: ['a gap'],
    };
    const span = {
      firstRow: 0,
      lastRow: 2,
      direction: 'rising',
      fromRpm: 3000,
      toRpm: 7000,
    } as const;
    expect(
      lookObject(
        'a.csv',
        recording,
        [span],
        [{ sentence: 'Which?', meanwhile: 'taken as observed' }],
      ),
    ).toEqual({
      file: 'a.csv',
      ok: true,
      rows: 3,
      kind: 'time series',
      channels: [
        { header: 'Time, s', quantity: 'time', unit: 's' },
        { header: 'Widget', quantity: 'other', unit: null },
      ],
      pulls: [{ firstRow: 0, lastRow: 2, from: 3000, to: 7000 }],
      warnings: ['a gap', 'Which? Until that is answered: taken as observed'],
    });
  });
});

describe('what was refused', () => {
  const error = new FormatError('a word stands in a column of numbers', {
    file: 'pull-03.csv',
    line: 12,
    column: 'Torque',
    found: '"abc"',
    expected: 'a number',
  });

  it('keeps message and place, null where a place has no meaning', () => {
    expect(refusedObject('x.csv', error)).toEqual({
      file: 'x.csv',
      ok: false,
      error: {
        message: 'a word stands in a column of numbers',
        line: 12,
        column: 'Torque',
        found: '"abc"',
        expected: 'a number',
      },
    });
    expect(refusedObject('x.csv', new Error('odd')).error).toEqual({
      message: 'odd',
      line: null,
      column: null,
      found: null,
      expected: null,
    });
  });

  it('names the run file that stopped a session', () => {
    expect(refusedSession('day.json', error)).toMatchObject({
      session: 'day.json',
      ok: false,
      error: { file: 'pull-03.csv', line: 12 },
    });
  });
});

describe('what differs between pulls', () => {
  it('says only what is not shared, also a part that came off', () => {
    const all = [
      { plugs: 'cold', exhaust: 'open' },
      { plugs: 'cold' },
      { plugs: 'colder', exhaust: 'open' },
    ];
    expect(configurationWords(all[0]!, all)).toBe('exhaust: open; plugs: cold');
    expect(configurationWords(all[1]!, all)).toBe('exhaust: not said; plugs: cold');
    expect(
      configurationWords({ plugs: 'cold' }, [{ plugs: 'cold' }, { plugs: 'cold' }]),
    ).toBeNull();
    expect(
      configurationWords({ configuration: 'air cleaner off' }, [
        { configuration: 'air cleaner off' },
        {},
      ]),
    ).toBe('air cleaner off');
  });
});

import { describe, expect, it } from 'vitest';
import { addressOf, refusalOf } from './client.ts';
import { lineReader } from './import-file.ts';
import type { ImportProgress } from './types.gen.ts';

describe('the progress of an import', () => {
  it('takes lines as they come, whole', () => {
    const seen: ImportProgress[] = [];
    const read = lineReader((line) => seen.push(line));
    read('{"stage":"reading","fileName":"a","share":0.5}\n{"stage":"sto');
    expect(seen).toHaveLength(1);
    read(
      '{"stage":"reading","fileName":"a","share":0.5}\n{"stage":"storing","fileName":"a","share":null}\n\n',
    );
    expect(seen.map((line) => line.stage)).toEqual(['reading', 'storing']);
  });
});

describe('addresses and refusals', () => {
  it('fills in parameters so that no name can leave its place', () => {
    expect(addressOf('/days/{id}/recordings', { id: '../x' }, { name: 'a b&c.csv' })).toBe(
      '/api/v1/days/..%2Fx/recordings?name=a+b%26c.csv',
    );
  });

  it('keeps the sentence and the place of a refusal', () => {
    const refusal = refusalOf(
      422,
      JSON.stringify({
        error: {
          code: 'format',
          message: 'Row 7 is cut off.',
          line: 9,
          found: '12',
          expected: '16 cells',
        },
      }),
    );
    expect(refusal.message).toBe('Row 7 is cut off.');
    expect(refusal.place).toEqual({ line: 9, found: '12', expected: '16 cells' });
  });

  it('makes a sentence of an answer that is not ours', () => {
    expect(refusalOf(502, '<html>').message).toBe(
      'The service answered with status 502 and no reason.',
    );
  });
});

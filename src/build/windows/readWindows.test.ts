import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../../errors.ts';
import { answerSheet, parseSheet, SHIPPED_WINDOWS } from '../index.ts';
import { WHOLE_SHEET } from '../topics/whole.fixture.ts';
import { readWindows } from './readWindows.ts';

const file = (...windows: readonly object[]) => ({ format: 'windows/1', windows });
const QUENCH = { name: 'quench', low: '0.038 in', high: '1.1 mm' };

describe('windows of a shop from a file', () => {
  it('are read in whatever unit they are typed, and stand before the shipped ones', () => {
    const [rule] = readWindows(file(QUENCH));
    expect(rule).toMatchObject({ name: 'quench', uses: null, when: {}, perM: false });
    expect(rule!.low).toBeCloseTo(0.038 * 0.0254, 12);
    expect(rule!.high).toBeCloseTo(0.0011, 12);
    const judged = answerSheet(parseSheet(WHOLE_SHEET), readWindows(file(QUENCH)));
    expect(judged.checks.find(({ id }) => id === 'quench')!.window).toMatchObject({
      source: 'the shop’s own',
      high: rule!.high,
    });
  });

  it('are every shipped one, written out and read again', () => {
    expect(readWindows(JSON.parse(JSON.stringify(file(...SHIPPED_WINDOWS))))).toEqual(
      SHIPPED_WINDOWS,
    );
  });

  it.each([
    ['not a list', { format: 'windows/1', windows: 3 }, /windows: found 3/],
    ['another format', { format: 'sheet/1', windows: [] }, /format: found "sheet\/1"/],
    ['a misspelled name', file({ ...QUENCH, name: 'quensh' }), /perhaps "quench" is meant/],
    ['a misspelled key', file({ ...QUENCH, hihg: 1 }), /hihg.*perhaps "high"/],
    ['a limit without a unit', file({ ...QUENCH, low: '0.9' }), /windows\[0\]\.low.*with its unit/],
    ['a limit of another kind', file({ ...QUENCH, low: '3 psi' }), /windows\[0\]\.low/],
    ['limits the wrong way round', file({ ...QUENCH, low: '2 mm' }), /no less than low/],
    [
      'a text where it goes by size',
      file({ name: 'main-bearing', perM: true, low: '1 mm' }),
      /number/,
    ],
    ['several slips', file({ ...QUENCH, uses: 'race', perM: 1 }), /and 1 more/],
  ])('%s is refused by its place', (_, json, sentence) => {
    expect(() => readWindows(json)).toThrow(FormatError);
    expect(() => readWindows(json)).toThrow(sentence);
  });

  it('are read or refused, never anything else, whatever stands there (property)', () => {
    const slip = fc.oneof(fc.anything(), fc.string(), fc.double(), fc.constant(null));
    const keys = fc.constantFrom('name', 'uses', 'when', 'low', 'high', 'perM', 'source', 'x');
    fc.assert(
      fc.property(keys, slip, fc.boolean(), (key, value, whole) => {
        const json = whole ? file({ ...QUENCH, [key]: value }) : value;
        try {
          expect(Array.isArray(readWindows(json))).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(FormatError);
          expect((error as FormatError).place.expected).toBeTruthy();
        }
      }),
      { seed: 20261126, numRuns: 300 },
    );
  });
});

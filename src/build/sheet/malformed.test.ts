import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../../errors.ts';
import { SECTIONS } from '../sections/index.ts';
import { anySheet } from './anySheet.fixture.ts';
import { parseSheet, readSheet } from './read.ts';

const SEED = 20261125;

type Json = Record<string, unknown>;
/** A slip: what was done to a sound sheet, and where the reader has to point. */
interface Slip {
  readonly sheet: unknown;
  readonly at: string;
}

const deep = (levels: number): unknown => {
  let value: unknown = 1;
  for (let i = 0; i < levels; i++) value = i % 2 === 0 ? [value] : { a: value };
  return value;
};

/** What a careless hand, a spreadsheet or an enemy leaves where a value should be. None of it is one. */
const NO_VALUE: readonly unknown[] = [
  'NaN',
  'nan in',
  'Infinity',
  '-inf mm',
  '1e999 mm',
  '#VALUE!',
  '4,030',
  '1.2.3 mm',
  '4 furlong',
  '± in',
  '4 ± -1 in',
  [],
  [1, 2, 3],
  {},
  { value: '4.03', unit: 'in' },
  { value: null, unit: 'in' },
  { value: 4e40, unit: 'm' },
  { value: 1, unit: 'constructor' },
  { value: 1, unit: 7 },
  { value: 1, unit: 'mm', plusMinus: 'little' },
  { value: 1, unit: 'mm', surprise: true },
  { each: 'all', unit: 'mm' },
  { each: Array(100_000).fill(1), unit: 'mm' },
  JSON.parse('{"value": 1, "unit": "mm", "__proto__": {"unit": "in"}}'),
  JSON.parse('{"value": 1, "unit": "mm", "constructor": 1}'),
  'x'.repeat(1_000_000),
  deep(50_000),
];
const NO_KEY = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '',
  'a.b',
  'x'.repeat(5000),
  '\u0000',
];

const quantities = SECTIONS.flatMap((section) =>
  section.fields
    .filter((field) => field.kind === 'quantity')
    .map((field) => [section.id, field.id] as const),
);
/** A copy that has the section and its values, so that something can be put there. */
const withValues = (sheet: unknown, section: string): { sheet: Json; values: Json } => {
  const copy = JSON.parse(JSON.stringify(sheet)) as Json & { sections: Record<string, Json> };
  copy.sections[section] ??= {};
  copy.sections[section].values ??= {};
  return { sheet: copy, values: copy.sections[section].values as Json };
};
/** As JSON.parse would: an own key, also where it is called __proto__. */
const put = (object: object, key: string, value: unknown) =>
  Object.defineProperty(object, key, {
    value,
    enumerable: true,
    writable: true,
    configurable: true,
  });

const slips: fc.Arbitrary<Slip> = fc.oneof(
  fc
    .tuple(anySheet(2), fc.constantFrom(...quantities), fc.constantFrom(...NO_VALUE))
    .map(([sound, [section, field], value]) => {
      const { sheet, values } = withValues(sound, section);
      values[field] = value;
      return { sheet, at: `sections.${section}.values.${field}` };
    }),
  fc
    .tuple(
      anySheet(2),
      fc.constantFrom(...SECTIONS.map(({ id }) => id)),
      fc.constantFrom(...NO_KEY),
    )
    .map(([sound, section, key]) => {
      const { sheet, values } = withValues(sound, section);
      put(values, key, '4 in');
      return { sheet, at: `sections.${section}.values` };
    }),
  fc.tuple(anySheet(2), fc.constantFrom(...NO_KEY)).map(([sound, key]) => {
    const { sheet } = withValues(sound, 'block');
    put(sheet.sections as object, key, {});
    return { sheet, at: 'sections' };
  }),
  fc
    .tuple(
      anySheet(2),
      fc.constantFrom('layout', 'sections', 'name', 'use', 'attachments'),
      fc.constantFrom(7, 'seven', null, [7], deep(20_000), { seven: 7 }),
    )
    .filter(([, key, value]) => !((key === 'name' || key === 'use') && typeof value === 'string'))
    .map(([sound, key, value]) => ({ sheet: { ...sound, [key]: value }, at: key })),
  fc
    .tuple(
      anySheet(2),
      fc.constantFrom(
        'cylinders',
        'arrangement',
        'crank',
        'cycle',
        'aspiration',
        'mainJournals',
        'bankAngleDeg',
      ),
      fc.constantFrom('many', -1, 3.5, 1e9, [8], {}, true),
    )
    .filter(([, key, value]) => !(key === 'bankAngleDeg' && value === 3.5))
    .map(([sound, key, value]) => ({
      sheet: { ...sound, layout: { ...sound.layout, [key]: value } },
      at: `layout.${key}`,
    })),
  fc
    .tuple(
      anySheet(2),
      fc.constantFrom<[string, string, string]>(
        ['camshaft', 'card', 'lift'],
        ['heads', 'flow', 'intake'],
        ['fasteners', 'joints', 'torque'],
      ),
      fc.constantFrom<unknown>(
        'rows',
        [7],
        [{ nonsense: 1 }],
        [{ column: 'x' }],
        [{ column: 1e30 }],
        deep(20_000),
      ),
    )
    .map(([sound, [section, table, column], rows]) => {
      const { sheet } = withValues(sound, section);
      const named = Array.isArray(rows)
        ? rows.map((row) =>
            typeof row === 'object' && row !== null && 'column' in row
              ? { [column]: (row as Json).column }
              : row,
          )
        : rows;
      const at = `sections.${section}.tables.${table}`;
      (sheet.sections as Record<string, Json>)[section]!.tables = { [table]: { rows: named } };
      return { sheet, at };
    }),
);

describe('malformed build files', () => {
  it('are refused by the name of their field, 600 of them, and never crash (property)', () => {
    fc.assert(
      fc.property(slips, ({ sheet, at }) => {
        const read = readSheet(sheet);
        const problems = 'problems' in read ? read.problems : [];
        expect(
          problems.map((problem) => problem.path).filter((path) => path.startsWith(at)),
        ).not.toEqual([]);
        for (const problem of problems) {
          expect(problem.path.length + problem.found.length).toBeLessThan(400);
          expect(problem.expected).not.toBe('');
        }
        expect(() => parseSheet(sheet, 'build.json')).toThrow(FormatError);
      }),
      { seed: SEED, numRuns: 600 },
    );
  }, 120_000);

  it('of any other kind are refused too (property)', () => {
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue(), fc.anything({ withNullPrototype: true })), (value) => {
        const read = readSheet(value);
        expect('problems' in read && read.problems.length).toBeGreaterThan(0);
        const dressed = readSheet({ format: 'sheet/1', layout: { cylinders: 4 }, sections: value });
        if ('problems' in dressed) expect(dressed.problems[0]!.path).toMatch(/^sections/);
      }),
      { seed: SEED, numRuns: 400 },
    );
  }, 120_000);

  it('leave nothing behind in the objects of everybody', () => {
    readSheet(
      JSON.parse(
        '{"format":"sheet/1","layout":{"cylinders":4,"__proto__":{"odd":1}},"sections":{"block":{"values":{"__proto__":{"odd":1}}}}}',
      ),
    );
    expect(({} as Json).odd).toBeUndefined();
  });

  it('of a hundred thousand keys are answered with fifty problems', () => {
    const values = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`k${i}`, i]));
    const read = readSheet({
      format: 'sheet/1',
      layout: { cylinders: 4 },
      sections: { block: { values } },
    });
    expect('problems' in read && read.problems).toHaveLength(50);
  });
});

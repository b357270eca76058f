import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldOf, SECTIONS } from '../sections/index.ts';
import { anySheet } from '../sheet/anySheet.fixture.ts';
import { layoutOf } from '../sheet/layout.ts';
import type { Sheet } from '../sheet/types.ts';
import { inOrder } from '../sheet/write.ts';
import { type Cell, pasteEach, sheetFromTable, sheetTable } from './index.ts';

const read = (rows: readonly (readonly Cell[])[]) => {
  const answer = sheetFromTable(rows);
  if ('problems' in answer) throw new Error(JSON.stringify(answer.problems));
  return answer.sheet;
};
const problemsOf = (rows: readonly (readonly Cell[])[]) => {
  const answer = sheetFromTable(rows);
  return 'problems' in answer ? answer.problems : [];
};
const HEAD = ['Section', 'Field', 'Place', 'Value', 'Unit', 'Plus/minus', 'By', 'With', 'Date'];

describe('a sheet from a spreadsheet', () => {
  it('as a long table, by id or by label, once or a place a row', () => {
    const sheet = read([
      ['Our own form, page 1'].slice(1),
      HEAD,
      ['layout', 'cylinders', '', 4],
      ['sheet', 'name', '', 'club engine'],
      ['block', 'boreNominal', '', 83.5, 'mm', 0.005, 'R. M.', 'bore gauge', '2026-03-02'],
      ['Crank', 'Stroke', '', '88,4 mm'],
      ['heads', 'Chamber volume', 'Cylinder 2', 41.2, 'cc', 0.2],
      ['heads', 'Chamber volume', 'cyl 4', '41.6', 'cc'],
      ['rods', 'material', '', 'Steel'],
      ['block', 'torquePlate', '', 'yes'],
      ['deck', 'notes', '', 'cut twice'],
    ]);
    expect(sheet.layout.cylinders).toBe(4);
    expect(sheet.name).toBe('club engine');
    expect(sheet.sections).toEqual({
      block: {
        values: {
          boreNominal: {
            value: 83.5,
            unit: 'mm',
            plusMinus: 0.005,
            by: 'R. M.',
            with: 'bore gauge',
            on: '2026-03-02',
          },
          torquePlate: { value: true },
        },
      },
      crank: { values: { stroke: { value: 88.4, unit: 'mm' } } },
      heads: {
        values: {
          chamberVolume: { each: [null, 41.2, null, 41.6], unit: 'cc', plusMinus: 0.2 },
        },
      },
      rods: { values: { material: { value: 'steel' } } },
      deck: { notes: 'cut twice' },
    });
  });

  it('as a wide block, which says itself how many cylinders there are', () => {
    const sheet = read([
      ['Section', 'Field', 'Unit', 'Cylinder 1', 'Cylinder 2', 'Cylinder 3'],
      ['deck', 'deckClearance', 'in', 0.011, '-', 0.012],
      ['pistons', 'mass', 'g', 311.2, 311.4, null],
      [],
      ['table', 'heads.flow', 'K. L.'],
      ['Lift (in)', 'intake (cfm)'],
      [0.1, 62],
      [0.2, 121],
    ]);
    expect(sheet.layout.cylinders).toBe(3);
    expect(sheet.sections.deck!.values!.deckClearance).toEqual({
      each: [0.011, null, 0.012],
      unit: 'in',
    });
    expect(sheet.sections.heads!.tables!.flow).toEqual({
      units: { lift: 'in', intake: 'cfm' },
      rows: [
        { lift: 0.1, intake: 62 },
        { lift: 0.2, intake: 121 },
      ],
      by: 'K. L.',
    });
  });

  it.each<[string, Cell[], number, string]>([
    ['a section that is none', ['blok', 'boreNominal', '', 1, 'mm'], 1, '"block"'],
    ['a field that is none', ['block', 'boreNominl', '', 1, 'mm'], 2, '"boreNominal"'],
    ['a word for a number', ['crank', 'stroke', '', 'long', 'mm'], 4, 'a number'],
    ['a number that reads two ways', ['crank', 'stroke', '', '1,234', 'mm'], 4, 'one way only'],
    ['a slipped unit', ['crank', 'stroke', '', 88.4, 'm'], 4, 'another unit'],
    ['no unit', ['crank', 'stroke', '', 88.4], 5, 'a unit'],
    ['a unit of something else', ['crank', 'stroke', '', 88.4, 'psi'], 5, 'a unit'],
    ['a place too many', ['heads', 'chamberVolume', 'Cylinder 9', 1, 'cc'], 4, 'Cylinder 1'],
    ['a tolerance that is none', ['crank', 'stroke', '', 88, 'mm', 'fair'], 6, 'a number'],
    ['a day that is none', ['crank', 'stroke', '', 88, 'mm', 1, '', '', '2026-02-30'], 1, 'a date'],
    ['a choice that is none', ['rods', 'material', '', 'wood'], 4, 'iron, aluminium'],
  ])('names row and column of %s', (_, row, column, expected) => {
    const problems = problemsOf([HEAD, ['layout', 'cylinders', '', 4], row]);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ row: 3, column });
    expect(problems[0]!.expected).toContain(expected);
  });

  it('refuses a field that stands twice, a table without a header, and one that tells no cylinders', () => {
    const twice = [
      HEAD,
      ['layout', 'cylinders', '', 4],
      ['crank', 'stroke', '', '88 mm'],
      ['crank', 'stroke', '', '89 mm'],
    ];
    expect(problemsOf(twice)).toMatchObject([{ row: 4, column: 4 }]);
    expect(problemsOf([['Cylinder 1', 3]])).toMatchObject([{ row: 1, column: 1 }]);
    expect(problemsOf([HEAD, ['crank', 'stroke', '', '88 mm']])[0]!.expected).toContain(
      'cylinders',
    );
  });

  it('is what the sheet was before it was written as a table (property)', () => {
    // A cell keeps no empty text and no white space at its ends; photos have no place in a table.
    const asCells = (sheet: Sheet): Sheet => {
      const { attachments: _none, ...rest } = JSON.parse(
        JSON.stringify(sheet, (_key, value) =>
          typeof value === 'string' ? value.trim() || undefined : value,
        ),
      ) as Sheet;
      for (const [id, data] of Object.entries(rest.sections)) {
        const fields = SECTIONS.find((one) => one.id === id)!.fields;
        const values = (data.values ?? {}) as unknown as Record<string, Record<string, unknown>>;
        for (const field of fields)
          if (
            values[field.id] !== undefined &&
            !('value' in values[field.id]!) &&
            !('each' in values[field.id]!)
          )
            delete values[field.id];
          else if ((values[field.id]?.each as unknown[] | undefined)?.every((one) => one === null))
            delete values[field.id];
        for (const [name, table] of Object.entries(data.tables ?? {})) {
          const rows = table.rows
            .map((row) =>
              Object.fromEntries(Object.entries(row).filter(([, cell]) => cell !== null)),
            )
            .filter((row) => Object.keys(row).length > 0);
          if (Object.keys(table.units ?? {}).length === 0)
            delete (table as { units?: unknown }).units;
          if (rows.length === 0 || rows.length < table.rows.length)
            delete (data.tables as Record<string, unknown>)[name];
          else (table as { rows: unknown }).rows = rows;
        }
        const parts = data.parts?.filter((part) => part.name !== undefined);
        if (parts === undefined || parts.length === 0)
          delete (data as Record<string, unknown>).parts;
        else (data as Record<string, unknown>).parts = parts;
      }
      return inOrder(rest);
    };
    fc.assert(
      fc.property(anySheet(5), (sheet) => {
        const plain = asCells(sheet);
        expect(inOrder(read(sheetTable(plain)))).toEqual(plain);
      }),
      { seed: 20261125, numRuns: 60 },
    );
  }, 120_000);
});

describe('any rows of cells', () => {
  const cell = fc.oneof(
    fc.constantFrom<Cell>(
      'section',
      'field',
      'value',
      'unit',
      'place',
      'plus/minus',
      'table',
      'heads.flow',
      'heads.parts',
      'layout',
      'cylinders',
      'sheet',
      'name',
      'notes',
      'block',
      'boreTopAcross',
      'crank',
      'stroke',
      'Cylinder 1',
      'Cylinder 99',
      '__proto__',
      'constructor',
      'lift (in)',
      'lift (psi)',
      'in',
      'mm',
      'NaN',
      '4,030',
      '#REF!',
      null,
      true,
      4,
      -1,
      1e300,
    ),
    fc.string({ maxLength: 8 }),
    fc.double(),
  );

  it('are a sheet or are refused by row and column within them, and never crash (property)', () => {
    const header = fc.constant<Cell[]>([
      'section',
      'field',
      'place',
      'value',
      'unit',
      'Cylinder 1',
    ]);
    const layoutRow = fc.constant<Cell[]>(['layout', 'cylinders', null, 2]);
    const rows = fc.array(fc.oneof(header, layoutRow, fc.array(cell, { maxLength: 7 })), {
      maxLength: 8,
    });
    fc.assert(
      fc.property(rows, (table) => {
        const answer = sheetFromTable(table);
        if ('sheet' in answer) return;
        expect(answer.problems.length).toBeGreaterThan(0);
        for (const { row, column, expected } of answer.problems) {
          expect(row).toBeGreaterThanOrEqual(1);
          expect(row).toBeLessThanOrEqual(Math.max(table.length, 1) + 1);
          expect(column).toBeGreaterThanOrEqual(1);
          expect(expected).not.toBe('');
        }
      }),
      { seed: 20261125, numRuns: 600 },
    );
  }, 60_000);
});

describe('a column pasted from a spreadsheet', () => {
  const BORE = fieldOf('block.boreTopAcross')!;
  const V8 = layoutOf(8);
  const six = [null, null, null, null, null, null];

  it.each([
    [
      'plain numbers in the unit on the screen',
      '4.0301\n4.0303',
      'in',
      { each: [4.0301, 4.0303, ...six], unit: 'in' },
    ],
    [
      'a heading with its unit',
      'Bore (mm)\n102.36\n102.37\n',
      'in',
      { each: [102.36, 102.37, ...six], unit: 'mm' },
    ],
    [
      'decimal commas',
      '102,36\r\n102,371\r\n',
      'mm',
      { each: [102.36, 102.371, ...six], unit: 'mm' },
    ],
    [
      'decimal commas that could be thousands of no engine',
      '102,361\n102,371',
      'mm',
      { each: [102.361, 102.371, ...six], unit: 'mm' },
    ],
    [
      'blanks and dashes',
      '4.03\n\n-\n4.031',
      'in',
      { each: [4.03, null, null, 4.031, null, null, null, null], unit: 'in' },
    ],
    ['a row', '4.03\t4.031', 'in', { each: [4.03, 4.031, ...six], unit: 'in' }],
    [
      'units in the cells, one of them another',
      '4.03 in ± 0.1 thou\n102.4 mm',
      undefined,
      {
        each: [4.03, Number((102.4 / 25.4).toPrecision(12)), ...six],
        unit: 'in',
        plusMinus: 0.0001,
      },
    ],
  ])('%s', (_, text, unit, entry) => {
    expect(pasteEach(text, BORE, V8, unit)).toEqual({ entry });
  });

  it('names row and column of what it cannot take', () => {
    expect(pasteEach('4.03\nlong\n40.3', BORE, V8, 'in')).toMatchObject({
      problems: [
        { row: 2, column: 1, found: '"long"' },
        { row: 3, column: 1, found: '"40.3"' },
      ],
    });
    expect(pasteEach('4.03', BORE, V8)).toMatchObject({ problems: [{ row: 1 }] });
    const nine = Array(9).fill('4.03').join('\n');
    expect(pasteEach(nine, BORE, V8, 'in')).toMatchObject({
      problems: [{ row: 9, expected: '8 values at most, Cylinder 8 being the last' }],
    });
  });

  it('never crashes, whatever is pasted (property)', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const answer = pasteEach(text, BORE, V8, 'in');
        if ('entry' in answer) expect(answer.entry.each).toHaveLength(8);
        else expect(answer.problems.length).toBeGreaterThan(0);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

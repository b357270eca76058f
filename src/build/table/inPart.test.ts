import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../../demo/sheets.ts';
import { csvText, withoutGuard } from '../../units/export/csv.ts';
import { layoutOf } from '../sheet/layout.ts';
import { mergedSheet, takenIn } from '../sheet/merge.ts';
import { readSheet } from '../sheet/read.ts';
import type { Sheet } from '../sheet/types.ts';
import { inOrder } from '../sheet/write.ts';
import type { Cell } from './cells.ts';
import { buildFileInPart, tableInPart } from './inPart.ts';
import { sheetTable } from './write.ts';

const sheets = demoSheets().map(({ sheet }) => inOrder(sheet));
const V8 = sheets[2]!;

describe('a table read as far as it can be', () => {
  it('leaves nothing out of a good one', () => {
    for (const { attachments: _, ...sheet } of sheets)
      expect(tableInPart(sheetTable(sheet))).toEqual({ sheet, refused: [] });
  });

  it('tells each cell that is wrong once, by row and column, and takes the rest', () => {
    const rows: Cell[][] = [
      ['section', 'field', 'value', 'unit'],
      ['layout', 'cylinders', 4],
      ['block', 'boreNominal', 83.5, 'mm'],
      ['block', 'boreNominl', 83.5, 'mm'],
      ['crank', 'stroke', 'long', 'mm'],
      ['deck', 'gasketThickness', 1.2, 'furlong'],
      ['rods', 'length', 139, 'mm'],
    ];
    const { sheet, refused } = tableInPart(rows);
    expect(refused.map(({ row, column }) => [row, column])).toEqual([
      [4, 2],
      [5, 3],
      [6, 4],
    ]);
    expect(Object.keys(sheet!.sections)).toEqual(['block', 'rods']);
    expect(refused[0]!.expected).toContain('perhaps "boreNominal" is meant');
  });

  it('takes nothing of a table that is none of ours, without ado', () => {
    const run = Array.from({ length: 400 }, (_, i): Cell[] => [i, 3000 + i, 200]);
    const { sheet, refused } = tableInPart([['time', 'rpm', 'torque'], ...run], {
      layout: layoutOf(4),
    });
    expect(sheet).toBeNull();
    expect(refused[0]!.expected).toContain('a header with the cells');
    expect(tableInPart([]).sheet).toBeNull();
  });

  it('keeps of the layout what the table does not say', () => {
    const rows: Cell[][] = [
      ['section', 'field', 'value', 'unit'],
      ['layout', 'crank', 'single-plane'],
      ['crank', 'stroke', 90, 'mm'],
    ];
    expect(tableInPart(rows, { standing: V8.layout }).sheet!.layout).toEqual({
      ...V8.layout,
      crank: 'single-plane',
    });
  });
});

describe('a build file read as far as it can be', () => {
  it('tells each value that is wrong once, by its path, and takes the rest', () => {
    const given = {
      ...V8,
      sections: {
        ...V8.sections,
        block: {
          values: {
            boreNominal: { value: 83.5, unit: 'furlongs' },
            boreNominl: 1,
            material: 'iron',
          },
        },
        engineRoom: {},
      },
      attachments: 'not ours',
    };
    const { sheet, refused } = buildFileInPart(given);
    const paths = refused.map(({ path }) => path).sort();
    expect(paths).toHaveLength(3);
    expect(paths[0]).toBe('sections.block.values.boreNominal.unit');
    expect(sheet!.sections.block).toEqual({ values: { material: { value: 'iron' } } });
    expect(sheet!.sections.crank).toEqual(V8.sections.crank);
    for (const other of [null, 5, [], 'x', { format: 'other' }])
      expect(buildFileInPart(other).sheet).toBeNull();
  });

  it('never breaks on what somebody changed in it, and what it takes is a good sheet', () => {
    fc.assert(
      fc.property(
        fc.nat(3),
        fc.array(fc.tuple(fc.nat(), fc.jsonValue({ maxDepth: 2 })), { minLength: 1, maxLength: 6 }),
        (which, changes) => {
          const given = JSON.parse(JSON.stringify(sheets[which]!));
          for (const [at, value] of changes) change(given, at, value);
          const { sheet, refused } = buildFileInPart(given);
          if (sheet === null) expect(refused.length).toBeGreaterThan(0);
          else expect(readSheet(sheet)).toHaveProperty('sheet');
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });
});

/** Puts a value in the place of one that is met on a walk through a JSON value. */
function change(json: Record<string, unknown>, at: number, value: unknown): void {
  let [node, rest] = [json, at];
  for (;;) {
    const keys = Object.keys(node);
    if (keys.length === 0) return;
    const key = keys[rest % keys.length]!;
    const next = node[key];
    if (typeof next !== 'object' || next === null || rest % 7 === 0) {
      node[key] = value;
      return;
    }
    [node, rest] = [next as Record<string, unknown>, Math.floor(rest / 2)];
  }
}

describe('a sheet put onto another', () => {
  it('changes nothing where they are the same, and is itself on an empty one', () => {
    for (const sheet of sheets) {
      expect(inOrder(mergedSheet(sheet, sheet))).toEqual(sheet);
      expect(takenIn(sheet, sheet)).toEqual([]);
      const empty: Sheet = { format: 'sheet/1', layout: sheet.layout, sections: {} };
      expect(inOrder(mergedSheet(empty, sheet))).toEqual(sheet);
      expect(inOrder(mergedSheet(sheet, empty))).toEqual(sheet);
    }
  });

  it('fills places, keeps the others in the new unit, follows parts by serial, and says what it did', () => {
    const layout = layoutOf(2);
    const standing: Sheet = {
      format: 'sheet/1',
      layout,
      sections: {
        deck: { values: { deckClearance: { each: [0.3, 0.4], unit: 'mm' } } },
        rods: { parts: [{ name: 'rods', serial: 'R-7' }], notes: 'checked' },
      },
    };
    const given: Sheet = {
      format: 'sheet/1',
      layout,
      sections: {
        deck: { values: { deckClearance: { each: [null, 0.01], unit: 'in' } } },
        rods: { parts: [{ name: 'rods', serial: ' r-7', note: 'new bolts' }, { name: 'bolts' }] },
      },
    };
    const merged = mergedSheet(standing, given);
    const { each } = merged.sections.deck!.values!.deckClearance as { each: number[] };
    expect(each[0]).toBeCloseTo(0.3 / 25.4, 10);
    expect(each[1]).toBe(0.01);
    expect(merged.sections.rods).toEqual({
      parts: [{ name: 'rods', serial: ' r-7', note: 'new bolts' }, { name: 'bolts' }],
      notes: 'checked',
    });
    expect(takenIn(standing, merged)).toMatchObject([
      { section: 'rods', label: 'Parts', before: 'rods, R-7' },
      { section: 'deck', before: '0.3, 0.4 mm' },
    ]);
  });
});

describe('a table as text for spreadsheets', () => {
  it('runs no formula and loses nothing', () => {
    const texts = [
      '=1+1',
      '+x',
      '-x',
      '@x',
      '\tx',
      "'=1",
      "''=",
      "'plain",
      'plain',
      'a,"b"\n;',
      ' x ',
    ];
    const line = csvText([texts]).slice(1, -2);
    const cells = line
      .match(/"(?:[^"]|"")*"|[^,]+/g)!
      .map((cell) => (cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell));
    expect(cells.every((cell) => !/^[=+\-@\t\r]/.test(cell))).toBe(true);
    expect(cells.map(withoutGuard)).toEqual(texts);
    // A number keeps its sign: it is no text.
    expect(csvText([[-4, null, true]])).toBe('\ufeff-4,,true\r\n');
  });

  it('of any cell at all', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...`'=+-@\t\r\n,;" aé`), maxLength: 8 }),
        (text) => {
          const guarded = csvText([[text]])
            .slice(1, -2)
            .replace(/^"|"$/g, '')
            .replaceAll('""', '"');
          expect(guarded).not.toMatch(/^[=+\-@\t\r]/);
          expect(withoutGuard(guarded)).toBe(text);
        },
      ),
      { numRuns: 300, seed: 5 },
    );
  });
});

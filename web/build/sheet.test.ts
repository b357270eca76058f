import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import {
  answerSheet,
  fieldOf,
  inOrder,
  layoutOf,
  readSheet,
  type Sheet,
  sheetTable,
  type Window,
  writeSheet,
} from '../../src/build/index.ts';
import { shareOf, stretchOf } from './bar.ts';
import {
  eachAt,
  entryAt,
  setAbout,
  setEach,
  setEntry,
  setLayout,
  setNotes,
  setParts,
  setTable,
} from './edit.ts';
import { cellsOf, sheetFromText } from './fromText.ts';
import { back, begin, forth, step } from './history.ts';
import { pasteBlock } from './pasting.ts';
import { otherwise, readCell, statistics, unitChoices, usualUnit } from './typing.ts';
import { sharing } from './useSheet.ts';
import { measured, SECTIONS, verdictCounts, worstOf } from './words.ts';

const EMPTY: Sheet = { format: 'sheet/1', layout: layoutOf(4), sections: {} };
const column = (path: string, unit?: string) => ({ path, field: fieldOf(path)!, unit });

describe('a sheet that is edited', () => {
  it('is as untouched when everything is taken away again', () => {
    let sheet = setEntry(EMPTY, 'crank.stroke', { value: 88.4, unit: 'mm' });
    sheet = setEach(sheet, 'pistons.mass', [421, null, 421.5, null], { unit: 'g' });
    sheet = setTable(sheet, 'heads.flow', {
      units: { lift: 'in' },
      rows: [{ lift: 0.1, intake: null }],
    });
    sheet = setNotes(setParts(sheet, 'rods', [{ name: 'rods', serial: 'R-1' }]), 'rods', 'new');
    expect(readSheet(sheet)).toHaveProperty('sheet');
    sheet = setEntry(sheet, 'crank.stroke', null);
    sheet = setEach(sheet, 'pistons.mass', [null, null, null, null]);
    sheet = setTable(sheet, 'heads.flow', { rows: [] });
    sheet = setNotes(setParts(sheet, 'rods', []), 'rods', '');
    expect(sheet).toEqual(EMPTY);
  });

  it('turns one value for all into values by place, with all that was said of it', () => {
    const all = setEntry(EMPTY, 'pistons.mass', { value: 421, unit: 'g', by: 'me' });
    expect(eachAt(all, 'pistons.mass')).toEqual([421, 421, 421, 421]);
    expect(entryAt(setEach(all, 'pistons.mass', [421, 420, 421, 421]), 'pistons.mass')).toEqual({
      each: [421, 420, 421, 421],
      unit: 'g',
      by: 'me',
    });
  });

  it('takes away what was said where it is emptied', () => {
    const sheet = setEntry(EMPTY, 'crank.stroke', {
      value: 88.4,
      unit: 'mm',
      plusMinus: 0.1,
      by: 'me',
    });
    const about = setAbout(sheet, 'crank.stroke', { plusMinus: undefined, by: '' });
    expect(entryAt(about, 'crank.stroke')).toEqual({ value: 88.4, unit: 'mm' });
  });

  it('stays a good sheet when the number of cylinders changes', () => {
    for (const { sheet } of demoSheets()) {
      const other = setLayout(sheet, {
        ...sheet.layout,
        cylinders: 5,
        arrangement: 'inline',
        bankAngleDeg: null,
      });
      const read = readSheet(JSON.parse(JSON.stringify(other)));
      expect('problems' in read ? read.problems : []).toEqual([]);
    }
  });
});

describe('steps and the way back', () => {
  it('keystrokes in one field are one step, and a step after going back drops what lay ahead', () => {
    let history = begin(0);
    for (const value of [1, 2, 3]) history = step(history, value, 'crank.stroke');
    history = step(history, 4, null);
    history = step(history, 5, null);
    expect(back(back(history)).now).toBe(3);
    expect(back(back(back(history))).now).toBe(0);
    expect(forth(back(history)).now).toBe(5);
    expect(step(back(history), 9, null).future).toEqual([]);
    expect(back(begin(7)).now).toBe(7);
  });
});

describe('what is typed', () => {
  const bore = fieldOf('block.boreNominal')!;
  it('keeps the unit and the tolerance that were typed along', () => {
    expect(readCell(bore, '4.030 in ± 0.2 thou', 'mm')).toEqual({
      value: 4.03,
      unit: 'in',
      plusMinus: 0.0002,
    });
    expect(readCell(bore, '88,4', 'mm')).toEqual({ value: 88.4, unit: 'mm' });
    expect(readCell(bore, '  ', 'mm')).toBeNull();
  });
  it('names the field, what was found and what was expected where it cannot be right', () => {
    for (const [text, word] of [
      ['4030', '4030'],
      ['four', 'four'],
      ['4 psi', 'psi'],
    ] as const) {
      const read = readCell(bore, text, 'in') as { wrong: string };
      expect(read.wrong).toContain('Bore, nominal: found');
      expect(read.wrong).toContain(word);
      expect(read.wrong).toContain('expected');
    }
  });
  it('shows the other system beside a value typed in a unit of its own', () => {
    expect(otherwise(bore, 4, 'in', 'metric')).toBe('= 101.600 mm');
    expect(otherwise(bore, 4, 'in', 'us')).toBeNull();
    expect(usualUnit(bore, 'us')).toBe('in');
    expect(unitChoices(bore, 'in').slice(0, 2)).toEqual(['in', 'mm']);
  });
  it('tells smallest, largest and spread without crumbs', () => {
    expect(statistics([3.9988, null, 3.9985])).toEqual({
      smallest: 3.9985,
      largest: 3.9988,
      spread: 0.0003,
    });
    expect(statistics([1, null])).toBeNull();
  });
});

describe('a block from a spreadsheet', () => {
  const columns = [column('rods.bigEndMass', 'g'), column('rods.smallEndMass', 'g')];
  const values = (sheet: Sheet) => columns.map(({ path }) => eachAt(sheet, path));
  const pasted = (text: string, at: [number, number] = [0, 0], sheet = EMPTY) => {
    const result = pasteBlock(sheet, columns, at[0], at[1], text);
    if ('wrong' in result) throw new Error(result.wrong);
    return result.sheet;
  };
  it('fills columns and rows from where it is put', () => {
    expect(values(pasted('410\t180\r\n411\t181\n'))).toEqual([
      [410, 411, null, null],
      [180, 181, null, null],
    ]);
    expect(values(pasted('411\n412', [1, 2]))[1]).toEqual([null, null, 411, 412]);
  });
  it('runs along the places where a single row has as many cells as there are places', () => {
    expect(values(pasted('1\t2\t3\t4'))[0]).toEqual([1, 2, 3, 4]);
  });
  it('takes the unit of a heading, and turns it where others of the column stay', () => {
    const alone = pasted('Big end (kg)\n0.41\n0.42\n0.41\n0.42');
    expect(entryAt(alone, 'rods.bigEndMass')).toEqual({
      each: [0.41, 0.42, 0.41, 0.42],
      unit: 'kg',
    });
    const mixed = pasted('Big end (kg)\n0.42', [0, 1], pasted('410\n411\n412\n413'));
    expect(entryAt(mixed, 'rods.bigEndMass')).toEqual({ each: [410, 420, 412, 413], unit: 'g' });
  });
  it('changes nothing where a cell cannot be read, a row or a column is too much', () => {
    for (const [text, at] of [
      ['410\nx', [0, 0]],
      ['1\n2\n3', [0, 2]],
      ['1\t2\n3\t4', [1, 0]],
    ] as const)
      expect(pasteBlock(EMPTY, columns, at[0], at[1], text)).toHaveProperty('wrong');
  });
});

describe('what is said of a sheet', () => {
  it('counts every check once and takes the worst of a section', () => {
    for (const { sheet } of demoSheets()) {
      const { checks } = answerSheet(sheet);
      const counts = verdictCounts(checks);
      expect(Object.values(counts).reduce((sum, one) => sum + one, 0)).toBe(checks.length);
      if (counts.stop > 0) expect(worstOf(checks)).toBe('stop');
      for (const section of SECTIONS) {
        const { known, all } = measured(sheet, section);
        expect(known).toBeLessThanOrEqual(all);
      }
    }
    expect(worstOf([])).toBeNull();
  });
  it('draws a window wholly, its stops too, and a value beyond it at the end', () => {
    const window = (
      low: number | null,
      high: number | null,
      stopBelow: number | null = null,
      stopAbove: number | null = null,
    ): Window => ({ low, high, stopBelow, stopAbove, source: '' });
    for (const one of [
      window(1, 2),
      window(1, 2, 0, 9),
      window(null, 2, null, 3),
      window(1, null, 0.5),
      window(0, null),
      window(null, 0),
    ])
      for (const value of [null, -100, 0, 1.5, 100]) {
        const stretch = stretchOf(one, value)!;
        expect(stretch[1]).toBeGreaterThan(stretch[0]);
        for (const end of [one.low, one.high, one.stopBelow, one.stopAbove])
          if (end !== null) {
            expect(shareOf(end, stretch)).toBeGreaterThan(0);
            expect(shareOf(end, stretch)).toBeLessThan(1);
          }
      }
    expect(stretchOf(window(null, null), 1)).toBeNull();
    expect(shareOf(100, [0, 1])).toBe(1);
  });
});

describe('a sheet from a text', () => {
  it('is the same from a build file, from tabs, from commas and from semicolons', () => {
    for (const { sheet } of demoSheets()) {
      const named = sheetTable(sheet).map((row) =>
        row.map((cell) => (cell === null ? '' : String(cell))),
      );
      expect(sheetFromText(writeSheet(sheet), sheet.layout)).toEqual({ sheet: inOrder(sheet) });
      for (const mark of ['\t', ',', ';']) {
        const text = named
          .map((row) =>
            row
              .map((cell) => (/["\t,;\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell))
              .join(mark),
          )
          .join('\n');
        expect(cellsOf(text)).toEqual(named.map((row) => (row.length === 0 ? [''] : row)));
        expect(sheetFromText(text, sheet.layout)).toHaveProperty('sheet');
      }
    }
  });
  it('says by row or field what is wrong', () => {
    const wrong = (text: string) =>
      (sheetFromText(text, layoutOf(4)) as { wrong: string[] }).wrong.join(' ');
    expect(wrong('section,field,value\nblock,boreNominl,4 in')).toContain('Row 2, column 2');
    expect(
      wrong(
        '{"format":"sheet/1","layout":{"cylinders":4},"sections":{"block":{"values":{"boreNominl":"4 in"}}}}',
      ),
    ).toContain('boreNominal');
    expect(wrong('{')).toContain('no build file');
  });
});

describe('what is drawn again', () => {
  it('is only what says something else: an answer that stays is the object that it was', () => {
    const { sheet } = demoSheets()[2]!;
    const before = answerSheet(sheet);
    expect(sharing(answerSheet(sheet), before).figures).toEqual(before.figures);
    const other = setEntry(sheet, 'camshaft.advance', { value: 2, unit: 'deg' });
    const after = answerSheet(other);
    const shared = sharing(after, before);
    expect(shared).toEqual(after);
    const was = new Map([...before.figures, ...before.checks].map((one) => [one.id, one]));
    const [same, changed] = [[], []] as [string[], string[]];
    for (const one of [...shared.figures, ...shared.checks])
      (one === was.get(one.id) ? same : changed).push(one.id);
    expect(changed).toContain('intakeCentreline');
    expect(same).toContain('displacement');
    expect(same.length).toBeGreaterThan(changed.length);
  });
});

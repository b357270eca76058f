import {
  type FieldSpec,
  insideOf,
  pasteEach,
  type Sheet,
  unitOfField,
} from '../../src/build/index.ts';
import { fromInside } from '../../src/units/index.ts';
import { eachAt, entryAt, setEach } from './edit.ts';
import { tidy } from './typing.ts';

/** A column of a table by place: the field with its path, and the unit a bare number would be in. */
export interface PasteColumn {
  readonly path: string;
  readonly field: FieldSpec;
  readonly unit: string | undefined;
}

/** Whether a pasted text is more than one cell. */
export const isBlock = (text: string): boolean => /[\t\n\r]/.test(text.trim());

/**
 * Puts a block copied from a spreadsheet into a table by place, its first cell at (column, row). A single row whose cells
 * are as many as the places runs along the places. Nothing is changed where anything of it cannot be read.
 */
export function pasteBlock(
  sheet: Sheet,
  columns: readonly PasteColumn[],
  column: number,
  row: number,
  text: string,
): { readonly sheet: Sheet } | { readonly wrong: string } {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  let grid = lines.map((line) => line.split('\t'));
  const places = eachAt(sheet, columns[column]!.path).length;
  const single = grid[0]!;
  if (
    grid.length === 1 &&
    single.length > 1 &&
    (single.length === places || single.length > columns.length - column)
  )
    grid = single.map((cell) => [cell]);
  const wide = Math.max(...grid.map((cells) => cells.length));
  if (column + wide > columns.length)
    return {
      wrong: `Found ${wide} columns; expected ${columns.length - column} at most from ${columns[column]!.field.label} on.`,
    };
  let next = sheet;
  for (let at = 0; at < wide; at++) {
    const target = columns[column + at]!;
    const pasted = pasteColumn(
      next,
      target,
      row,
      grid.map((cells) => cells[at] ?? ''),
    );
    if ('wrong' in pasted) return pasted;
    next = pasted.sheet;
  }
  return { sheet: next };
}

function pasteColumn(
  sheet: Sheet,
  { path, field, unit }: PasteColumn,
  row: number,
  cells: readonly string[],
): { readonly sheet: Sheet } | { readonly wrong: string } {
  const before = eachAt(sheet, path);
  const read = pasteEach(cells.join('\n'), field, sheet.layout, unit);
  if ('problems' in read) {
    const first = read.problems[0]!;
    return {
      wrong: `${field.label}, line ${first.row} of what was pasted: found ${first.found}; expected ${first.expected}.`,
    };
  }
  const heading = cells.length > 0 && isHeading(cells[0]!) ? 1 : 0;
  const values = read.entry.each.slice(0, Math.min(cells.length - heading, before.length));
  if (row + values.length > before.length)
    return {
      wrong: `${field.label}: found ${values.length} values; expected ${before.length - row} at most from this row on.`,
    };
  const inside = (i: number) => i >= row && i < row + values.length;
  // Values that stay keep the unit of the column; what was pasted is turned into it.
  const stays = before.some((one, i) => one !== null && !inside(i));
  const old = entryAt(sheet, path)?.unit;
  const typed = read.entry.unit;
  const turn = (value: number | null) => {
    if (!stays || old === typed || old === undefined || typed === undefined || value === null)
      return value;
    return tidy(fromInside(insideOf(field, value, typed), unitOfField(field, old)!));
  };
  const each = before.map((one, i) => (inside(i) ? turn(values[i - row] ?? null) : one));
  const kept = stays ? old : typed;
  const more = {
    ...(kept === undefined ? {} : { unit: kept }),
    ...(read.entry.plusMinus === undefined || stays ? {} : { plusMinus: read.entry.plusMinus }),
  };
  return { sheet: setEach(sheet, path, each, more) };
}

const isHeading = (cell: string) =>
  /\p{L}/u.test(cell) && !/\d/.test(cell.replace(/[([][^)\]]*[)\]]/g, ''));

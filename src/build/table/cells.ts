import { readNumber } from '../../units/quantity.ts';
import type { FieldSpec } from '../sections/field.ts';
import { readTyped } from '../sheet/typed.ts';

/** A cell of a spreadsheet; days are texts (`2026-05-17`). */
export type Cell = string | number | boolean | null;

/** Something wrong in a table; row and column count from 1. */
export interface CellProblem {
  readonly row: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
}

/** How people write into a cell that there is nothing. */
const NOTHING = /^(?:|[-–—]+|\?+|n\/?a|#n\/a|null|none|nan)$/i;
const YES = /^(?:yes|true|y|x|1|✓)$/i;
const NO = /^(?:no|false|n|0)$/i;

export const isBlank = (cell: Cell | undefined): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');

export const textOfCell = (cell: Cell | undefined): string =>
  cell === null || cell === undefined ? '' : String(cell).trim();

/** Letters and digits only, so that case, spaces, dots and dashes of a header play no part. */
export const key = (text: string): string =>
  text
    .toLowerCase()
    .replace(/±/g, 'plusminus')
    .replace(/[^\p{L}\p{N}]/gu, '');

/** What a cell says for a field: a value with what stood beside it in the same cell, nothing, or why it cannot be read. */
export type CellValue =
  | {
      readonly value: number | string | boolean;
      readonly unit?: string;
      readonly plusMinus?: number;
    }
  | { readonly wrong: string }
  | null;

/**
 * Reads a cell as the value of a field.
 * @param unit     the unit of the row or column, for a number that stands alone
 * @param decimal  `,` where the file writes its decimals so
 */
export function valueOfCell(
  field: FieldSpec,
  cell: Cell | undefined,
  unit?: string,
  decimal: '.' | ',' = '.',
): CellValue {
  if (isBlank(cell)) return null;
  const text = textOfCell(cell);
  switch (field.kind) {
    case 'text':
      return { value: text };
    case 'yesNo':
      return YES.test(text)
        ? { value: true }
        : NO.test(text)
          ? { value: false }
          : { wrong: 'yes or no' };
    case 'choice': {
      const found = field.choices!.find((one) =>
        [one.value, one.label].some((name) => key(name) === key(text)),
      );
      return { value: found?.value ?? text };
    }
    case 'date':
      return { value: text };
    default:
      return NOTHING.test(text) ? null : numberOfCell(field, cell!, text, unit, decimal);
  }
}

function numberOfCell(
  field: FieldSpec,
  cell: Exclude<Cell, null>,
  text: string,
  unit: string | undefined,
  decimal: '.' | ',',
): CellValue {
  if (typeof cell === 'number')
    return { value: cell, ...(unit === undefined || field.kind === 'number' ? {} : { unit }) };
  const plain = decimal === ',' ? text.replace(/(\d),(?=\d)/g, '$1.') : text;
  if (field.kind === 'number') {
    const value = readNumber(plain);
    return value === undefined ? { wrong: 'a number' } : { value };
  }
  return readTyped(field, plain, unit);
}

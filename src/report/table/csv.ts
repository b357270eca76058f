import type { Cell, Table } from './table.ts';

/**
 * What spreadsheets take for the start of a formula. An apostrophe before it makes it words to them, and shows.
 * @source  OWASP, CSV Injection (the same characters, full-width forms besides)
 */
const FORMULA = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;

/** A table as text/csv by RFC 4180: CRLF, names of the columns first, quotes where they are needed. */
export function csvOf({ columns, rows }: Pick<Table, 'columns' | 'rows'>): string {
  const lines = [columns.map(({ name }) => name), ...rows].map((row) => row.map(field).join(','));
  return lines.map((line) => `${line}\r\n`).join('');
}

/** One field: a number as it is computed, words made harmless, nothing where it is not known. */
function field(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  if (typeof cell === 'boolean') return cell ? 'true' : 'false';
  const text = harmless(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Words that no spreadsheet takes for a formula. */
export const harmless = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

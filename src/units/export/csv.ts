import type { Cell, Table } from './table.ts';

/**
 * A text that a spreadsheet may take for a formula: it begins with one of `= + - @`, a tab, a carriage return, a line
 * feed, or the full-width form of the signs; blanks before it are passed over, since some programs drop them. An apostrophe goes
 * before it, which makes it words to them, and shows. A text that begins as if that had been done already gets one more,
 * so that nothing is lost (`withoutGuard`). A number is no text: -3.2 stays -3.2.
 * @source  OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection): these characters, the apostrophe, and
 *          quotes around separators of either kind and around quotes, so that no new cell begins inside a text
 */
const BEGINS = String.raw`[ \u00a0]*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]`;
const RUNS = new RegExp(`^'*${BEGINS}`);
const MADE_SAFE = new RegExp(`^'(?='*${BEGINS})`);

/** What a spreadsheet wants before CSV, to read it as UTF-8. */
const BYTE_ORDER_MARK = '\ufeff';

/** Rows as CSV by RFC 4180: commas, CRLF, quotes where they are needed. No text of it runs as a formula. */
export const csvLines = (rows: readonly (readonly Cell[])[]): string =>
  rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');

/** As `csvLines`, for a spreadsheet to open. */
export const csvText = (rows: readonly (readonly Cell[])[]): string =>
  BYTE_ORDER_MARK + csvLines(rows);

/** A table for a program: the names of its columns first. */
export const csvOf = ({ columns, rows }: Pick<Table, 'columns' | 'rows'>): string =>
  csvLines([columns.map(({ name }) => name), ...rows]);

/** One field: a number as it is computed, words made harmless, nothing where it is not known. */
function field(cell: Cell): string {
  if (cell === null || (typeof cell === 'number' && !Number.isFinite(cell))) return '';
  if (typeof cell !== 'string') return String(cell);
  const text = harmless(cell);
  return /[",;\t\r\n]/.test(text) || text.trim() !== text
    ? `"${text.replaceAll('"', '""')}"`
    : text;
}

/** Words that no spreadsheet takes for a formula. */
const harmless = (text: string): string => (RUNS.test(text) ? `'${text}` : text);

/** A cell of such a text as it stood before it was made harmless. */
export const withoutGuard = (text: string): string => text.replace(MADE_SAFE, '');

import type { Cell } from './cells.ts';

/**
 * A text that a spreadsheet would take for a formula, and a text that looks as if it had been made safe already: an
 * apostrophe goes before either, so that nothing runs and nothing is lost.
 */
const RUNS = /^'*[=+\-@\t\r]/;
const MADE_SAFE = /^'(?='*[=+\-@\t\r])/;

/** Rows as comma-separated text (RFC 4180, with a byte order mark, as spreadsheets want it). Texts run no formula. */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  return `\ufeff${rows.map((row) => row.map(cellText).join(',')).join('\r\n')}\r\n`;
}

function cellText(cell: Cell): string {
  if (cell === null) return '';
  const text = typeof cell === 'string' && RUNS.test(cell) ? `'${cell}` : String(cell);
  return /[",\r\n;\t]/.test(text) || text.trim() !== text
    ? `"${text.replaceAll('"', '""')}"`
    : text;
}

/** A cell of such a text as it stood before it was made safe. */
export const withoutGuard = (text: string): string => text.replace(MADE_SAFE, '');

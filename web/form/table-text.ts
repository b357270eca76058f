/*
 * A small table held as text: a line a row, a tab between cells. So it is edited, compared and kept as any other text of
 * a form.
 */

export type Rows = readonly (readonly string[])[];

/** The rows that say something; an empty line is none. */
export const rowsOf = (text: string): Rows =>
  text
    .split('\n')
    .map((line) => line.split('\t').map((cell) => cell.trim()))
    .filter((cells) => cells.some((cell) => cell !== ''));

/** The text of rows; lines left empty at the end are no part of it. */
export const textOfRows = (rows: Rows): string =>
  rows
    .map((cells) => cells.join('\t'))
    .join('\n')
    .replace(/[\t\n]+$/, '');

/** Whether a pasted text is more than one cell. */
export const isTable = (text: string): boolean => /[\t\n\r;]/.test(text.trim());

/**
 * Puts a pasted table into one, its first cell at (row, column). Headings, lines without a digit, are passed over; cells
 * are parted by tabs, semicolons, commas with a blank behind them, or blanks before a digit.
 */
export function pasteRows(
  rows: Rows,
  at: { readonly row: number; readonly column: number; readonly columns: number },
  text: string,
): { readonly rows: Rows } | { readonly wrong: string } {
  const block = text
    .split(/\r\n?|\n/)
    .filter((line) => /\d/.test(line))
    .map(cellsOf);
  const wide = Math.max(0, ...block.map((cells) => cells.length));
  const room = at.columns - at.column;
  if (wide === 0) return { wrong: 'What was pasted holds no number.' };
  if (wide > room)
    return { wrong: `What was pasted has ${wide} columns; there is room for ${room} from here.` };
  const next = rows.map((cells) => [...cells]);
  for (const [i, cells] of block.entries()) {
    while (next.length <= at.row + i) next.push([]);
    const row = next[at.row + i]!;
    for (const [j, cell] of cells.entries()) {
      while (row.length < at.column + j) row.push('');
      row[at.column + j] = cell;
    }
  }
  return { rows: next };
}

function cellsOf(line: string): string[] {
  const by = line.includes('\t')
    ? '\t'
    : line.includes(';')
      ? ';'
      : /,\s/.test(line)
        ? /,\s+/
        : /\s[-+.\d]/.test(line.trim())
          ? /\s+(?=[-+.\d])/
          : ',';
  return line
    .trim()
    .split(by)
    .map((cell) => cell.trim());
}

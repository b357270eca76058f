import { plain } from './io.ts';

/** A column of a plain table; numbers stand to the right. */
export interface Column {
  readonly title: string;
  readonly align?: 'left' | 'right';
}

/** Lines of an aligned table, two spaces between columns, widths by what is shown. */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  indent = '',
): string {
  const cells = rows.map((row) => columns.map((_, index) => plain(row[index] ?? '')));
  const widths = columns.map((column, index) =>
    Math.max(width(column.title), ...cells.map((row) => width(row[index]!))),
  );
  const line = (row: readonly string[]) =>
    (
      indent +
      row
        .map((cell, index) =>
          columns[index]!.align === 'right'
            ? ' '.repeat(widths[index]! - width(cell)) + cell
            : cell + ' '.repeat(widths[index]! - width(cell)),
        )
        .join('  ')
    ).trimEnd();
  return `${[columns.map(({ title }) => title), ...cells].map(line).join('\n')}\n`;
}

/** Letters that take a place: combining marks take none. */
function width(text: string): number {
  return [...text.normalize('NFC').replace(/\p{Mn}/gu, '')].length;
}

/** A paragraph broken at spaces to fit, each line after the first indented alike. */
export function wrapped(text: string, columns: number, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of plain(text).split(' ')) {
    if (line !== '' && width(indent) + width(line) + 1 + width(word) > columns) {
      lines.push(indent + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return `${[...lines, indent + line].join('\n')}\n`;
}

import {
  type Layout,
  problemSentence,
  readSheet,
  type Sheet,
  sheetFromTable,
} from '../../src/build/index.ts';
import { withoutGuard } from '../../src/units/export/csv.ts';

/**
 * A sheet from the text of a build file or of a table (cells parted by tabs, semicolons or commas, quoted where they
 * hold one). Numbers with a decimal comma are read so where semicolons or tabs part the cells.
 */
export function sheetFromText(
  text: string,
  layout: Layout,
): { readonly sheet: Sheet } | { readonly wrong: readonly string[] } {
  if (text.trim().startsWith('{')) {
    let value: unknown;
    try {
      value = JSON.parse(text);
    } catch (error) {
      return {
        wrong: [
          `This is no build file: ${error instanceof Error ? error.message : 'it is no JSON'}.`,
        ],
      };
    }
    const read = readSheet(value);
    return 'sheet' in read ? read : { wrong: read.problems.map(problemSentence) };
  }
  const read = sheetFromTable(cellsOf(text), { layout });
  if ('sheet' in read) return read;
  return {
    wrong: read.problems.map(
      ({ row, column, found, expected }) =>
        `Row ${row}, column ${column}: found ${found}; expected ${expected}.`,
    ),
  };
}

/** Rows of a text; the mark that parts the cells is the one its first line has most of. */
export function cellsOf(text: string): string[][] {
  const first = text.split(/\r?\n/, 1)[0]!;
  const mark = ['\t', ';', ','].reduce((best, one) =>
    first.split(one).length > first.split(best).length ? one : best,
  );
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const close = () => {
    rows.at(-1)!.push(withoutGuard(cell));
    cell = '';
  };
  for (let at = 0; at < text.length; at++) {
    const char = text[at]!;
    if (quoted) {
      if (char !== '"') cell += char;
      else if (text[at + 1] === '"') cell += text[at++]!;
      else quoted = false;
    } else if (char === '"' && cell === '') quoted = true;
    else if (char === mark) close();
    else if (char === '\n') {
      close();
      rows.push([]);
    } else if (char !== '\r') cell += char;
  }
  close();
  return rows;
}

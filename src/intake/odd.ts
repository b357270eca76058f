import { FormatError } from '../errors.ts';
import { cellNumber, isMissing } from './cells.ts';
import { looksLikeClock } from './clock.ts';
import { quoted, shown } from './display.ts';
import type { Layout } from './layout.ts';

/** What is known where a line that does not fit is met. */
interface OddRowContext {
  readonly layout: Layout;
  readonly kinds: Uint8Array;
  /** Whether a column has held a number before this line. */
  hasNumbers(column: number): boolean;
  readonly line: number;
  readonly fileName: string;
}

const SUMMARY =
  /^(?:min|max|minimum|maximum|avg|average|mean|peak|total|sum|std|st(?:an)?d\.? ?dev.*|count|median|mittel(?:wert)?|moyenne|media)\b/i;

/**
 * Judges a line that is not a row of numbers: a note or footer, or the first words in a column that was empty so far.
 * @throws FormatError  the line is a broken row: too short, too long, or words where numbers stood
 */
export function oddRow(
  cells: readonly string[],
  context: OddRowContext,
): 'note' | { readonly wordsIn: number } {
  const { layout, kinds, line, fileName } = context;
  const { decimal } = layout.dialect;
  const width = layout.headers.length;
  const filled = cells.filter((cell) => !isMissing(cell));
  const isNumber = (cell: string) => cellNumber(cell, decimal) !== undefined;
  const numbers = filled.filter((cell) => isNumber(cell) || looksLikeClock(cell)).length;
  const first = filled[0];
  if (first === undefined || numbers === 0) return 'note';
  const startsWithWords = !isNumber(first) && !looksLikeClock(first);

  if (cells.length < width) {
    const isLabelled = startsWithWords && kinds[cells.indexOf(first)] !== 2;
    if (isLabelled || (cells.length === 1 && looksLikeClock(first))) return 'note';
    throw new FormatError(
      `the row has ${cells.length} of ${width} cells: it was cut short, and what is left may be wrong`,
      {
        file: fileName,
        line,
        column: cells.length,
        found: `${cells.length} cells, the last ${quoted(cells.at(-1) ?? '')}`,
        expected: `${width} cells`,
      },
    );
  }
  if (cells.slice(width).some((cell) => cell !== ''))
    throw new FormatError(`the row has ${cells.length} cells where the header names ${width}`, {
      file: fileName,
      line,
      column: width + 1,
      found: shown(cells.slice(width).join(layout.dialect.delimiter), 48),
      expected: `${width} cells`,
    });
  if (startsWithWords && SUMMARY.test(first) && kinds[cells.indexOf(first)] !== 2) return 'note';

  const column = cells.findIndex(
    (cell, at) =>
      kinds[at] !== 2 &&
      !isMissing(cell) &&
      (kinds[at] === 1 ? !looksLikeClock(cell) : !isNumber(cell)),
  );
  if (column === -1) return 'note';
  if (kinds[column] === 0 && !context.hasNumbers(column)) return { wordsIn: column };
  const header = layout.headers[column]!;
  const expected = kinds[column] === 1 ? 'a clock time' : 'a number';
  throw new FormatError(
    `column ${column + 1} (${shown(header, 48)}) turns to text: ${quoted(cells[column]!)} stands where ${expected} is expected`,
    { file: fileName, line, column: column + 1, found: shown(cells[column]!, 80), expected },
  );
}

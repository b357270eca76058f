import { FormatError } from '../errors.ts';
import { findUnit } from '../units/index.ts';
import { type Dialect, holdsNumber, isMissing, splitCells } from './cells.ts';
import { dayOrder, looksLikeClock } from './clock.ts';
import { countCells, type HeadRecord, isDataRow, sniffDialect } from './dialect.ts';
import { quoted } from './display.ts';
import { quantityOfWords, wordsOf } from './names.ts';
import { MOST_COLUMNS } from './types.ts';

/** Where what stands in a text table. */
export interface Layout {
  readonly dialect: Dialect;
  /** Physical lines before the first row of numbers. */
  readonly linesBefore: number;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  readonly unitRow: readonly string[] | null;
  readonly unitLine: number | null;
  readonly kinds: readonly ('number' | 'clock' | 'text')[];
  readonly notes: readonly { readonly line: number; readonly text: string }[];
  readonly warnings: readonly string[];
  /** Day before month as the dates show; null: they do not tell; `none`: no such dates. */
  readonly dayFirst: boolean | null | 'none';
  /** The header as one line, to know it again where it is repeated. */
  readonly repeats: ReadonlySet<string>;
}

const SAMPLE_ROWS = 400;
/** Lines above a table, in nearly all files. */
const USUAL_PREAMBLE = 40;
const LONGEST_UNIT = 40;

/** Finds delimiter, decimal mark, header, row of units and the kind of each column from the head of a file. */
export function findLayout(
  records: readonly HeadRecord[],
  fileName: string,
  known?: Dialect,
): Layout {
  if (records.every((record) => record.text.trim() === ''))
    throw new FormatError('the file is empty: it holds only blank lines', {
      file: fileName,
      line: 1,
      found: 'blank lines',
      expected: 'a header and rows of a run',
    });
  const guess = sniffDialect(records.slice(0, SAMPLE_ROWS), known) ?? sniffDialect(records, known);
  if (guess === null) return refuseNoTable(records, fileName);
  const { dialect, width } = guess;
  const { rows, first } = tableIn(records, dialect, width);
  const { header, units } = headerAbove(rows, first, width);
  const sample = rows.slice(first, first + SAMPLE_ROWS).filter((cells) => cells.length >= 2);
  const lengths = sample
    .filter((cells) => isDataRow(cells, dialect.decimal))
    .map((cells) => withoutEmptyEnd(cells).length)
    .sort((a, b) => a - b);
  // One row that is too long is that row's fault; half of them are the header's.
  const filled = lengths[lengths.length >> 1] ?? width;
  const used = header === null ? width : Math.max(filled, Math.min(rows[header]!.length, width));
  const headers = nameColumns(
    header === null ? null : rows[header]!,
    used,
    records[header ?? first]!,
    fileName,
  );
  const kinds = headers.map((_, column) => kindOf(sample, column, dialect));
  const taken = new Set([header, units].filter((index) => index !== null));
  const notes = records
    .slice(0, first)
    .filter((record, index) => !taken.has(index) && record.text.trim() !== '')
    .map(({ line, text }) => ({ line, text }));
  return {
    dialect,
    linesBefore: records[first]!.line - 1,
    headerLine: header === null ? null : records[header]!.line,
    headers,
    unitRow: units === null ? null : headers.map((_, column) => rows[units]![column] ?? ''),
    unitLine: units === null ? null : records[units]!.line,
    kinds,
    notes,
    warnings:
      guess.doubtfulMark === null
        ? []
        : [`${quoted(guess.doubtfulMark)} was read with its comma as a thousands mark.`],
    dayFirst: dayOrder(sample.flatMap((cells) => cells.filter((_, at) => kinds[at] === 'clock'))),
    repeats: new Set(
      [header, units].flatMap((index) => (index === null ? [] : [rowKey(rows[index]!)])),
    ),
  };
}

/** The records as rows of cells, as many as are looked at, and which of them is the first of the table. */
function tableIn(
  records: readonly HeadRecord[],
  dialect: Dialect,
  width: number,
): { readonly rows: readonly string[][]; readonly first: number } {
  const upTo = (count: number) =>
    records.slice(0, count).map((record) => splitCells(record.text, dialect.delimiter));
  const few = upTo(SAMPLE_ROWS + USUAL_PREAMBLE);
  const pair = firstPair(few, dialect, width);
  const isEnough = pair.isPair && pair.first <= USUAL_PREAMBLE;
  const rows = isEnough || few.length === records.length ? few : upTo(records.length);
  const { first } = rows === few ? pair : firstPair(rows, dialect, width);
  return { rows, first: withSparseRows(rows, first, width, dialect) };
}

/** A row of words as one key, whatever its case and trailing delimiters. */
export function rowKey(cells: readonly string[]): string {
  return cells.join('\t').toLowerCase().trimEnd();
}

function refuseNoTable(records: readonly HeadRecord[], fileName: string): never {
  const header = records.find((record) => /[,;\t|]/.test(record.text));
  const at = header ?? records.find((record) => record.text.trim() !== '')!;
  throw new FormatError(
    header === undefined
      ? 'the file is not a run file: it holds no table of numbers'
      : 'the file is not a run file: it has a header but no row of numbers under it',
    {
      file: fileName,
      line: at.line,
      found: at.text.slice(0, 80),
      expected: 'rows of numbers between commas, semicolons, tabs or pipes',
    },
  );
}

/** The first of two rows of numbers that follow each other, or the only one there is. */
function firstPair(
  rows: readonly string[][],
  dialect: Dialect,
  width: number,
): { readonly first: number; readonly isPair: boolean } {
  const fits = (cells: readonly string[]) =>
    fitsWidth(cells, width) && isDataRow(cells, dialect.decimal);
  let first = -1;
  let before = -1;
  for (const [at, cells] of rows.entries()) {
    if (cells.every((cell) => cell === '')) continue;
    const isData = fits(cells);
    if (isData && before !== -1) return { first: before, isPair: true };
    before = isData ? at : -1;
    if (isData && first === -1) first = at;
  }
  return { first: before === -1 ? first : before, isPair: false };
}

/** As wide as the table, or wider by empty cells only. */
function fitsWidth(cells: readonly string[], width: number): boolean {
  return cells.length >= width && cells.slice(width).every((cell) => cell === '');
}

/** The row of names and the row of units among the few above the first numbers. */
function headerAbove(
  rows: readonly string[][],
  first: number,
  width: number,
): { header: number | null; units: number | null } {
  const above: number[] = [];
  for (let at = first - 1; at >= 0 && above.length < 4; at--) {
    const names = rows[at]!.filter((cell) => !isMissing(cell)).length;
    if (names === 0) continue;
    // Fewer names than half the columns is a line of preamble, not a header.
    if (names * 2 < width && !isUnitRow(rows[at]!)) break;
    if (rows[at]!.length < 2) break;
    above.push(at);
  }
  if (above.length === 0) return { header: null, units: null };
  // Rows of sensor numbers or types may stand between names and numbers: names are what reads as channels.
  const channels = above.map((at) => channelsNamed(rows[at]!));
  const most = Math.max(...channels);
  const named = channels.findIndex((count, at) => count === most && !isUnitRow(rows[above[at]!]!));
  const header = above[named === -1 ? 0 : named]!;
  const others = above.filter((at) => at !== header);
  const units =
    others.find((at) => isUnitRow(rows[at]!)) ??
    (most >= 2 ? others.find((at) => at > header && isUnitRow(rows[at]!, true)) : undefined);
  return { header, units: units ?? null };
}

/** First rows in which most values are still missing belong to the table too. */
function withSparseRows(
  rows: readonly string[][],
  first: number,
  width: number,
  dialect: Dialect,
): number {
  let start = first;
  for (let at = first - 1; at >= 0; at--) {
    const cells = rows[at]!;
    if (cells.every((cell) => cell === '')) continue;
    const { numbers, words } = countCells(cells, dialect.decimal);
    if (cells.length < width || numbers === 0 || words > 0) break;
    start = at;
  }
  return start;
}

/**
 * Units, dashes and blanks, and at least two units among them.
 * @param loosely  more units than other words will do, where a row of names stands above
 */
function isUnitRow(cells: readonly string[], loosely = false): boolean {
  let units = 0;
  let words = 0;
  for (const cell of cells) {
    if (cell.length > LONGEST_UNIT) {
      words++;
      continue;
    }
    const bare = cell.replace(/^[[({]\s*|\s*[\])}]$/g, '');
    if (bare === '' || isMissing(bare)) continue;
    if (findUnit(bare) !== undefined || /^(?:counts?|cnt|raw|text|n)$/i.test(bare)) units++;
    else words++;
  }
  return units >= 2 && units > (loosely ? words : 2 * words);
}

function channelsNamed(cells: readonly string[]): number {
  return cells.filter((cell) => quantityOfWords(wordsOf(cell.slice(0, 200))) !== null).length;
}

function withoutEmptyEnd(cells: readonly string[]): readonly string[] {
  let length = cells.length;
  while (length > 0 && cells[length - 1] === '') length--;
  return cells.slice(0, length);
}

function nameColumns(
  cells: readonly string[] | null,
  width: number,
  record: HeadRecord,
  fileName: string,
): string[] {
  if (cells === null) return Array.from({ length: width }, (_, at) => `column ${at + 1}`);
  if (cells.length < width)
    throw new FormatError(
      `the header names ${cells.length} columns, but the rows under it have ${width}`,
      {
        file: fileName,
        line: record.line,
        column: cells.length,
        found: `${cells.length} names`,
        expected: `${width} names`,
      },
    );
  const length = Math.max(width, withoutEmptyEnd(cells).length);
  if (length > MOST_COLUMNS)
    throw new FormatError(`the table has ${length} columns, more than can be a run's`, {
      file: fileName,
      line: record.line,
      found: `${length} columns`,
      expected: `at most ${MOST_COLUMNS}`,
    });
  return Array.from({ length }, (_, at) => {
    const name = (cells[at] ?? '').replace(/\s+/g, ' ').trim();
    return name === '' ? `column ${at + 1}` : name;
  });
}

function kindOf(
  sample: readonly string[][],
  column: number,
  dialect: Dialect,
): 'number' | 'clock' | 'text' {
  let numbers = 0;
  let clocks = 0;
  let words = 0;
  let first: 'number' | 'clock' | 'text' | null = null;
  for (const cells of sample) {
    const cell = cells[column] ?? '';
    if (isMissing(cell)) continue;
    let kind: 'number' | 'clock' | 'text' = 'text';
    if (holdsNumber(cell, dialect.decimal)) {
      kind = 'number';
      numbers++;
    } else if (looksLikeClock(cell)) {
      kind = 'clock';
      clocks++;
    } else words++;
    first ??= kind;
  }
  if (first === 'clock' && clocks > numbers) return 'clock';
  // Words from the start are a column of words; words that start later are a fault, met when the rows are read.
  return first === 'text' && words >= numbers + clocks ? 'text' : 'number';
}

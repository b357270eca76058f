import writeWorkbook, { type Cell as BookCell, type SheetData } from 'write-excel-file/universal';
import { InputError } from '../../errors.ts';
import { type About, type Cell, type Column, headOf, symbolOf, type Table } from './table.ts';

/** Media type of a workbook. */
export const XLSX_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/**
 * What the format holds.
 * @source  Microsoft, "Excel specifications and limits": letters in a cell, rows and columns of a sheet
 */
export const MOST_LETTERS = 32_767;
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;
/** A sheet's name has at most 31 letters. */
const NAME_LETTERS = 31;

/**
 * A table as a workbook (Office Open XML): its rows under heads with their units, and a second sheet `About` that says
 * what it is of and what each column is. Texts are texts and never formulae; numbers are whole, shown with the decimals
 * of their column; a day is text as ISO 8601 (2026-05-17), which sorts right and means the same on every computer.
 * A text longer than a cell holds is cut there and ends in an ellipsis.
 * @param about  what the table is of, such as engine, build, day
 * @throws InputError  where it has more rows or columns than a sheet holds
 */
export async function xlsxOf(table: Table, about: readonly About[] = []): Promise<Uint8Array> {
  const { columns, rows, title, description } = table;
  refuseTooLarge(rows.length + 1, columns.length);
  const data = [
    columns.map((column) => head(headOf(column))),
    ...rows.map((row) => columns.map((column, at) => bookCell(row[at] ?? null, column))),
  ];
  const facts: About[] = [
    ['Table', title],
    ...(description === '' ? [] : [['What it is', description] as const]),
    ...about,
    ['Numbers', 'at full precision; the format of a cell only rounds what is shown'],
  ];
  const aboutData = [
    ...facts.map(([what, value]) => [head(what), text(value)]),
    [],
    ['Column', 'Unit', 'Name for programs', 'Remark'].map(head),
    ...columns.map((column) =>
      [headOf(column), unitInWords(column), column.name, column.note ?? ''].map(text),
    ),
  ];
  return workbook([
    { sheet: sheetName(title), data, columns: columns.map(widthOf(rows)), stickyRowsCount: 1 },
    {
      sheet: sheetName(title) === 'About' ? 'About this' : 'About',
      data: aboutData,
      columns: ABOUT_WIDTHS,
    },
  ]);
}

/** Rows of cells as they are, as a workbook of one sheet. */
export const xlsxOfRows = (rows: readonly (readonly Cell[])[], name: string): Promise<Uint8Array> =>
  workbook([
    { sheet: sheetName(name), data: rows.map((row) => row.map((cell) => bookCell(cell))) },
  ]);

const ABOUT_WIDTHS = [{ width: 34 }, { width: 40 }, { width: 34 }, { width: 40 }];

interface Sheet {
  readonly sheet: string;
  readonly data: SheetData;
  readonly columns?: { width: number }[];
  readonly stickyRowsCount?: number;
}

async function workbook(sheets: readonly Sheet[]): Promise<Uint8Array> {
  const blob = await writeWorkbook([...sheets]).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

function refuseTooLarge(rows: number, columns: number): void {
  if (rows > MOST_ROWS || columns > MOST_COLUMNS)
    throw new InputError(
      `The table has ${rows} rows and ${columns} columns; a workbook holds ${MOST_ROWS} and ${MOST_COLUMNS}. Take it as CSV or Parquet.`,
    );
}

function bookCell(cell: Cell, column?: Column): BookCell {
  if (cell === null || (typeof cell === 'number' && !Number.isFinite(cell))) return null;
  if (typeof cell === 'string') return cell === '' ? null : text(cell);
  if (typeof cell === 'boolean') return { value: cell, type: Boolean };
  const decimals = column?.decimals;
  return {
    value: cell,
    type: Number,
    ...(decimals === undefined
      ? {}
      : { format: decimals === 0 ? '0' : `0.${'0'.repeat(decimals)}` }),
  };
}

const text = (value: string): BookCell => ({ value: bookText(value), type: String });
const head = (value: string): BookCell => ({
  value: bookText(value),
  type: String,
  fontWeight: 'bold',
  wrap: true,
  alignVertical: 'top',
});

const unitInWords = (column: Column): string =>
  symbolOf(column) ||
  (column.type === 'number' || column.type === 'integer' ? 'a plain number' : 'none');

/** Letters that XML does not hold or advises against, halves of pairs, and what reads as such an escape already. */
const ESCAPED = new RegExp(
  [
    String.raw`[\u0000-\u0008\u000b-\u001f\u007f-\u009f\ufdd0-\ufdef\ufffd-\uffff]`,
    // The last two of every plane past the first are no letters.
    String.raw`[\ud83f\ud87f\ud8bf\ud8ff\ud93f\ud97f\ud9bf\ud9ff\uda3f\uda7f\udabf\udaff\udb3f\udb7f\udbbf\udbff][\udffe\udfff]`,
    String.raw`[\ud800-\udbff](?![\udc00-\udfff])`,
    String.raw`(?<![\ud800-\udbff])[\udc00-\udfff]`,
    '_(?=x[0-9a-fA-F]{4}_)',
  ].join('|'),
  'g',
);
/** The writer keeps texts under their own words in an object, where these mean something else already. */
const TAKEN = new Set(Object.getOwnPropertyNames(Object.prototype));

/**
 * A text as the format writes it: `_x000D_` for a letter that XML does not hold. Readers give the letter back.
 * @source  ECMA-376 part 1, 22.9.2.19, ST_Xstring
 */
function bookText(whole: string): string {
  const safe = cutTo(whole, MOST_LETTERS).replace(ESCAPED, (found) =>
    found.split('').map(escaped).join(''),
  );
  return TAKEN.has(safe) ? `${escaped(safe.charAt(0))}${safe.slice(1)}` : safe;
}

const escaped = (letter: string) =>
  `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;

/** At most so many letters, never half of a pair; an ellipsis where it was cut. */
export function cutTo(value: string, most: number): string {
  if (value.length <= most) return value;
  return `${value.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}

/** A name within the limits of the format: some letters are kept for formulae, an apostrophe may not stand at an end. */
export function sheetName(title: string): string {
  const name = cutTo(
    title
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what has to go
      .replace(/[[\]/\\:*?\u0000-\u001f\u007f-\u009f\ufffd-\uffff]+/g, ' ')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '')
      .replace(/\s+/g, ' ')
      .replace(/^[' ]+|[' ]+$/g, ''),
    NAME_LETTERS,
  );
  // The format keeps this name for itself.
  return name === '' || /^history$/i.test(name) ? 'Table' : name;
}

/** Room for what stands in a column, within reason. */
const widthOf = (rows: Table['rows']) => (column: Column, at: number) => {
  const letters = rows.slice(0, 200).map((row) => {
    const cell = row[at] ?? null;
    return typeof cell === 'string' ? cell.length : 8;
  });
  const headLetters = Math.min(headOf(column).length, 18);
  return { width: Math.min(60, Math.max(8, headLetters, ...letters) + 2) };
};

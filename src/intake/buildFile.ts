import {
  buildFileInPart,
  type Cell,
  type Layout,
  parseSheet,
  type ReadInPart,
  type Sheet,
  sheetFromTable,
  tableInPart,
} from '../build/index.ts';
import { FormatError, PullbookError } from '../errors.ts';
import { withoutGuard } from '../units/export/csv.ts';
import { splitCells } from './cells.ts';
import { headRecords } from './dialect.ts';
import { shown } from './display.ts';
import { isZip } from './encoding.ts';
import { jsonOf, LARGEST_BY_HAND, wholeText } from './jsonText.ts';
import { allBytes, type OpenedSource, openSource, type RunSource } from './source.ts';
import { dateText, refuseOtherZips } from './spreadsheet.ts';

/**
 * Reads a build sheet: a build file (`.json`, format sheet/1), or the same as a spreadsheet table (`.csv`, `.xlsx`). What
 * it is, its bytes say and not its name.
 * @throws InputError   there is no such file, or it cannot be read
 * @throws FormatError  naming the first field or cell that is wrong and how many more there are; `place.also` has those
 */
export async function readBuildFile(
  source: RunSource,
  options: { readonly fileName: string },
): Promise<Sheet> {
  const { fileName } = options;
  const found = await contentsOf(source, fileName);
  return 'json' in found
    ? parseSheet(found.json, fileName)
    : fromRows(found.rows, found.decimal, fileName);
}

/**
 * Reads the same as far as it can be: what is wrong is told field by field and left out.
 * @param options.standing  layout of the sheet that it goes onto: what the file does not say of it stays
 * @param options.layout    of the engine, where neither says it
 * @throws FormatError  where the file as a whole cannot be read
 */
export async function readBuildFileInPart(
  source: RunSource,
  options: {
    readonly fileName: string;
    readonly standing?: Layout | null;
    readonly layout?: Layout | null;
  },
): Promise<ReadInPart> {
  const found = await contentsOf(source, options.fileName);
  const [standing, layout] = [options.standing ?? null, options.layout ?? null];
  if ('json' in found) return buildFileInPart(found.json, standing ?? layout);
  return tableInPart(found.rows, {
    decimal: found.decimal,
    ...(standing === null ? {} : { standing }),
    ...(layout === null ? {} : { layout }),
  });
}

type Contents =
  | { readonly json: unknown }
  | { readonly rows: readonly (readonly Cell[])[]; readonly decimal: '.' | ',' };

async function contentsOf(source: RunSource, fileName: string): Promise<Contents> {
  const opened = await openSource(source, fileName);
  try {
    if (isZip(opened.head)) return { rows: await workbookRows(opened, fileName), decimal: '.' };
    const text = await wholeText(opened, fileName);
    return /^\s*[{[]/.test(text) ? { json: jsonOf(text, fileName, 'sheet/1') } : textRows(text);
  } finally {
    await opened.close();
  }
}

function fromRows(rows: readonly (readonly Cell[])[], decimal: '.' | ',', fileName: string): Sheet {
  const read = sheetFromTable(rows, { decimal });
  if ('sheet' in read) return read.sheet;
  const [first, ...others] = read.problems;
  const more = others.length === 0 ? '' : ` (and ${others.length} more)`;
  throw new FormatError(`found ${first!.found}; expected ${first!.expected}${more}`, {
    file: fileName,
    line: first!.row,
    column: first!.column,
    found: first!.found,
    expected: first!.expected,
    ...(others.length === 0
      ? {}
      : {
          also: others.map(
            ({ row, column, found, expected }) =>
              `line ${row}, column ${column}: found ${found}; expected ${expected}`,
          ),
        }),
  });
}

/** Rows of delimited text. A decimal comma is taken where cells show it and none shows a point. */
function textRows(text: string): { rows: Cell[][]; decimal: '.' | ',' } {
  const records = headRecords(text, text.includes('\n') ? '\n' : '\r', true);
  const count = (mark: string) =>
    records.reduce((sum, record) => sum + splitCells(record.text, mark).length - 1, 0);
  const [delimiter] = (['\t', ';', ','] as const)
    .map((mark) => [mark, count(mark)] as const)
    .reduce((best, one) => (one[1] > best[1] ? one : best));
  const rows: Cell[][] = [];
  for (const record of records) {
    // Rows are those of the file, also behind a cell that runs over several lines.
    while (rows.length < record.line - 1) rows.push([]);
    rows.push(splitCells(record.text, delimiter).map((cell) => withoutGuard(String(cell))));
  }
  const cells = rows.flat().map(String);
  const isComma =
    delimiter !== ',' &&
    cells.some((cell) => /^[+-]?\d+,\d+(?:\s|$)/.test(cell)) &&
    !cells.some((cell) => /^[+-]?\d+\.\d+(?:\s|$)/.test(cell));
  return { rows, decimal: isComma ? ',' : '.' };
}

/** Rows of the first page of a workbook that holds anything. */
async function workbookRows(opened: OpenedSource, fileName: string): Promise<Cell[][]> {
  const bytes = await allBytes(opened, fileName, LARGEST_BY_HAND);
  refuseOtherZips(bytes, fileName);
  let pages: { data: (Cell | Date)[][] }[];
  try {
    // Loaded for a workbook and not before, here as elsewhere: few files are one.
    const { default: readWorkbook } = await import('read-excel-file/node');
    pages = (await readWorkbook(Buffer.from(bytes))) as unknown as typeof pages;
  } catch (error) {
    if (error instanceof PullbookError) throw error;
    throw new FormatError(
      'the spreadsheet is damaged or of a kind that cannot be read: save it again as .xlsx, or as text',
      { file: fileName, found: shown(error instanceof Error ? error.message : String(error), 120) },
      error,
    );
  }
  const page = pages.find(({ data }) => data.length > 0) ?? pages[0];
  return (page?.data ?? []).map((row) =>
    row.map((cell) => (cell instanceof Date ? dateText(cell).slice(0, 10) : cell)),
  );
}

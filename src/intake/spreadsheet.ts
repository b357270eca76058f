import { unzipSync } from 'fflate';
import { FormatError, PullbookError } from '../errors.ts';
import { quoted, shown } from './display.ts';
import { allBytes, type OpenedSource, openSource } from './source.ts';
import { readText } from './text.ts';
import type { RawTable, ReadOptions } from './types.ts';

/** A spreadsheet is read whole, so what it unpacks to is bounded: 64 MB packed, 512 MB of XML. */
const LARGEST_PACKED = 64e6;
const LARGEST_UNPACKED = 512e6;

type Cell = string | number | boolean | Date | null;

/**
 * The page of a workbook that holds the run. Line numbers in messages are the sheet's rows.
 * @throws FormatError  no workbook, no such page, or no table in it
 */
export async function readSpreadsheet(
  opened: OpenedSource,
  options: ReadOptions,
): Promise<RawTable> {
  const { fileName } = options;
  const bytes = await allBytes(opened, fileName, LARGEST_PACKED);
  refuseOtherZips(bytes, fileName);
  let pages: { sheet: string; data: Cell[][] }[];
  try {
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
  const page = choosePage(pages, options);
  const text = page.data.map((row) => row.map(cellText).join('\t')).join('\n');
  const asText = await openSource(new TextEncoder().encode(`${text}\n`), fileName);
  const table = await readText(asText, options, { delimiter: '\t', decimal: '.' });
  const warnings =
    pages.length > 1 && options.sheet === undefined
      ? [`The workbook has ${pages.length} pages: ${quoted(page.sheet)} was read.`]
      : [];
  return {
    ...table,
    format: 'spreadsheet',
    delimiter: null,
    warnings: [...warnings, ...table.warnings],
  };
}

export function refuseOtherZips(bytes: Uint8Array, fileName: string): void {
  let unpacked = 0;
  let isWorkbook = false;
  try {
    unzipSync(bytes, {
      filter: (entry) => {
        unpacked += entry.originalSize;
        if (entry.name === 'xl/workbook.xml') isWorkbook = true;
        return false;
      },
    });
  } catch (error) {
    throw new FormatError(
      'the file begins like a spreadsheet but is damaged or cut short: save or copy it again',
      { file: fileName, found: 'a broken zip archive', expected: 'a whole .xlsx' },
      error,
    );
  }
  if (!isWorkbook)
    throw new FormatError(
      'the file is binary (a zip archive without a workbook), not a table: unpack it, and drop the run file itself',
      {
        file: fileName,
        line: 1,
        found: 'a zip archive',
        expected: 'delimited text, .xlsx or Parquet',
      },
    );
  if (unpacked > LARGEST_UNPACKED)
    throw new FormatError(
      `the spreadsheet unpacks to more than ${LARGEST_UNPACKED / 1e6} MB: export the run as text, which is read in any length`,
      { file: fileName, found: `${Math.round(unpacked / 1e6)} MB` },
    );
}

function choosePage<Page extends { sheet: string; data: Cell[][] }>(
  pages: readonly Page[],
  options: ReadOptions,
): Page {
  const { sheet, fileName } = options;
  const names = pages.map((page) => page.sheet).join(', ');
  if (sheet !== undefined) {
    const wanted =
      typeof sheet === 'number' ? pages[sheet - 1] : pages.find((page) => page.sheet === sheet);
    if (wanted !== undefined) return wanted;
    throw new FormatError(`the workbook has no page ${quoted(String(sheet))}`, {
      file: fileName,
      found: shown(names, 120),
      expected: shown(String(sheet), 80),
    });
  }
  const rowsOfNumbers = (page: Page) =>
    page.data.filter((row) => row.filter((cell) => typeof cell === 'number').length >= 2).length;
  const table = pages.find((page) => rowsOfNumbers(page) >= 2);
  const first = table ?? pages[0];
  if (first === undefined || first.data.length === 0)
    throw new FormatError('the spreadsheet is empty: no page holds a table', {
      file: fileName,
      found: shown(names, 120),
      expected: 'a header and rows of a run',
    });
  return first;
}

/** A cell as the text reader takes it; a line break in a header becomes a space. */
function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (cell instanceof Date) return dateText(cell);
  const text = cell.replace(/\s+/g, ' ');
  return text.includes('"') ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A cell that holds a time of day alone counts from the calendar's zero, around the turn of 1899. */
export function dateText(date: Date): string {
  if (Number.isNaN(date.getTime())) return '';
  const iso = date.toISOString();
  return date.getUTCFullYear() <= 1900 ? iso.slice(11, 23) : iso.slice(0, 23);
}

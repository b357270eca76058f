import { FormatError } from '../errors.ts';
import type { Dialect } from './cells.ts';
import { headRecords } from './dialect.ts';
import { quoted } from './display.ts';
import { asBytes, decoderFor, sniffEncoding } from './encoding.ts';
import { findLayout } from './layout.ts';
import { RowScanner } from './scan.ts';
import type { OpenedSource } from './source.ts';
import { ColumnStore } from './store.ts';
import { MAX_VALUES, type RawTable, type ReadOptions } from './types.ts';

const KINDS = ['number', 'clock', 'text'] as const;

/**
 * Delimited text of any dialect into columns of numbers, in one pass and bounded memory.
 * @throws FormatError  naming file, line and column of what is wrong
 */
export async function readText(
  opened: OpenedSource,
  options: ReadOptions,
  known?: Dialect,
): Promise<RawTable> {
  const { fileName } = options;
  const guess = sniffEncoding(opened.head, fileName, opened.whole);
  const decoder = decoderFor(guess.encoding);
  const headBytes = await firstBytes(opened, guess);
  const headText = decoder.decode(headBytes);
  const terminator = headText.includes('\n') ? '\n' : '\r';
  const layout = findLayout(headRecords(headText, terminator, opened.whole), fileName, known);

  const width = layout.headers.length;
  const bytesPerRow =
    headBytes.length / Math.max(1, count(headText, terminator) - layout.linesBefore + 1);
  const expectedRows =
    opened.totalBytes === null ? 4096 : Math.ceil((opened.totalBytes / bytesPerRow) * 1.02) + 16;
  const store = new ColumnStore(width, expectedRows, options.maxValues ?? MAX_VALUES);
  const dayFirst =
    options.dayFirst ??
    (typeof layout.dayFirst === 'boolean' ? layout.dayFirst : layout.dialect.decimal === ',');
  const scanner = new RowScanner(layout, store, decoder, terminator, dayFirst, fileName);

  let done = 0;
  const counted = async function* () {
    for await (const chunk of opened.chunks()) {
      options.signal?.throwIfAborted();
      done += chunk.length;
      yield chunk;
    }
  };
  for await (const bytes of asBytes(counted(), guess)) {
    scanner.feed(bytes);
    options.onProgress?.(done, opened.totalBytes);
  }
  scanner.finish();
  if (store.rows === 0 && store.every === 1)
    throw new FormatError('the file is not a run file: no row of numbers could be read', {
      file: fileName,
      line: layout.linesBefore + 1,
      expected: 'rows of numbers',
    });
  const every = store.every;
  const { columns, lineOfRow } = store.finish();
  const warnings = [...layout.warnings];
  if (every > 1)
    warnings.push(
      `The file is too long to hold in memory: each ${every} neighbouring rows were averaged into one, so ${lineOfRow.length} rows stand for about ${lineOfRow.length * every}. Peaks shorter than that, knock counts among them, are flattened.`,
    );
  for (const [column, filler] of store.fillers.entries())
    if (!Number.isNaN(filler))
      warnings.push(
        `${quoted(layout.headers[column]!)} holds the filler ${filler}: taken as missing.`,
      );
  if (scanner.otherTableLine !== null)
    warnings.push(
      `Another table, of other columns, stands from line ${scanner.otherTableLine} on: it was not read.`,
    );
  if (scanner.notes.length > 0)
    warnings.push(
      `${scanner.notes.length === 1 ? 'Line' : 'Lines'} ${scanner.notes
        .slice(0, 5)
        .map((note) => note.line)
        .join(
          ', ',
        )}${scanner.notes.length > 5 ? ' and more' : ''} ${scanner.notes.length === 1 ? 'holds' : 'hold'} words, not a row of the table, and ${scanner.notes.length === 1 ? 'is' : 'are'} kept as notes.`,
    );
  return {
    format: 'delimited text',
    delimiter: layout.dialect.delimiter,
    headerLine: layout.headerLine,
    headers: layout.headers,
    unitRow: layout.unitRow,
    unitLine: layout.unitLine,
    columns: columns.map((values, column) => ({ kind: KINDS[scanner.kinds[column]!]!, values })),
    rows: lineOfRow.length,
    lineOfRow,
    notes: [...layout.notes, ...scanner.notes],
    warnings,
    dayMonthOpen: layout.dayFirst === null && options.dayFirst === undefined,
  };
}

/** The head as ASCII-compatible bytes. */
async function firstBytes(
  opened: OpenedSource,
  guess: ReturnType<typeof sniffEncoding>,
): Promise<Uint8Array> {
  const only = (async function* () {
    yield opened.head;
  })();
  const parts: Uint8Array[] = [];
  for await (const part of asBytes(only, guess)) parts.push(part);
  return Buffer.concat(parts);
}

function count(text: string, mark: string): number {
  let times = 0;
  for (let at = text.indexOf(mark); at !== -1; at = text.indexOf(mark, at + 1)) times++;
  return times;
}

import { open } from 'node:fs/promises';
import { type AsyncBuffer, parquetMetadataAsync, parquetRead, parquetSchema } from 'hyparquet';
import { compressors } from 'hyparquet-compressors';
import { FormatError, PullbookError } from '../errors.ts';
import { cellNumber } from './cells.ts';
import { clockSeconds } from './clock.ts';
import { shown } from './display.ts';
import { allBytes, type OpenedSource } from './source.ts';
import { ColumnStore } from './store.ts';
import { MAX_VALUES, MOST_COLUMNS, type RawTable, type ReadOptions } from './types.ts';

/** Bytes that arrive as a stream are held whole, as a Parquet file is read from its end. */
const LARGEST_IN_MEMORY = 200e6;
/** Values decoded at a time. */
const BATCH_VALUES = 4_000_000;

type Kind = 'number' | 'clock' | 'text';

/**
 * A flat Parquet file's columns, row group by row group.
 * @throws FormatError  damaged, nested, or packed in a way that is not known
 */
export async function readParquet(
  opened: OpenedSource,
  path: string | null,
  options: ReadOptions,
): Promise<RawTable> {
  const { fileName } = options;
  if (path === null) {
    const bytes = await allBytes(opened, fileName, LARGEST_IN_MEMORY);
    return guarded(fileName, () => readFrom(bufferOf(bytes), options));
  }
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    const buffer: AsyncBuffer = {
      byteLength: size,
      slice: async (start, end = size) => {
        const part = new Uint8Array(Math.max(0, end - start));
        await file.read(part, 0, part.length, start);
        return part.buffer;
      },
    };
    return await guarded(fileName, () => readFrom(buffer, options));
  } finally {
    await file.close();
  }
}

function bufferOf(bytes: Uint8Array): AsyncBuffer {
  return {
    byteLength: bytes.length,
    // Not bytes.slice: a Buffer's would be a view of a larger pool.
    slice: (start, end) => new Uint8Array(bytes.subarray(start, end)).buffer,
  };
}

async function guarded<T>(fileName: string, read: () => Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    if (error instanceof PullbookError || (error instanceof Error && error.name === 'AbortError'))
      throw error;
    throw new FormatError(
      'the Parquet file is damaged, cut short, or packed in a way that is not known',
      {
        file: fileName,
        found: shown(error instanceof Error ? error.message : String(error), 120),
        expected: 'a whole, flat Parquet file',
      },
      error,
    );
  }
}

async function readFrom(file: AsyncBuffer, options: ReadOptions): Promise<RawTable> {
  const { fileName } = options;
  const metadata = await parquetMetadataAsync(file);
  const flat = parquetSchema(metadata).children.filter((child) => child.children.length === 0);
  const headers = flat.map((child) => child.element.name);
  const rows = Number(metadata.num_rows);
  if (rows === 0 || headers.length === 0 || headers.length > MOST_COLUMNS)
    throw new FormatError('the file is not a run file: it holds no table of numbers', {
      file: fileName,
      found: `${rows} rows of ${headers.length} columns`,
      expected: 'rows of a run',
    });
  const width = headers.length;
  const store = new ColumnStore(width, rows, options.maxValues ?? MAX_VALUES);
  const kinds: (Kind | null)[] = headers.map(() => null);
  const batchRows = Math.max(1024, Math.floor(BATCH_VALUES / width));
  let groupStart = 0;
  for (const group of metadata.row_groups) {
    const groupEnd = groupStart + Number(group.num_rows);
    for (let from = groupStart; from < groupEnd; from += batchRows) {
      options.signal?.throwIfAborted();
      const to = Math.min(groupEnd, from + batchRows);
      const block = await readBatch(file, metadata, headers, from, to, kinds, options);
      store.append(block, to - from, to - from, new Uint32Array(to - from));
      options.onProgress?.(Math.round((to / rows) * file.byteLength), file.byteLength);
    }
    groupStart = groupEnd;
  }
  const every = store.every;
  const { columns } = store.finish();
  const kept = columns[0]!.length;
  return {
    format: 'parquet',
    delimiter: null,
    headerLine: null,
    headers,
    unitRow: null,
    unitLine: null,
    columns: columns.map((values, column) => ({ kind: kinds[column] ?? 'number', values })),
    rows: kept,
    lineOfRow: new Uint32Array(0),
    notes: [],
    warnings:
      every > 1
        ? [
            `The file is too long to hold in memory: each ${every} neighbouring rows were averaged into one. Peaks shorter than that are flattened.`,
          ]
        : [],
    dayMonthOpen: false,
  };
}

async function readBatch(
  file: AsyncBuffer,
  metadata: Awaited<ReturnType<typeof parquetMetadataAsync>>,
  headers: readonly string[],
  from: number,
  to: number,
  kinds: (Kind | null)[],
  options: ReadOptions,
): Promise<Float64Array> {
  const count = to - from;
  const block = new Float64Array(headers.length * count).fill(Number.NaN);
  const columnOf = new Map(headers.map((header, column) => [header, column]));
  await parquetRead({
    file,
    metadata,
    columns: [...headers],
    rowStart: from,
    rowEnd: to,
    compressors,
    onChunk: ({ columnName, columnData, rowStart, rowEnd }) => {
      const column = columnOf.get(columnName);
      if (column === undefined) return;
      const first = Math.max(from, rowStart);
      const last = Math.min(to, rowEnd);
      for (let row = first; row < last; row++) {
        const cell: unknown = columnData[row - rowStart];
        kinds[column] ??= kindOf(cell);
        block[column * count + row - from] = numberOf(cell, options.dayFirst ?? false);
      }
    },
  });
  return block;
}

function kindOf(cell: unknown): Kind | null {
  if (cell === null || cell === undefined) return null;
  if (cell instanceof Date) return 'clock';
  if (typeof cell !== 'string') return typeof cell === 'object' ? 'text' : 'number';
  if (cellNumber(cell.trim(), '.') !== undefined) return 'number';
  return Number.isNaN(clockSeconds(cell.trim(), false)) ? 'text' : 'clock';
}

function numberOf(cell: unknown, dayFirst: boolean): number {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : Number.NaN;
  if (typeof cell === 'bigint') return Number(cell);
  if (typeof cell === 'boolean') return cell ? 1 : 0;
  if (cell instanceof Date) return cell.getTime() / 1000;
  if (typeof cell !== 'string') return Number.NaN;
  const text = cell.trim();
  return cellNumber(text, '.') ?? clockSeconds(text, dayFirst);
}

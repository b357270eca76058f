import { parquetWriteBuffer } from 'hyparquet-writer';
import type { Cell, Column, Table } from './table.ts';

const TYPES = { number: 'DOUBLE', integer: 'INT32', string: 'STRING', boolean: 'BOOLEAN' } as const;

/** A table as Parquet; titles and units stand in its key-value metadata, as JSON under `columns`. */
export function parquetOf({ name, title, columns, rows }: Table): Uint8Array {
  const about = columns.map(({ name, title, unit }) => ({ name, title, unit }));
  const buffer = parquetWriteBuffer({
    columnData: columns.map((column, at) => ({
      name: column.name,
      type: TYPES[column.type],
      nullable: true,
      data: rows.map((row) => stored(row[at] ?? null, column)),
    })),
    kvMetadata: [
      { key: 'table', value: name },
      { key: 'title', value: title },
      { key: 'columns', value: JSON.stringify(about) },
    ],
    createdBy: 'Pullbook',
  });
  return new Uint8Array(buffer);
}

function stored(cell: Cell, { type }: Column): Cell {
  if (cell === null || (typeof cell === 'number' && !Number.isFinite(cell))) return null;
  return type === 'string' ? String(cell) : cell;
}

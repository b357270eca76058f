import { parquetWriteBuffer } from 'hyparquet-writer';
import { type About, type Cell, type Column, symbolOf, type Table } from './table.ts';

const TYPES = { number: 'DOUBLE', integer: 'INT32', string: 'STRING', boolean: 'BOOLEAN' } as const;

/**
 * A table as Parquet. Its title and what is said about it stand in the key-value metadata; under `columns`, as JSON, the
 * title and the unit of each (`unit` by UCUM, `symbol` as people write it).
 */
export function parquetOf(
  { name, title, columns, rows }: Table,
  about: readonly About[] = [],
): Uint8Array {
  const described = columns.map((column) => {
    const { name, title, unit, note } = column;
    return { name, title, unit, symbol: symbolOf(column), ...(note === undefined ? {} : { note }) };
  });
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
      { key: 'columns', value: JSON.stringify(described) },
      ...about.map(([key, value]) => ({ key, value })),
    ],
    createdBy: 'Pullbook',
  });
  return new Uint8Array(buffer);
}

function stored(cell: Cell, { type }: Column): Cell {
  if (cell === null || (typeof cell === 'number' && !Number.isFinite(cell))) return null;
  return type === 'string' ? String(cell) : cell;
}

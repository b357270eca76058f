import { csvText } from '../../src/units/export/csv.ts';
import { eachOnce, nameFor, shownNumbers } from '../../src/units/export/shown.ts';
import {
  type About,
  type Cell,
  type Column,
  headOf,
  mixed,
  type Table,
  words,
  yesOrNo,
} from '../../src/units/export/table.ts';
import { fileName, handToPerson } from '../charts/save.ts';
import type { ModelCell, ModelColumn, TableModel } from './model.ts';

/** What a table can be taken as, with what a person calls it. */
export const TAKEN_AS = { csv: 'CSV', xlsx: 'Spreadsheet (.xlsx)', parquet: 'Parquet' } as const;
export type TakenAs = keyof typeof TAKEN_AS;

/** A table on screen as it leaves: an interval in two columns, each number whole, each column with its unit. */
export function leavingTable(title: string, { columns, rows }: TableModel): Table {
  const made = columns.map((column, at) => leaving(column, (row) => rows[row]![at] ?? null));
  return {
    name: nameFor(title),
    title,
    description: 'As on screen, in the units shown there; numbers at full precision.',
    columns: eachOnce(made.flatMap(({ columns }) => columns)),
    rows: rows.map((_, row) => made.flatMap(({ cells }) => cells(row))),
  };
}

function leaving(
  column: ModelColumn,
  at: (row: number) => ModelCell,
): { readonly columns: readonly Column[]; readonly cells: (row: number) => readonly Cell[] } {
  const { title, kind } = column;
  const named = (made: Column): Column => ({
    ...made,
    ...(column.note === undefined ? {} : { note: column.note }),
  });
  switch (kind) {
    case 'words':
      return {
        columns: [named(words(nameFor(title), title))],
        cells: (row) => [textOf(at(row))],
      };
    case 'yesNo':
      return {
        columns: [named(yesOrNo(nameFor(title), title))],
        cells: (row) => [at(row) as boolean | null],
      };
    case 'range':
      return {
        columns: ['low', 'high'].map((end) =>
          named(numbersOf({ ...column, title: `${title} (${end})` })),
        ),
        cells: (row) => {
          const cell = at(row);
          return typeof cell === 'object' && cell !== null ? [cell.low, cell.high] : [null, null];
        },
      };
    default:
      return {
        columns: [named(numbersOf(column))],
        cells: (row) => [at(row) as number | null],
      };
  }
}

const numbersOf = ({ unit, ...column }: ModelColumn): Column =>
  unit === null
    ? { ...mixed(nameFor(column.title), column.title), note: 'in the unit of its row' }
    : shownNumbers({ ...column, unit });

const textOf = (cell: ModelCell): string | null =>
  cell === null || cell === '' ? null : String(cell);

/** The bytes of a table. What only a workbook or Parquet needs is fetched when it is asked for. */
export async function takenBytes(
  table: Table,
  as: TakenAs,
  about: readonly About[],
): Promise<{ readonly bytes: BlobPart; readonly type: string }> {
  switch (as) {
    case 'csv':
      return {
        bytes: csvText([table.columns.map(headOf), ...table.rows]),
        type: 'text/csv;charset=utf-8',
      };
    case 'xlsx': {
      const { XLSX_TYPE, xlsxOf } = await import('../../src/units/export/xlsx.ts');
      return { bytes: plainBuffer(await xlsxOf(table, about)), type: XLSX_TYPE };
    }
    case 'parquet': {
      const { parquetOf } = await import('../../src/units/export/parquet.ts');
      return {
        bytes: plainBuffer(parquetOf(table, about)),
        type: 'application/vnd.apache.parquet',
      };
    }
  }
}

const plainBuffer = (bytes: Uint8Array) => bytes as Uint8Array<ArrayBuffer>;

/** Makes the file and gives it to the person, named by what it shows. */
export async function takeTable(
  title: string,
  model: TableModel,
  as: TakenAs,
  { about, place }: { readonly about: readonly About[]; readonly place: string },
): Promise<void> {
  const { bytes, type } = await takenBytes(leavingTable(title, model), as, about);
  handToPerson(new Blob([bytes], { type }), fileName({ title, scenario: place }, as));
}

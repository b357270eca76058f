/** A table as the file that was asked for. */
import { csvOf } from '../../units/export/csv.ts';
import { parquetOf } from '../../units/export/parquet.ts';
import type { About, Table } from '../../units/export/table.ts';
import { XLSX_TYPE, xlsxOf } from '../../units/export/xlsx.ts';

export type TakenAs = 'csv' | 'xlsx' | 'parquet';

export interface TableFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
}

/** @param csv  how it is written as CSV, where not with the names of its columns */
export async function tableFile(
  table: Table,
  as: TakenAs,
  about: readonly About[],
  csv: (table: Table) => string = (one) => `\ufeff${csvOf(one)}`,
): Promise<TableFile> {
  switch (as) {
    case 'parquet':
      return {
        bytes: parquetOf(table, about) as Uint8Array<ArrayBuffer>,
        type: 'application/vnd.apache.parquet',
      };
    case 'xlsx':
      return { bytes: (await xlsxOf(table, about)) as Uint8Array<ArrayBuffer>, type: XLSX_TYPE };
    default:
      return { bytes: new TextEncoder().encode(csv(table)), type: 'text/csv; charset=utf-8' };
  }
}

import { csvLines } from '../../units/export/csv.ts';
import { shownNumbers } from '../../units/export/shown.ts';
import type { Cell, Table } from '../../units/export/table.ts';
import type { TableRow } from './types.ts';

/** A table as it stands in a file: one row a speed, and where there are several loads a block of rows a load. */
export interface TableBlock {
  /** Null: full throttle, and the only one. */
  readonly loadPercent: number | null;
  readonly rows: readonly TableRow[];
}

/**
 * The tables of lead and lambda as one that leaves: in the trade's units, rounded as a controller's table is typed.
 *
 * @param afr  air to fuel of the fuel burnt at lambda 1, and its name; null: no such column
 */
export function speedTable(
  blocks: readonly TableBlock[],
  afr: { readonly fuel: string; readonly stoichiometricAfr: number } | null,
): Table {
  const byLoad = blocks.some(({ loadPercent }) => loadPercent !== null);
  const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals));
  return {
    name: 'lead-and-lambda',
    title: 'Lead and lambda by speed',
    description: 'What to leave in the engine, one row a speed.',
    columns: [
      ...(byLoad ? [shownNumbers({ title: 'load', unit: '%' })] : []),
      shownNumbers({ title: 'engine speed', unit: 'rpm' }),
      shownNumbers({ title: 'spark lead', unit: '°', note: 'degrees before top centre' }),
      shownNumbers({ title: 'lambda', unit: '', decimals: 3 }),
      ...(afr === null
        ? []
        : [shownNumbers({ title: 'air to fuel by mass', unit: '', decimals: 2, note: afr.fuel })]),
    ],
    rows: blocks.flatMap(({ loadPercent, rows }) =>
      rows.map((row): Cell[] => [
        ...(byLoad ? [loadPercent ?? 100] : []),
        row.speedRpm,
        rounded(row.leadDeg, 2),
        rounded(row.lambda, 3),
        ...(afr === null ? [] : [rounded(row.lambda * afr.stoichiometricAfr, 2)]),
      ]),
    ),
  };
}

/**
 * Such a table as plain CSV (RFC 4180): commas, decimal points, units in the header, so that any spreadsheet opens it and
 * any controller's table can be typed or pasted from it.
 */
export function speedTableCsv({ columns, rows }: Table): string {
  const heads = columns.map(({ title, unit, symbol, note }) => {
    const inWords =
      symbol === '°' ? note : [symbol || (unit ?? '1'), note].filter(Boolean).join('; ');
    return `${title} (${inWords})`;
  });
  const texts = rows.map((row) =>
    row.map((cell, at) => {
      const { decimals } = columns[at]!;
      return typeof cell === 'number' && decimals !== undefined ? cell.toFixed(decimals) : cell;
    }),
  );
  return csvLines([heads, ...texts]);
}

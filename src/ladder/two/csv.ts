import type { TableRow } from './types.ts';

/** A table as it stands in a CSV file: one row a speed, and where there are several loads a block of rows a load. */
export interface TableBlock {
  /** Null: full throttle, and the only one. */
  readonly loadPercent: number | null;
  readonly rows: readonly TableRow[];
}

/**
 * The tables as plain CSV (RFC 4180): commas, decimal points, units in the header, so that any spreadsheet opens it and
 * any controller's table can be typed or pasted from it.
 *
 * @param afr  air to fuel of the fuel burnt at lambda 1, and its name; null: no such column
 */
export function tableCsv(
  blocks: readonly TableBlock[],
  afr: { readonly fuel: string; readonly stoichiometricAfr: number } | null,
): string {
  const byLoad = blocks.some(({ loadPercent }) => loadPercent !== null);
  const header = [
    ...(byLoad ? ['load (%)'] : []),
    'engine speed (rpm)',
    'spark lead (degrees before top centre)',
    'lambda (1)',
    ...(afr === null ? [] : [`air to fuel by mass (1; ${afr.fuel})`]),
  ];
  const lines = blocks.flatMap(({ loadPercent, rows }) =>
    rows.map((row) => [
      ...(byLoad ? [String(loadPercent ?? 100)] : []),
      String(row.speedRpm),
      String(Number(row.leadDeg.toFixed(2))),
      row.lambda.toFixed(3),
      ...(afr === null ? [] : [(row.lambda * afr.stoichiometricAfr).toFixed(2)]),
    ]),
  );
  return [header, ...lines].map((line) => `${line.map(field).join(',')}\r\n`).join('');
}

const field = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

import { exampleOf } from '../../units/index.ts';
import type { TableSpec } from '../sections/field.ts';
import { checkProvenance } from './entry.ts';
import { expectedValue, isGood } from './good.ts';
import { isPlain, oneOf, type Problems, unknownKeys } from './shape.ts';
import type { Table } from './types.ts';
import { unitOfField } from './units.ts';

/** A sheet's table is typed by hand; longer ones are recordings that went astray. */
const MOST_ROWS = 1000;

/** A free table; null where it was wrong, which has then been reported. */
export function readTable(
  spec: TableSpec,
  given: unknown,
  path: string,
  problems: Problems,
): Table | null {
  if (!isPlain(given) || !Array.isArray(given.rows)) {
    problems.add(path, given, 'an object with "units" and "rows", a list');
    return null;
  }
  const rows = given.rows as unknown[];
  let fine = true;
  const refuse = (at: string, found: unknown, expected: string) => {
    fine = false;
    problems.add(at, found, expected);
  };
  unknownKeys(given, ['units', 'rows', 'by', 'with', 'on', 'note'], path, { add: refuse });
  const units = given.units ?? {};
  if (!isPlain(units)) refuse(`${path}.units`, units, 'an object with a unit a column');
  else
    unknownKeys(
      units,
      spec.columns.map((column) => column.id),
      `${path}.units`,
      { add: refuse },
    );
  if (rows.length > MOST_ROWS)
    refuse(`${path}.rows`, `a list of ${rows.length}`, `at most ${MOST_ROWS} rows`);
  const unitOf = (id: string) => (isPlain(units) ? units[id] : undefined);
  for (const column of spec.columns) {
    if (column.kind !== 'quantity') {
      if (unitOf(column.id) !== undefined)
        refuse(`${path}.units.${column.id}`, unitOf(column.id), 'no unit: this column has none');
      continue;
    }
    const isUsed = rows.some((row) => isPlain(row) && typeof row[column.id] === 'number');
    const unit = unitOf(column.id);
    const isKnown = typeof unit === 'string' && unitOfField(column, unit) !== undefined;
    if ((isUsed || unit !== undefined) && !isKnown)
      refuse(`${path}.units.${column.id}`, unit, `a unit, as in ${exampleOf(column.dimension!)}`);
  }
  rows.slice(0, MOST_ROWS).forEach((row, i) => {
    const at = `${path}.rows[${i}]`;
    if (!isPlain(row)) {
      refuse(at, row, `an object with ${oneOf(spec.columns.map((column) => column.id))}`);
      return;
    }
    unknownKeys(
      row,
      spec.columns.map((column) => column.id),
      at,
      { add: refuse },
    );
    for (const column of spec.columns) {
      const cell = row[column.id];
      if (cell !== undefined && cell !== null && !isGood(column, cell, unitOf(column.id)))
        refuse(`${at}.${column.id}`, cell, `${expectedValue(column, unitOf(column.id))}, or null`);
    }
  });
  checkProvenance(given, path, { add: refuse });
  return fine ? (given as unknown as Table) : null;
}

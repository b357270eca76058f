/** The tables of a build sheet as tables that leave: what stands on it, what follows, its windows, its plan. */

import {
  type Check,
  type Entry,
  type FieldSpec,
  type Figure,
  isEach,
  type Place,
  type Provenance,
  placeLabels,
  type SectionSpec,
  type Sheet,
  type Table,
  type TableSpec,
} from '../../src/build/index.ts';
import type { PlanTable } from '../../src/build/plan/types.ts';
import {
  type DisplayKind,
  displayUnit,
  fromInside,
  type UnitSystem,
} from '../../src/units/index.ts';
import {
  type ColumnOf,
  numberColumn,
  quantityColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { eachAt, entryAt } from './edit.ts';

/** How inside values of a kind leave: the symbol of their unit, and the number in it; of a difference the zero plays no part. */
export function leavingAs(kind: DisplayKind | null, units: UnitSystem, isDifference = false) {
  if (kind === null) return { symbol: '1', of: (value: number) => value };
  const unit = displayUnit(kind, units);
  const of = (value: number) => (isDifference ? value / unit.factor : fromInside(value, unit));
  return { symbol: unit.symbol, of };
}

const aboutColumns = <Row>(of: (row: Row) => Provenance): ColumnOf<Row>[] => [
  wordsColumn('By', (row) => of(row).by),
  wordsColumn('With', (row) => of(row).with),
  wordsColumn('On', (row) => of(row).on),
  wordsColumn('Note', (row) => of(row).note),
];

const wordOf = (value: number | string | boolean | null | undefined): string | null =>
  value === null || value === undefined || typeof value === 'number'
    ? null
    : typeof value === 'boolean'
      ? value
        ? 'yes'
        : 'no'
      : value;

/** What stands once in a section: each value as it was typed, in its own unit. */
export function ledgerTable(section: SectionSpec, sheet: Sheet): TableModel {
  const lines = section.fields.flatMap((field) => {
    const entry = entryAt(sheet, `${section.id}.${field.id}`);
    return field.per !== undefined || (entry !== undefined && isEach(entry))
      ? []
      : [{ field, entry: (entry ?? {}) as Partial<Entry> }];
  });
  return tableFrom(lines, [
    wordsColumn('Field', ({ field }) => field.label),
    numberColumn('Value', null, ({ entry: { value } }) =>
      typeof value === 'number' ? value : null,
    ),
    wordsColumn('In words', ({ entry }) => wordOf(entry.value)),
    wordsColumn('Unit', ({ entry }) => entry.unit),
    numberColumn('Plus or minus', null, ({ entry }) => entry.plusMinus),
    ...aboutColumns<(typeof lines)[number]>(({ entry }) => entry),
  ]);
}

/** What a section measures place by place, a row a place, each column in the unit that it was typed in. */
export function placesTable(
  columns: readonly {
    readonly field: FieldSpec;
    readonly unit?: string | undefined;
    readonly each: readonly (number | null)[];
  }[],
  { per, title, sheet }: { readonly per: Place; readonly title: string; readonly sheet: Sheet },
): TableModel {
  return tableFrom(placeLabels(per, sheet.layout), [
    wordsColumn(title, (label) => label),
    ...columns.map(({ field, unit, each }) =>
      numberColumn<string>(field.label, unit ?? '', (_, row) => each[row]),
    ),
  ]);
}

/** The same as it stands on paper. */
export const placesOnPaper = (
  section: SectionSpec,
  per: Place,
  title: string,
  sheet: Sheet,
): TableModel =>
  placesTable(
    section.fields.flatMap((field) => {
      const path = `${section.id}.${field.id}`;
      const entry = entryAt(sheet, path);
      return field.per !== per || entry === undefined
        ? []
        : [{ field, unit: entry.unit, each: eachAt(sheet, path) }];
    }),
    { per, title, sheet },
  );

/** A free table, row by row, each column in the unit that it was typed in. */
export const freeTable = (
  spec: TableSpec,
  table: Table,
  unitOf: (column: FieldSpec) => string | undefined,
): TableModel =>
  tableFrom(
    table.rows,
    spec.columns.map((column): ColumnOf<Table['rows'][number]> => {
      if (column.kind === 'quantity' || column.kind === 'number')
        return numberColumn(column.label, unitOf(column) ?? '', (row) => {
          const cell = row[column.id];
          return typeof cell === 'number' ? cell : null;
        });
      return wordsColumn(column.label, (row) => {
        const cell = row[column.id];
        return typeof cell === 'number' ? String(cell) : wordOf(cell);
      });
    }),
  );

/** Checks and figures: value, half of its interval and window in the unit of the row. */
export function followsTable(answers: readonly (Check | Figure)[], units: UnitSystem): TableModel {
  const of = (one: Figure, value: number | null | undefined, isDifference = one.isDifference) =>
    value === null || value === undefined
      ? null
      : leavingAs(one.shown, units, isDifference).of(value);
  const windowOf = (one: Check | Figure) => ('window' in one ? one.window : null);
  return tableFrom(answers, [
    wordsColumn('What follows', ({ label }) => label),
    wordsColumn('Verdict', (one) => ('verdict' in one ? one.verdict : null)),
    numberColumn('Value', null, (one) => of(one, one.value)),
    numberColumn('Half of its 95 % interval', null, (one) => of(one, one.plusMinus, true)),
    wordsColumn('By place', (one) =>
      one.each?.map((value) => of(one, value) ?? 'not known').join('; '),
    ),
    wordsColumn('Unit', ({ shown }) => leavingAs(shown, units).symbol),
    rangeColumn('Window', null, (one) => {
      const window = windowOf(one);
      return window === null ? null : { low: of(one, window.low), high: of(one, window.high) };
    }),
    wordsColumn('Where the window comes from', (one) => windowOf(one)?.source),
    wordsColumn('What would bring it right', (one) => ('remedy' in one ? one.remedy : null)),
    wordsColumn('How it comes about', ({ how }) => how),
    wordsColumn('Why it cannot be', ({ problem }) => problem),
  ]);
}

/** A table inside an item of a test plan. */
export const planItemTable = ({ columns, rows }: PlanTable, units: UnitSystem): TableModel =>
  tableFrom(
    rows,
    columns.map(({ label, shown }, at) =>
      quantityColumn<readonly number[]>(label, shown, units, (row) => row[at]),
    ),
  );

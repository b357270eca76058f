import type { DisplayKind } from '../../units/display.ts';
import { type FieldSpec, SECTIONS, type TableSpec } from '../sections/index.ts';
import { type EachEntry, type Entry, isEach, type Table } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';
import type { PartStay } from './partHistory.ts';

/** What stood in one field at one stay, in inside units; `words` where it is no number. */
export interface PartReading {
  /** Of the places measured; one and the same where it stands once. */
  readonly low: number | null;
  readonly high: number | null;
  readonly mean: number | null;
  /** Places measured. */
  readonly count: number;
  readonly words: string | null;
}

/** One field of a part's section over all of its stays. */
export interface PartMeasure {
  readonly path: string;
  readonly label: string;
  readonly shown: DisplayKind | null;
  /** One for each stay; null where it was not measured then. */
  readonly readings: readonly (PartReading | null)[];
  /** Mean of the last stay that has it less that of the first [inside units]; null with fewer than two. */
  readonly by: number | null;
}

/** One free table of a part's section over all of its stays, a line for each value of its first column. */
export interface PartTable {
  readonly path: string;
  readonly label: string;
  readonly help: string | null;
  readonly key: FieldSpec;
  readonly columns: readonly FieldSpec[];
  readonly rows: readonly {
    /** [inside units] */
    readonly at: number;
    /** By column, then by stay [inside units]. */
    readonly values: readonly (readonly (number | null)[])[];
  }[];
}

/** What was measured of a part's section at each stay, in the order of the sheet. Pure. */
export function partOverTime(stays: readonly Pick<PartStay, 'section' | 'measured' | 'tables'>[]): {
  readonly measures: readonly PartMeasure[];
  readonly tables: readonly PartTable[];
} {
  return {
    measures: SECTIONS.flatMap((section) =>
      section.fields.flatMap((field) => {
        const readings = stays.map((stay) =>
          stay.section === section.id ? readingOf(field, stay.measured[field.id]) : null,
        );
        if (readings.every((one) => one === null)) return [];
        const means = readings.flatMap((one) => one?.mean ?? []);
        return [
          {
            path: `${section.id}.${field.id}`,
            label: field.label,
            shown: field.shown ?? null,
            readings,
            by: means.length < 2 ? null : means.at(-1)! - means[0]!,
          },
        ];
      }),
    ),
    tables: SECTIONS.flatMap((section) =>
      (section.tables ?? []).flatMap((table) => {
        const held = stays.map((stay) =>
          stay.section === section.id ? stay.tables[table.id] : undefined,
        );
        return tableOverTime(`${section.id}.${table.id}`, table, held);
      }),
    ),
  };
}

function readingOf(field: FieldSpec, entry: Entry | EachEntry | undefined): PartReading | null {
  if (entry === undefined) return null;
  const typed = isEach(entry) ? entry.each.filter((one) => one !== null) : [entry.value];
  if (typed.length === 0) return null;
  const numbers = typed.flatMap((one) =>
    typeof one === 'number' ? [insideOf(field, one, entry.unit)] : [],
  );
  if (numbers.length === 0)
    return {
      low: null,
      high: null,
      mean: null,
      count: typed.length,
      words: wordsOf(field, typed[0]!),
    };
  return {
    low: Math.min(...numbers),
    high: Math.max(...numbers),
    mean: numbers.reduce((sum, one) => sum + one, 0) / numbers.length,
    count: numbers.length,
    words: null,
  };
}

function wordsOf(field: FieldSpec, value: Entry['value']): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return field.choices?.find((one) => one.value === value)?.label ?? String(value);
}

/** Lines of two tables are one where their first column agrees this far. */
const SAME_DIGITS = 5;

/** Tables whose first column is no number (fasteners by name) are lists, not curves, and are left to the sheet. */
function tableOverTime(
  path: string,
  { label, help, columns: all }: TableSpec,
  held: readonly (Table | undefined)[],
): PartTable[] {
  const [key, ...others] = all;
  const columns = others.filter(({ kind }) => kind === 'quantity' || kind === 'number');
  if (key === undefined || key.kind !== 'quantity') return [];
  const rows = new Map<string, { at: number; values: (number | null)[][] }>();
  held.forEach((table, stay) => {
    for (const row of table?.rows ?? []) {
      const inside = (field: FieldSpec) => {
        const value = row[field.id];
        return typeof value === 'number' ? insideOf(field, value, table!.units?.[field.id]) : null;
      };
      const at = inside(key);
      if (at === null) continue;
      const name = at.toPrecision(SAME_DIGITS);
      const line = rows.get(name) ?? {
        at,
        values: columns.map(() => Array<number | null>(held.length).fill(null)),
      };
      rows.set(name, line);
      columns.forEach((column, index) => {
        line.values[index]![stay] ??= inside(column);
      });
    }
  });
  const sorted = [...rows.values()].sort((a, b) => a.at - b.at);
  return sorted.length === 0
    ? []
    : [{ path, label, help: help ?? null, key, columns, rows: sorted }];
}

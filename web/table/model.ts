import { type DisplayKind, displayDecimals, displayUnit } from '../../src/units/display.ts';
import { fromInside } from '../../src/units/quantity.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { interval, plain, setting, signed, UNKNOWN } from '../charts/numbers.ts';

/** Both ends of an interval, in the unit of its column; an end that is not closed is null. */
export interface Range {
  readonly low: number | null;
  readonly high: number | null;
}

/** What stands in a place of a table: words, a number in the unit of its column, both ends of an interval; null: not known. */
export type ModelCell = string | number | boolean | Range | null;

/** A column of a table on screen. */
export interface ModelColumn {
  readonly title: string;
  readonly kind: 'words' | 'number' | 'range' | 'yesNo';
  /** As it is written on screen; empty for a plain number and for what has none; null: each row says its own. */
  readonly unit: string | null;
  /** Digits after the point on screen. */
  readonly decimals?: number;
  /** How a cell is written on screen where that is not by the decimals alone. */
  readonly show?: (cell: ModelCell) => string;
  /** Said of the column in the file. */
  readonly note?: string;
}

/** A table: what is drawn and what is taken. The first cell of a row names it. */
export interface TableModel {
  readonly columns: readonly ModelColumn[];
  readonly rows: readonly (readonly ModelCell[])[];
}

/** A column with what stands in it, row by row. */
export interface ColumnOf<Row> extends ModelColumn {
  readonly of: (row: Row, at: number) => ModelCell | undefined;
}

interface Look {
  readonly decimals?: number;
  /** Plus sign before gains. */
  readonly signed?: boolean;
  readonly show?: (cell: ModelCell) => string;
  readonly note?: string;
}

/** A table of rows, each column by what it takes of a row. */
export const tableFrom = <Row>(
  rows: readonly Row[],
  columns: readonly ColumnOf<Row>[],
): TableModel => ({
  columns,
  rows: rows.map((row, at) => columns.map((column) => column.of(row, at) ?? null)),
});

type Of<Row, Value> = (row: Row, at: number) => Value | null | undefined;

export const wordsColumn = <Row>(
  title: string,
  of: Of<Row, string>,
  note?: string,
): ColumnOf<Row> => ({
  title,
  kind: 'words',
  unit: '',
  of,
  ...(note === undefined ? {} : { note }),
});

export const yesNoColumn = <Row>(title: string, of: Of<Row, boolean>): ColumnOf<Row> => ({
  title,
  kind: 'yesNo',
  unit: '',
  of,
});

/** Numbers that are in the unit of the screen already: percent, rpm, a count. */
export const numberColumn = <Row>(
  title: string,
  unit: string | null,
  of: Of<Row, number>,
  look: Look = {},
): ColumnOf<Row> => ({ title, kind: 'number', unit, of, ...lookOf(look) });

/** Both ends of an interval, in the unit of the screen. */
export const rangeColumn = <Row>(
  title: string,
  unit: string | null,
  of: Of<Row, Range>,
  look: Look = {},
): ColumnOf<Row> => ({ title, kind: 'range', unit, of, ...lookOf(look) });

/** A quantity given in inside units, in the unit that this person sees. */
export function quantityColumn<Row>(
  title: string,
  kind: DisplayKind,
  system: UnitSystem,
  of: Of<Row, number>,
  look: Look = {},
): ColumnOf<Row> {
  const unit = displayUnit(kind, system);
  return numberColumn(
    title,
    shownUnit(unit.symbol),
    (row, at) => {
      const value = of(row, at);
      return value === null || value === undefined ? null : fromInside(value, unit);
    },
    { decimals: displayDecimals(kind, system), ...look },
  );
}

/** The interval of a quantity given in inside units. */
export function quantityRangeColumn<Row>(
  title: string,
  kind: DisplayKind,
  system: UnitSystem,
  of: Of<Row, Range>,
  look: Look = {},
): ColumnOf<Row> {
  const unit = displayUnit(kind, system);
  const end = (value: number | null) => (value === null ? null : fromInside(value, unit));
  return rangeColumn(
    title,
    shownUnit(unit.symbol),
    (row, at) => {
      const range = of(row, at);
      return range ? { low: end(range.low), high: end(range.high) } : null;
    },
    { decimals: displayDecimals(kind, system), ...look },
  );
}

/** Settings of a ladder, in its unit: degrees, or a bare number such as lambda. */
export const settingColumn = <Row>(
  title: string,
  unit: string,
  of: Of<Row, number>,
  look: Look = {},
): ColumnOf<Row> =>
  numberColumn(title, settingUnit(unit), of, {
    show: (cell) => (typeof cell === 'number' ? setting(cell, unit, 2) : UNKNOWN),
    ...look,
  });

/** Speeds of a table, whole steps within the span. */
export function speedsIn(span: readonly [number, number] | null, everyRpm: number): number[] {
  if (span === null) return [];
  const [low, high] = span;
  const first = Math.ceil(low / everyRpm);
  const count = Math.max(0, Math.floor(high / everyRpm) - first + 1);
  return Array.from({ length: count }, (_, at) => (first + at) * everyRpm);
}

/** The foot of a table by speed. */
export const speedColumn: ColumnOf<number> = {
  title: 'engine speed',
  kind: 'number',
  unit: 'rpm',
  decimals: 0,
  of: (speedRpm) => speedRpm,
};

/** How the unit of a setting stands in a head. */
export const settingUnit = (unit: string): string => (unit === 'deg' ? '°' : unit);

const shownUnit = (symbol: string): string => (symbol === '1' ? '' : symbol);

function lookOf({ decimals, signed: withSign, show, note }: Look) {
  const bySign =
    withSign === true
      ? (cell: ModelCell) => (typeof cell === 'number' ? signed(cell, decimals) : UNKNOWN)
      : undefined;
  const shown = show ?? bySign;
  return {
    ...(decimals === undefined ? {} : { decimals }),
    ...(shown === undefined ? {} : { show: shown }),
    ...(note === undefined ? {} : { note }),
  };
}

/** A head with its unit, as it stands on screen. */
export const headText = ({ title, unit }: Pick<ModelColumn, 'title' | 'unit'>): string =>
  unit === null || unit === '' ? title : `${title}, ${unit}`;

/** A cell as it stands on screen. */
export function cellText(column: ModelColumn, cell: ModelCell): string {
  if (column.show !== undefined) return column.show(cell);
  if (cell === null) return UNKNOWN;
  if (typeof cell === 'string') return cell;
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (typeof cell === 'number')
    return column.decimals === undefined && !Number.isFinite(cell)
      ? UNKNOWN
      : column.decimals === undefined
        ? String(cell)
        : plain(cell, column.decimals);
  return interval(cell.low, cell.high, column.decimals);
}

import { type Cell, isBlank, key, textOfCell } from './cells.ts';

/** Which column holds what. */
export interface Head {
  readonly section?: number;
  readonly field: number;
  readonly place?: number;
  readonly value?: number;
  readonly unit?: number;
  readonly plusMinus?: number;
  readonly by?: number;
  readonly with?: number;
  readonly on?: number;
  readonly note?: number;
  /** Columns headed by a place: `Cylinder 1`, or a plain number. */
  readonly places: readonly (readonly [column: number, label: string])[];
}

const NAMES: Readonly<Record<Exclude<keyof Head, 'places'>, readonly string[]>> = {
  section: ['section'],
  field: ['field', 'measurement'],
  place: ['place', 'where'],
  value: ['value', 'measured'],
  unit: ['unit', 'units'],
  plusMinus: ['plusminus', 'tolerance', 'uncertainty'],
  by: ['by', 'measuredby', 'who'],
  with: ['with', 'measuredwith', 'gauge', 'instrument'],
  on: ['on', 'date', 'measuredon', 'day'],
  note: ['note', 'remark'],
};
const PLACE = /^(?:cyl(?:inder)?|bank|main|rod journal|intake|exhaust)?\.?\s*\d{1,2}[a-h]?$/i;

/** The header that a row is, or null: it has a cell `field` and one for values. */
export function readHead(row: readonly Cell[]): Head | null {
  const found: Record<string, number> = {};
  const places: [number, string][] = [];
  row.forEach((cell, column) => {
    if (isBlank(cell)) return;
    const text = textOfCell(cell);
    const role = Object.entries(NAMES).find(([, names]) => names.includes(key(text)))?.[0];
    if (role !== undefined) found[role] ??= column;
    else if (PLACE.test(text)) places.push([column, text]);
  });
  if (found.field === undefined || (found.value === undefined && places.length === 0)) return null;
  return { ...found, places } as unknown as Head;
}

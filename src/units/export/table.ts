import { symbolOfUcum } from './ucum.ts';

/** A table as it leaves the shop. Numbers are in the unit of their column; null means not known. */
export interface Table {
  /** File name without its ending, and name of the resource. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

/** A fact about a table as a whole: `['Engine', 'Six']`. */
export type About = readonly [what: string, value: string];

export type Cell = string | number | boolean | null;

export interface Column {
  /** In camel case, its unit at the end. */
  readonly name: string;
  readonly title: string;
  readonly type: 'number' | 'integer' | 'string' | 'boolean';
  /** By UCUM, the Unified Code for Units of Measure; `1` for a plain number; null for what has no unit (words, yes or no) and where each row says its own in a column `unit`. */
  readonly unit: string | null;
  /** How people write that unit, where it is not as `symbolOf` says: `°`, `lb-ft`, `λ`. */
  readonly symbol?: string;
  /** Digits after the point that a workbook shows; the number itself is whole. */
  readonly decimals?: number;
  /** What is to be said of it beside its title and unit. */
  readonly note?: string;
}

/** Units of our names' endings, by UCUM; the longest ending that fits counts. */
const UNITS_BY_ENDING: readonly (readonly [string, string])[] = [
  ['RpmPerS', '{rev}/min/s'],
  ['KgPerM3', 'kg/m3'],
  ['MPerS', 'm/s'],
  ['KgPerJ', 'kg/J'],
  ['KgM2', 'kg.m2'],
  ['Percent', '%'],
  ['Rpm', '{rev}/min'],
  ['Deg', 'deg'],
  ['Nm', 'N.m'],
  ['Pa', 'Pa'],
  ['M3', 'm3'],
  ['Hz', 'Hz'],
  ['Kg', 'kg'],
  ['K', 'K'],
  ['W', 'W'],
  ['S', 's'],
  ['M', 'm'],
];

/** The title with its unit, for the head of a column that people read: `Peak power, hp`. */
export function headOf(column: Pick<Column, 'title' | 'unit' | 'symbol'>): string {
  const symbol = symbolOf(column);
  return symbol === '' ? column.title : `${column.title}, ${symbol}`;
}

/** How people write the unit of a column; empty for a plain number and for what has none. */
export const symbolOf = ({ unit, symbol }: Pick<Column, 'unit' | 'symbol'>): string =>
  symbol ?? (unit === null || unit === '1' ? '' : symbolOfUcum(unit));

/** Unit of a name that ends in one; null where it ends in none. */
const unitOfName = (name: string): string | null => parted(name).unit;

/** `torqueNm` is `torque` in `N.m`. */
export function parted(name: string): { readonly stem: string; readonly unit: string | null } {
  const found = UNITS_BY_ENDING.find(([ending]) => name.endsWith(ending));
  if (found === undefined) return { stem: name, unit: null };
  return { stem: name.slice(0, -found[0].length), unit: found[1] };
}

/** A column of numbers. Its unit is read off its name unless said; @throws Error where neither says one */
export function numbers(
  name: string,
  title: string,
  unit: string | null = unitOfName(name),
): Column {
  if (unit === null) throw new Error(`The column ${name} has no unit.`);
  return { name, title, type: 'number', unit };
}
/** A column of numbers of several kinds: the unit of each stands in its row, in the column `unit`. */
export const mixed = (name: string, title: string): Column => ({
  name,
  title,
  type: 'number',
  unit: null,
});
export const words = (name: string, title: string): Column => ({
  name,
  title,
  type: 'string',
  unit: null,
});
export const yesOrNo = (name: string, title: string): Column => ({
  name,
  title,
  type: 'boolean',
  unit: null,
});
export const counted = (name: string, title: string): Column => ({
  name,
  title,
  type: 'integer',
  unit: '1',
});

import { SECTIONS } from '../sections/index.ts';
import type { SectionData, Sheet } from './types.ts';

const LAYOUT_KEYS = ['cylinders', 'arrangement', 'bankAngleDeg', 'crank'];
const ENTRY_KEYS = ['value', 'each', 'unit', 'plusMinus', 'by', 'with', 'on', 'note'];
const TABLE_KEYS = ['units', 'rows', 'by', 'with', 'on', 'note'];
const WIDEST = 100;

/**
 * A sheet as the text of a build file (format sheet/1), as a person would set it out. The same sheet always gives the
 * same text: sections, fields and columns in the order of the form, so that two files can be compared line by line.
 * `readSheet` of what it wrote gives the sheet back.
 */
export function writeSheet(sheet: Sheet): string {
  return `${laidOut(inOrder(sheet), 0)}\n`;
}

/** The sheet with its keys in the order of the form. Empty sections, values and tables are left out. */
export function inOrder(sheet: Sheet): Sheet {
  const sections = Object.fromEntries(
    SECTIONS.flatMap((spec) => {
      const data = sheet.sections[spec.id];
      if (data === undefined) return [];
      const written = sectionInOrder(spec, data);
      return Object.keys(written).length === 0 ? [] : [[spec.id, written] as const];
    }),
  );
  return {
    format: sheet.format,
    ...(sheet.name === undefined ? {} : { name: sheet.name }),
    layout: keysFirst(sheet.layout, LAYOUT_KEYS),
    ...(sheet.use === undefined ? {} : { use: sheet.use }),
    sections,
    ...(sheet.attachments === undefined ? {} : { attachments: sheet.attachments }),
  };
}

function sectionInOrder(spec: (typeof SECTIONS)[number], data: SectionData): SectionData {
  const values = picked(
    data.values,
    spec.fields.map((field) => field.id),
    (entry) => keysFirst(entry, ENTRY_KEYS),
  );
  const tables = Object.fromEntries(
    (spec.tables ?? []).flatMap((table) => {
      const given = data.tables?.[table.id];
      if (given === undefined) return [];
      const columns = table.columns.map((column) => column.id);
      const ordered = {
        ...given,
        ...(given.units === undefined ? {} : { units: keysFirst(given.units, columns) }),
        rows: given.rows.map((row) => keysFirst(row, columns)),
      };
      return [[table.id, keysFirst(ordered, TABLE_KEYS)] as const];
    }),
  );
  return {
    ...(values === null ? {} : { values }),
    ...(Object.keys(tables).length === 0 ? {} : { tables }),
    ...(data.parts === undefined ? {} : { parts: data.parts }),
    ...(data.notes === undefined ? {} : { notes: data.notes }),
  };
}

function picked<T>(
  from: Readonly<Record<string, T>> | undefined,
  keys: readonly string[],
  each: (value: T) => T,
): Record<string, T> | null {
  const found = keys.flatMap((key) => {
    const value = from === undefined || !Object.hasOwn(from, key) ? undefined : from[key];
    return value === undefined ? [] : [[key, each(value)] as const];
  });
  return found.length === 0 ? null : Object.fromEntries(found);
}

/** The same object, these keys first and in this order. */
function keysFirst<T extends object>(value: T, keys: readonly string[]): T {
  const all = [
    ...keys.filter((key) => Object.hasOwn(value, key)),
    ...Object.keys(value).filter((key) => !keys.includes(key)),
  ];
  return Object.fromEntries(all.map((key) => [key, value[key as keyof T]])) as T;
}

/** JSON with what fits on a line on one line: an entry, a row of a table, a list of eight numbers. */
function laidOut(value: unknown, depth: number): string {
  const short = oneLine(value);
  if (depth > 1 && short.length + 2 * depth <= WIDEST && !isNest(value)) return short;
  if (typeof value !== 'object' || value === null) return short;
  const pad = '  '.repeat(depth + 1);
  const end = '  '.repeat(depth);
  if (Array.isArray(value))
    return value.length === 0
      ? '[]'
      : `[\n${value.map((one) => pad + laidOut(one, depth + 1)).join(',\n')}\n${end}]`;
  const entries = Object.entries(value).filter(([, one]) => one !== undefined);
  return entries.length === 0
    ? '{}'
    : `{\n${entries
        .map(([key, one]) => `${pad}${JSON.stringify(key)}: ${laidOut(one, depth + 1)}`)
        .join(',\n')}\n${end}}`;
}

/** Objects that hold objects are set out on lines of their own, however short. */
const isNest = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  Object.values(value).some(
    (one) => typeof one === 'object' && one !== null && !Array.isArray(one),
  );

function oneLine(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  const entries = Object.entries(value).filter(([, one]) => one !== undefined);
  return entries.length === 0
    ? '{}'
    : `{ ${entries.map(([key, one]) => `${JSON.stringify(key)}: ${oneLine(one)}`).join(', ')} }`;
}

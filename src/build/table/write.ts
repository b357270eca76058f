import { SECTIONS } from '../sections/index.ts';
import { placeLabels } from '../sheet/layout.ts';
import {
  type EachEntry,
  type Entry,
  isEach,
  type Place,
  type Provenance,
  type Sheet,
} from '../sheet/types.ts';
import { inOrder } from '../sheet/write.ts';
import type { Cell } from './cells.ts';

const ABOUT = ['by', 'with', 'date', 'note'] as const;
const about = (one: Provenance): Cell[] =>
  [one.by, one.with, one.on, one.note].map((text) => text ?? null);

/**
 * A sheet as rows of cells, the inverse of `sheetFromTable`: the layout and all that stands once as a long table, a wide
 * block for each kind of place, then the free tables, with a blank row between. Photos and files have no place in it.
 */
export function sheetTable(given: Sheet): Cell[][] {
  const sheet = inOrder(given);
  const blocks = [onceBlock(sheet), ...placeBlocks(sheet), ...tableBlocks(sheet)];
  return blocks.flatMap((block, i) => (i === 0 ? block : [[], ...block]));
}

function onceBlock(sheet: Sheet): Cell[][] {
  const rows: Cell[][] = [['section', 'field', 'what', 'value', 'unit', 'plus/minus', ...ABOUT]];
  if (sheet.name !== undefined) rows.push(['sheet', 'name', null, sheet.name]);
  if (sheet.use !== undefined) rows.push(['sheet', 'use', null, sheet.use]);
  for (const [key, value] of Object.entries(sheet.layout))
    if (value !== null) rows.push(['layout', key, null, value as Cell]);
  for (const { section, field, entry } of entriesOf(sheet))
    if (!isEach(entry))
      rows.push([
        section,
        field.id,
        field.label,
        entry.value,
        entry.unit ?? null,
        entry.plusMinus ?? null,
        ...about(entry),
      ]);
  for (const [id, data] of Object.entries(sheet.sections))
    if (data.notes !== undefined && data.notes !== '') rows.push([id, 'notes', null, data.notes]);
  return rows;
}

function placeBlocks(sheet: Sheet): Cell[][][] {
  const places = new Map<Place, Cell[][]>();
  for (const { section, field, entry } of entriesOf(sheet)) {
    if (!isEach(entry)) continue;
    const place = field.per!;
    const block = places.get(place) ?? [
      [
        'section',
        'field',
        'what',
        'unit',
        'plus/minus',
        ...ABOUT,
        ...placeLabels(place, sheet.layout),
      ],
    ];
    block.push([
      section,
      field.id,
      field.label,
      entry.unit ?? null,
      entry.plusMinus ?? null,
      ...about(entry),
      ...entry.each,
    ]);
    places.set(place, block);
  }
  return [...places.values()];
}

function tableBlocks(sheet: Sheet): Cell[][][] {
  return SECTIONS.flatMap((spec) => {
    const data = sheet.sections[spec.id];
    const parts = data?.parts ?? [];
    const tables = (spec.tables ?? []).flatMap((table) => {
      const held = data?.tables?.[table.id];
      if (held === undefined || held.rows.length === 0) return [];
      const heads = table.columns.map((column) => {
        const unit = held.units?.[column.id];
        return unit === undefined ? column.id : `${column.id} (${unit})`;
      });
      const rows = held.rows.map((row) => table.columns.map((column) => row[column.id] ?? null));
      return [[['table', `${spec.id}.${table.id}`, ...about(held)], heads, ...rows] as Cell[][]];
    });
    if (parts.length === 0) return tables;
    const rows = parts.map((part): Cell[] => [part.name, part.serial ?? null, part.note ?? null]);
    return [...tables, [['table', `${spec.id}.parts`], ['name', 'serial', 'note'], ...rows]];
  });
}

const entriesOf = (sheet: Sheet) =>
  SECTIONS.flatMap((spec) =>
    spec.fields.flatMap((field) => {
      const entry: Entry | EachEntry | undefined = sheet.sections[spec.id]?.values?.[field.id];
      return entry === undefined ? [] : [{ section: spec.id, field, entry }];
    }),
  );

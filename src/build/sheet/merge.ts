import { fromInside } from '../../units/quantity.ts';
import type { FieldSpec } from '../sections/field.ts';
import { SECTIONS, tableOf } from '../sections/index.ts';
import {
  type EachEntry,
  type Entry,
  isEach,
  type Layout,
  type PartLine,
  type Provenance,
  type SectionData,
  type Sheet,
} from './types.ts';
import { insideOf, unitOfField } from './units.ts';

/**
 * A sheet with what another one holds put onto it: its values, tables, notes and parts stand in the place of those that
 * were there, places that it leaves empty keep what they had, and everything it does not name stays.
 */
export function mergedSheet(standing: Sheet, given: Sheet): Sheet {
  const sections = Object.fromEntries(
    SECTIONS.flatMap(({ id, fields }) => {
      const [was, is] = [standing.sections[id], given.sections[id]];
      const data =
        was === undefined || is === undefined ? (is ?? was) : mergedSection(fields, was, is);
      return data === undefined ? [] : [[id, data] as const];
    }),
  );
  const name = given.name ?? standing.name;
  const use = given.use ?? standing.use;
  return {
    format: 'sheet/1',
    ...(name === undefined ? {} : { name }),
    layout: given.layout,
    ...(use === undefined ? {} : { use }),
    sections,
    ...(standing.attachments === undefined ? {} : { attachments: standing.attachments }),
  };
}

function mergedSection(
  fields: readonly FieldSpec[],
  was: SectionData,
  is: SectionData,
): SectionData {
  const values = Object.fromEntries(
    fields.flatMap((field) => {
      const [old, now] = [was.values?.[field.id], is.values?.[field.id]];
      const entry = old === undefined || now === undefined ? (now ?? old) : filled(field, old, now);
      return entry === undefined ? [] : [[field.id, entry] as const];
    }),
  );
  const tables = { ...was.tables, ...is.tables };
  const parts = mergedParts(was.parts ?? [], is.parts ?? []);
  const notes = is.notes ?? was.notes;
  return {
    ...(Object.keys(values).length === 0 ? {} : { values }),
    ...(Object.keys(tables).length === 0 ? {} : { tables }),
    ...(parts.length === 0 ? {} : { parts }),
    ...(notes === undefined ? {} : { notes }),
  };
}

/** An empty place keeps what stood there, in the unit of the new values. */
function filled(
  field: FieldSpec,
  was: Entry | EachEntry,
  is: Entry | EachEntry,
): Entry | EachEntry {
  if (!isEach(is) || is.each.every((one) => one !== null)) return is;
  const before = isEach(was) ? was.each : is.each.map(() => was.value);
  const each = is.each.map((one, place) => {
    const old = before[place];
    return one ?? (typeof old === 'number' ? inUnit(field, old, was.unit, is.unit) : null);
  });
  return { ...is, each };
}

function inUnit(field: FieldSpec, value: number, from?: string, to?: string): number {
  const wanted = to === undefined || from === to ? undefined : unitOfField(field, to);
  if (wanted === undefined) return value;
  return Number(fromInside(insideOf(field, value, from), wanted).toPrecision(12));
}

/** A part is known again by its serial, one without by its name. */
function mergedParts(was: readonly PartLine[], is: readonly PartLine[]): PartLine[] {
  const keyOf = ({ name, serial }: PartLine) =>
    (serial === undefined ? name.trim() : `#${serial.trim()}`).toLowerCase();
  const parts = new Map(
    was.map((part, at) => [`${keyOf(part)} ${countBefore(was, at, keyOf)}`, part]),
  );
  is.forEach((part, at) => {
    parts.set(`${keyOf(part)} ${countBefore(is, at, keyOf)}`, part);
  });
  return [...parts.values()];
}

/** Two parts of one name are two. */
const countBefore = <T>(all: readonly T[], at: number, keyOf: (one: T) => string): number =>
  all.slice(0, at).filter((one) => keyOf(one) === keyOf(all[at]!)).length;

/** One thing that a sheet has and another had not, or had otherwise, in words as typed. */
export interface Taken {
  /** Null: of the sheet as a whole. */
  readonly section: string | null;
  readonly label: string;
  /** Null: nothing stood there. */
  readonly before: string | null;
  readonly after: string;
}

/** What `after` fills in or changes of `before`, in the order of the sheet. */
export function takenIn(before: Sheet | null, after: Sheet): readonly Taken[] {
  const taken: Taken[] = [];
  const say = (section: string | null, label: string, was: string | null, is: string | null) => {
    if (is !== null && was !== is) taken.push({ section, label, before: was, after: is });
  };
  say(null, 'Name', before?.name ?? null, after.name ?? null);
  say(null, 'Use', before?.use ?? null, after.use ?? null);
  say(null, 'Layout', before === null ? null : layoutText(before.layout), layoutText(after.layout));
  for (const { id, fields, tables = [] } of SECTIONS) {
    const [was, is] = [before?.sections[id], after.sections[id]];
    for (const field of fields)
      say(id, field.label, entryText(was?.values?.[field.id]), entryText(is?.values?.[field.id]));
    for (const table of tables) {
      const [old, now] = [was?.tables?.[table.id], is?.tables?.[table.id]];
      if (now === undefined || JSON.stringify(old) === JSON.stringify(now)) continue;
      const label = tableOf(id, table.id)!.label;
      const [from, to] = [rowsText(old?.rows.length), rowsText(now.rows.length)!];
      say(id, label, from, from === to ? `${to}, otherwise than before` : to);
    }
    say(id, 'Parts', partsText(was?.parts), partsText(is?.parts));
    say(id, 'Notes', was?.notes ?? null, is?.notes ?? null);
  }
  return taken;
}

function entryText(entry: Entry | EachEntry | undefined): string | null {
  if (entry === undefined) return null;
  const values = isEach(entry)
    ? entry.each.map((one) => one ?? '–').join(', ')
    : wordOf(entry.value);
  const plusMinus = entry.plusMinus === undefined ? '' : ` ± ${entry.plusMinus}`;
  const unit = entry.unit === undefined ? '' : ` ${entry.unit}`;
  return `${values}${plusMinus}${unit}${aboutText(entry)}`;
}
const wordOf = (value: Entry['value']): string =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
const aboutText = ({ by, with: tool, on, note }: Provenance): string => {
  const said = [by, tool, on, note].filter((one) => one !== undefined && one !== '');
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
};
const rowsText = (count: number | undefined): string | null =>
  count === undefined ? null : count === 1 ? '1 row' : `${count} rows`;
const partsText = (parts: readonly PartLine[] | undefined): string | null =>
  parts === undefined || parts.length === 0
    ? null
    : parts
        .map(({ name, serial, note }) =>
          [name, serial, note].filter((one) => one !== undefined && one !== '').join(', '),
        )
        .join('; ');
function layoutText(layout: Layout): string {
  const { cylinders, arrangement, bankAngleDeg, crank, cycle, aspiration } = layout;
  const valves = `${layout.intakeValvesPerCylinder} + ${layout.exhaustValvesPerCylinder} valves each`;
  return [
    cylinders === 1 ? '1 cylinder' : `${cylinders} cylinders`,
    arrangement === 'V' && bankAngleDeg !== null ? `V, ${bankAngleDeg}°` : arrangement,
    crank,
    valves,
    ...(layout.mainJournals === null ? [] : [`${layout.mainJournals} mains`]),
    ...(layout.rodJournals === null ? [] : [`${layout.rodJournals} rod journals`]),
    `${cycle}-stroke`,
    aspiration,
  ].join(', ');
}

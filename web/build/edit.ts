/** Changes of a sheet, each giving a new one. Nothing empty is left behind, so that an emptied sheet equals an untouched one. */
import {
  countOf,
  type EachEntry,
  type Entry,
  fieldOf,
  isEach,
  type Layout,
  type PartLine,
  type Provenance,
  type SectionData,
  type Sheet,
  sectionOf,
  type Table,
} from '../../src/build/index.ts';

export type Cell = number | string | boolean | null;
export type Row = Readonly<Record<string, Cell>>;

export const partsOf = (path: string) => path.split('.') as [string, string];

export function entryAt(sheet: Sheet, path: string): Entry | EachEntry | undefined {
  const [section, id] = partsOf(path);
  return sheet.sections[section]?.values?.[id];
}

export function tableAt(sheet: Sheet, path: string): Table | undefined {
  const [section, id] = partsOf(path);
  return sheet.sections[section]?.tables?.[id];
}

/** A record without the key, or with it set. */
function put<T>(
  record: Readonly<Record<string, T>> | undefined,
  key: string,
  value: T | undefined,
): Record<string, T> {
  const { [key]: _, ...others } = record ?? {};
  return value === undefined ? others : { ...others, [key]: value };
}

function withSection(sheet: Sheet, id: string, data: SectionData): Sheet {
  const clean: SectionData = {
    ...(hasKeys(data.values) ? { values: data.values } : {}),
    ...(hasKeys(data.tables) ? { tables: data.tables } : {}),
    ...(data.parts !== undefined && data.parts.length > 0 ? { parts: data.parts } : {}),
    ...(data.notes !== undefined && data.notes !== '' ? { notes: data.notes } : {}),
  };
  return { ...sheet, sections: put(sheet.sections, id, hasKeys(clean) ? clean : undefined) };
}

const hasKeys = <T extends object>(value: T | undefined): value is T =>
  value !== undefined && Object.keys(value).length > 0;

/** Puts an entry at a path, or takes it away. */
export function setEntry(sheet: Sheet, path: string, entry: Entry | EachEntry | null): Sheet {
  const [section, id] = partsOf(path);
  const data = sheet.sections[section] ?? {};
  return withSection(sheet, section, { ...data, values: put(data.values, id, entry ?? undefined) });
}

/** The values of a field by place, as many as there are places; one value for all is repeated. */
export function eachAt(sheet: Sheet, path: string): readonly (number | null)[] {
  const field = fieldOf(path);
  const count = field?.per === undefined ? 1 : countOf(field.per, sheet.layout);
  const entry = entryAt(sheet, path);
  if (entry === undefined) return Array<null>(count).fill(null);
  if (isEach(entry)) return resized(entry.each, count);
  return Array<number | null>(count).fill(typeof entry.value === 'number' ? entry.value : null);
}

const resized = (each: readonly (number | null)[], count: number): (number | null)[] =>
  Array.from({ length: count }, (_, i) => each[i] ?? null);

/** Values by place with what was already said of them (who, with what, tolerance); none left takes the entry away. */
export function setEach(
  sheet: Sheet,
  path: string,
  each: readonly (number | null)[],
  more: { readonly unit?: string; readonly plusMinus?: number } = {},
): Sheet {
  if (each.every((one) => one === null)) return setEntry(sheet, path, null);
  const {
    value: _,
    each: __,
    ...said
  } = (entryAt(sheet, path) ?? {}) as Partial<Entry & EachEntry>;
  return setEntry(sheet, path, { each, ...said, ...more });
}

/** What stands behind a value: its unit, tolerance, who, with what, when. Undefined takes away. */
export function setAbout(
  sheet: Sheet,
  path: string,
  about: { readonly [K in keyof (Provenance & { unit: string; plusMinus: number })]?: unknown },
): Sheet {
  const entry = entryAt(sheet, path);
  if (entry === undefined) return sheet;
  const next = Object.fromEntries(
    Object.entries({ ...entry, ...about }).filter(
      ([, value]) => value !== undefined && value !== '',
    ),
  ) as unknown as Entry | EachEntry;
  return setEntry(sheet, path, next);
}

export function setTable(sheet: Sheet, path: string, table: Table): Sheet {
  const [section, id] = partsOf(path);
  const data = sheet.sections[section] ?? {};
  const empty = table.rows.length === 0;
  return withSection(sheet, section, {
    ...data,
    tables: put(data.tables, id, empty ? undefined : table),
  });
}

export function setParts(sheet: Sheet, section: string, parts: readonly PartLine[]): Sheet {
  return withSection(sheet, section, { ...sheet.sections[section], parts });
}

export function setNotes(sheet: Sheet, section: string, notes: string): Sheet {
  return withSection(sheet, section, { ...sheet.sections[section], notes });
}

/** As it may be kept: a part line that somebody emptied is gone, one that has only a serial is called by its section. */
export function forKeeping(sheet: Sheet): Sheet {
  let next = sheet;
  for (const [section, data] of Object.entries(sheet.sections)) {
    if (data.parts?.every((part) => part.name.trim() !== '') ?? true) continue;
    const parts = (data.parts ?? [])
      .filter((part) =>
        [part.name, part.serial, part.note].some((text) => (text ?? '').trim() !== ''),
      )
      .map((part) =>
        part.name.trim() === '' ? { ...part, name: sectionOf(section)?.title ?? section } : part,
      );
    next = setParts(next, section, parts);
  }
  return next;
}

/** Another layout: lists by place become as long as there are places now. What stood beyond is gone. */
export function setLayout(sheet: Sheet, layout: Layout): Sheet {
  let next: Sheet = { ...sheet, layout };
  for (const [section, data] of Object.entries(sheet.sections))
    for (const [id, entry] of Object.entries(data.values ?? {})) {
      const path = `${section}.${id}`;
      if (isEach(entry)) next = setEach(next, path, eachAt(next, path));
    }
  return next;
}

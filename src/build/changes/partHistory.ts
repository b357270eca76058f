import type { EachEntry, Entry, Sheet } from '../sheet/types.ts';

/** A sheet with the engine and build that it belongs to. */
export interface BuildSheet {
  readonly engine: string;
  readonly build: string;
  readonly sheet: Sheet;
}

/** Where a part has been: one line for each build that it was in. */
export interface PartStay {
  readonly engine: string;
  readonly build: string;
  readonly section: string;
  readonly name: string;
  readonly note: string | null;
  /** As the sheets say, as typed; null where they do not. */
  readonly assembledOn: string | null;
  readonly hours: Entry | null;
  readonly pulls: number | null;
  /** What was measured in its section then, as typed. */
  readonly measured: Readonly<Record<string, Entry | EachEntry>>;
}

/** Where the part of this serial has been, by date of assembly; builds without a date stay in the order given, last. */
export function partHistory(serial: string, sheets: readonly BuildSheet[]): readonly PartStay[] {
  const stays = sheets.flatMap(({ engine, build, sheet }) => {
    const condition = sheet.sections.condition?.values;
    return Object.entries(sheet.sections).flatMap(([section, data]) =>
      (data.parts ?? [])
        .filter((part) => part.serial === serial)
        .map(
          (part): PartStay => ({
            engine,
            build,
            section,
            name: part.name,
            note: part.note ?? null,
            assembledOn: textOf(condition?.assembled),
            hours: onceOf(condition?.hours),
            pulls: numberOf(condition?.pulls),
            measured: data.values ?? {},
          }),
        ),
    );
  });
  return stays.sort((a, b) => (a.assembledOn ?? '9999').localeCompare(b.assembledOn ?? '9999'));
}

type Found = Entry | EachEntry | undefined;
const onceOf = (entry: Found): Entry | null =>
  entry !== undefined && 'value' in entry ? entry : null;
const textOf = (entry: Found): string | null => {
  const value = onceOf(entry)?.value;
  return typeof value === 'string' ? value : null;
};
const numberOf = (entry: Found): number | null => {
  const value = onceOf(entry)?.value;
  return typeof value === 'number' ? value : null;
};

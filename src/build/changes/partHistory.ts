import { fieldOf } from '../sections/index.ts';
import type { EachEntry, Entry, Sheet, Table } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';

/** A sheet with the engine and build that it belongs to. */
export interface BuildSheet {
  readonly engine: string;
  readonly build: string;
  readonly sheet: Sheet;
  /** Day of its first test, for builds whose sheet does not say when they were assembled. */
  readonly testedOn?: string | null;
}

/** Where a part has been: one line for each section of a build that it was in. */
export interface PartStay {
  readonly engine: string;
  readonly build: string;
  readonly section: string;
  readonly name: string;
  readonly note: string | null;
  /** As the sheet says; null where it does not. */
  readonly assembledOn: string | null;
  /** Since refresh, as the sheet says [s]. */
  readonly hoursS: number | null;
  readonly pulls: number | null;
  /** Other parts with a serial in its section: what was measured there may be of one of them. */
  readonly beside: number;
  /** What was measured in its section then, as typed. */
  readonly measured: Readonly<Record<string, Entry | EachEntry>>;
  readonly tables: Readonly<Record<string, Table>>;
}

/**
 * Where the part of this serial has been, by date of assembly or first test; a build without either stands behind the one
 * that was given before it.
 */
export function partHistory<T extends BuildSheet>(
  serial: string,
  sheets: readonly T[],
): readonly (PartStay & { readonly of: T })[] {
  let last = '';
  const stays = sheets.flatMap((of) => {
    const { engine, build, sheet } = of;
    const condition = sheet.sections.condition?.values;
    last = textOf(condition?.assembled) ?? of.testedOn ?? last;
    const date = last;
    return Object.entries(sheet.sections).flatMap(([section, data]) =>
      (data.parts ?? [])
        .filter((part) => sameSerial(part.serial, serial))
        .map((part) => ({
          date,
          of,
          engine,
          build,
          section,
          name: part.name,
          note: part.note ?? null,
          assembledOn: textOf(condition?.assembled),
          hoursS: insideNumber('condition.hours', condition?.hours),
          pulls: insideNumber('condition.pulls', condition?.pulls),
          beside: (data.parts ?? []).filter(
            (one) => one !== part && (one.serial ?? '').trim() !== '',
          ).length,
          measured: data.values ?? {},
          tables: data.tables ?? {},
        })),
    );
  });
  return stays.sort((a, b) => a.date.localeCompare(b.date)).map(({ date: _, ...stay }) => stay);
}

/** A serial is one whatever its case and the spaces around it, as the record finds it too. */
const sameSerial = (one: string | undefined, other: string) =>
  one !== undefined && one.trim().toLowerCase() === other.trim().toLowerCase();

type Found = Entry | EachEntry | undefined;
function textOf(entry: Found): string | null {
  const value = entry !== undefined && 'value' in entry ? entry.value : null;
  return typeof value === 'string' ? value : null;
}
function insideNumber(path: string, entry: Found): number | null {
  const value = entry !== undefined && 'value' in entry ? entry.value : null;
  return typeof value === 'number' ? insideOf(fieldOf(path)!, value, entry?.unit) : null;
}

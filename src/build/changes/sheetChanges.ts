import type { DisplayKind } from '../../units/display.ts';
import type { Figure, SheetAnswer, Verdict } from '../compute/types.ts';
import { type PlanPart, q, say } from '../plan/say.ts';
import type { FieldSpec } from '../sections/field.ts';
import { fieldOf, SECTIONS } from '../sections/index.ts';
import { placeLabels } from '../sheet/layout.ts';
import { type EachEntry, type Entry, isEach, type PartLine, type Sheet } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';
import { type TableChange, tableChanges } from './tableChanges.ts';

/** What stood on a sheet at one place of one field: as typed, and in inside units where it is a number. */
export interface Stood {
  readonly typed: number | string | boolean | null;
  readonly unit: string | null;
  readonly inside: number | null;
}

export interface MeasuredChange {
  readonly path: string;
  readonly label: string;
  readonly shown: DisplayKind | null;
  /** Index of the place; null where the field stands once. */
  readonly place: number | null;
  readonly placeLabel: string | null;
  readonly before: Stood;
  readonly after: Stood;
  /** After less before [inside units]; null where one of them is no number. */
  readonly by: number | null;
}

export interface PartChange {
  readonly what: 'added' | 'gone' | 'moved';
  readonly name: string;
  readonly serial: string | null;
  /** Section it stood in before, and stands in now. */
  readonly from: string | null;
  readonly to: string | null;
}

export interface ComputedChange {
  readonly id: string;
  readonly label: string;
  readonly shown: DisplayKind;
  readonly before: number | null;
  readonly after: number | null;
  readonly by: number | null;
  /** By how much as a part of what it was; null where it was 0 or one is not known. */
  readonly share: number | null;
  /** Digits after the point instead of the kind's own; null: the kind's. */
  readonly decimals: number | null;
  /** A difference of temperatures, not a temperature. */
  readonly isDifference: boolean;
  /** `Compression ratio up 0.4: 10.1 to 10.5.` Null where one of the two is not known. */
  readonly sentence: readonly PlanPart[] | null;
}

export interface VerdictChange {
  readonly id: string;
  readonly label: string;
  readonly before: Verdict;
  readonly after: Verdict;
  readonly sentence: string;
}

export interface SheetChanges {
  readonly verdicts: readonly VerdictChange[];
  readonly parts: readonly PartChange[];
  readonly computed: readonly ComputedChange[];
  readonly measured: readonly MeasuredChange[];
  readonly tables: readonly TableChange[];
}

/**
 * What changed between two builds: checks whose verdict changed (the gravest first), parts, figures that moved by more
 * than their own ± or 0.1 % (the largest share first, alike in the order of the sheet), and what was measured, field by field and table by table, in the
 * order of the sheet. Pure.
 */
export function sheetChanges(
  before: Sheet,
  after: Sheet,
  answerBefore: SheetAnswer,
  answerAfter: SheetAnswer,
): SheetChanges {
  return {
    verdicts: verdictChanges(answerBefore, answerAfter),
    parts: partChanges(before, after),
    computed: computedChanges(answerBefore.figures, answerAfter.figures),
    measured: measuredChanges(before, after),
    tables: tableChanges(before, after),
  };
}

const NOTHING: Stood = { typed: null, unit: null, inside: null };

function measuredChanges(before: Sheet, after: Sheet): MeasuredChange[] {
  return SECTIONS.flatMap((section) =>
    section.fields.flatMap((field) => {
      const path = `${section.id}.${field.id}`;
      const [was, is] = [standing(before, section.id, field), standing(after, section.id, field)];
      return Array.from({ length: Math.max(was.length, is.length) }, (_, i) =>
        changeAt(field, path, i, was[i] ?? NOTHING, is[i] ?? NOTHING, after),
      ).filter((change) => change !== null);
    }),
  );
}

/** All that stands in a field, one for each place; empty where nothing does. */
function standing(sheet: Sheet, section: string, field: FieldSpec): readonly Stood[] {
  const entry: Entry | EachEntry | undefined = sheet.sections[section]?.values?.[field.id];
  if (entry === undefined) return [];
  const unit = entry.unit ?? null;
  const stood = (typed: Stood['typed']): Stood => ({
    typed,
    unit: typed === null ? null : unit,
    inside: typeof typed === 'number' ? insideOf(field, typed, entry.unit) : null,
  });
  if (isEach(entry)) return entry.each.map(stood);
  const places = field.per === undefined ? 1 : placeLabels(field.per, sheet.layout).length;
  return Array.from({ length: places }, () => stood(entry.value));
}

/** Two numbers nearer than this share are one, typed in two units. */
const SAME_SHARE = 1e-9;

function isSame(was: Stood, is: Stood): boolean {
  if (was.inside === null || is.inside === null) return was.typed === is.typed;
  const size = Math.max(Math.abs(was.inside), Math.abs(is.inside));
  return Math.abs(was.inside - is.inside) <= SAME_SHARE * size;
}

function changeAt(
  field: FieldSpec,
  path: string,
  index: number,
  before: Stood,
  after: Stood,
  sheet: Sheet,
): MeasuredChange | null {
  if (isSame(before, after)) return null;
  const labels = field.per === undefined ? null : placeLabels(field.per, sheet.layout);
  return {
    path,
    label: fieldOf(path)?.label ?? path,
    shown: field.shown ?? null,
    place: labels === null ? null : index,
    placeLabel: labels?.[index] ?? null,
    before,
    after,
    by: before.inside === null || after.inside === null ? null : after.inside - before.inside,
  };
}

interface Fitted {
  readonly part: PartLine;
  readonly section: string;
}

const partsOf = (sheet: Sheet): Fitted[] =>
  Object.entries(sheet.sections).flatMap(([section, data]) =>
    (data.parts ?? []).map((part) => ({ part, section })),
  );

/** A part is known again by its serial wherever it stands; one without by its name within its section. */
const keyOf = ({ part, section }: Fitted) =>
  part.serial === undefined ? `${section} ${part.name}` : `#${part.serial}`;

function partChanges(before: Sheet, after: Sheet): PartChange[] {
  const was = new Map(partsOf(before).map((fitted) => [keyOf(fitted), fitted]));
  const is = new Map(partsOf(after).map((fitted) => [keyOf(fitted), fitted]));
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((key): PartChange[] => {
    const [old, now] = [was.get(key), is.get(key)];
    const { part } = (now ?? old)!;
    const about = {
      name: part.name,
      serial: part.serial ?? null,
      from: old?.section ?? null,
      to: now?.section ?? null,
    };
    if (old === undefined) return [{ what: 'added', ...about }];
    if (now === undefined) return [{ what: 'gone', ...about }];
    return old.section === now.section ? [] : [{ what: 'moved', ...about }];
  });
}

/** A figure without tolerances has changed from this share on. */
const LEAST_SHARE = 0.001;

function computedChanges(before: readonly Figure[], after: readonly Figure[]): ComputedChange[] {
  const was = new Map(before.map((figure) => [figure.id, figure]));
  const is = new Map(after.map((figure) => [figure.id, figure]));
  return [...new Set([...was.keys(), ...is.keys()])]
    .flatMap((id) => computedChange(was.get(id), is.get(id)))
    .sort((a, b) => Math.abs(b.share ?? 1) - Math.abs(a.share ?? 1));
}

function computedChange(was: Figure | undefined, is: Figure | undefined): ComputedChange[] {
  const { id, label, shown, decimals, isDifference } = (is ?? was)!;
  const about = { id, label, shown, decimals, isDifference };
  const [before, after] = [was?.value ?? null, is?.value ?? null];
  if (before === null && after === null) return [];
  if (before === null || after === null)
    return [{ ...about, before, after, by: null, share: null, sentence: null }];
  const by = after - before;
  const least = Math.max(
    was?.plusMinus ?? 0,
    is?.plusMinus ?? 0,
    LEAST_SHARE * Math.max(Math.abs(before), Math.abs(after)),
  );
  if (Math.abs(by) <= least) return [];
  const more = {
    ...(decimals === null ? {} : { decimals }),
    ...(isDifference ? { isDifference: true as const } : {}),
  };
  const sentence = say`${label} ${by > 0 ? 'up' : 'down'} ${q(Math.abs(by), shown, { ...more, isDifference: true })}: ${q(before, shown, more)} to ${q(after, shown, more)}.`;
  return [{ ...about, before, after, by, share: before === 0 ? null : by / before, sentence }];
}

const GRAVITY: Readonly<Record<Verdict, number>> = {
  stop: 3,
  'look again': 2,
  'not known': 1,
  fine: 0,
};

function verdictChanges(before: SheetAnswer, after: SheetAnswer): VerdictChange[] {
  const was = new Map(before.checks.map((check) => [check.id, check.verdict]));
  return after.checks
    .flatMap(({ id, label, verdict }) => {
      const old = was.get(id) ?? 'not known';
      const sentence = `${label}: ${old} before, ${verdict} now.`;
      return old === verdict ? [] : [{ id, label, before: old, after: verdict, sentence }];
    })
    .sort(
      (a, b) =>
        GRAVITY[b.after] - GRAVITY[a.after] ||
        GRAVITY[b.before] - GRAVITY[a.before] ||
        a.id.localeCompare(b.id),
    );
}

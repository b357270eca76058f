import {
  type Check,
  type Figure,
  placeLabels,
  SHEET_VERSION,
  type Sheet,
  type SheetAnswer,
  sectionOf,
  type Verdict,
} from '../build/index.ts';
import { type DisplayKind, displayUnit, UNITS } from '../units/index.ts';

/** What all published answers of a sheet have. Numbers are in `unit`, which is SI (speeds rev/min, angles degrees). */
interface PublishedAnswer {
  readonly id: string;
  readonly section: string;
  readonly label: string;
  readonly unit: string;
  /** Null: not known. Of a figure by place the mean, of a check by place the one that was judged. */
  readonly value: number | null;
  /** Half of the 95 % interval that the sheet's tolerances leave; null where it has none. */
  readonly plusMinus: number | null;
  /** By place, null where not known; null where the answer is one number. */
  readonly each: readonly { readonly place: string; readonly value: number | null }[] | null;
  readonly how: string;
  /** Fields it was computed from, and fields that would have to be measured first. */
  readonly from: readonly string[];
  readonly missing: readonly string[];
  /** Fields in whose place something usual was taken; the notes say what. */
  readonly assumed: readonly string[];
  /** Between which the rule itself lets the truth lie, beside what the tolerances do. */
  readonly range: { readonly low: number; readonly high: number } | null;
  /** Reasons and cautions; where there is no value and nothing is missing, why. */
  readonly notes: readonly { readonly sentence: string; readonly source: string | null }[];
  /** Why the values cannot be true together, where they cannot. */
  readonly problem: string | null;
  /** How it is shown to a person. */
  readonly shown: DisplayKind;
  readonly decimals: number | null;
  /** A difference: the zero point of a shown unit plays no part. */
  readonly isDifference: boolean;
}

export interface PublishedCheck extends PublishedAnswer {
  readonly verdict: Verdict;
  readonly window: Check['window'];
  /** The place that stands worst. */
  readonly worst: string | null;
  readonly remedy: string | null;
}

/** What follows from a sheet, as `pullbook sheet --json` publishes it. */
export interface SheetObject {
  readonly format: 'sheet-answer/1';
  readonly file: string;
  readonly ok: true;
  /** Version of the computation. */
  readonly version: number;
  readonly name: string | null;
  readonly use: string | null;
  readonly verdicts: Readonly<Record<Verdict, number>>;
  readonly figures: readonly PublishedAnswer[];
  readonly checks: readonly PublishedCheck[];
  readonly measureNext: readonly {
    readonly path: string;
    readonly section: string;
    readonly label: string;
    readonly decides: readonly string[];
    readonly weight: number;
  }[];
}

/** The published object of a sheet's answer. */
export function sheetObject(file: string, sheet: Sheet, answer: SheetAnswer): SheetObject {
  const verdicts: Record<Verdict, number> = { fine: 0, 'look again': 0, stop: 0, 'not known': 0 };
  for (const check of answer.checks) verdicts[check.verdict] += 1;
  return {
    format: 'sheet-answer/1',
    file,
    ok: true,
    version: SHEET_VERSION,
    name: sheet.name ?? null,
    use: sheet.use ?? null,
    verdicts,
    figures: answer.figures.map((figure) => published(figure, sheet)),
    checks: answer.checks.map((check) => ({
      ...published(check, sheet),
      verdict: check.verdict,
      window: check.window,
      worst: check.worst === null ? null : (labelsOf(check, sheet)[check.worst] ?? null),
      remedy: check.remedy === '' ? null : check.remedy,
    })),
    measureNext: answer.measureNext.map(({ path, label, decides, weight }) => {
      const section = path.split('.')[0]!;
      return { path, section: sectionOf(section)?.title ?? section, label, decides, weight };
    }),
  };
}

function published(answer: Figure, sheet: Sheet): PublishedAnswer {
  const labels = labelsOf(answer, sheet);
  return {
    id: answer.id,
    section: answer.section,
    label: answer.label,
    unit: insideUnit(answer.shown),
    value: answer.value,
    plusMinus: answer.plusMinus,
    each:
      answer.each === null
        ? null
        : answer.each.map((value, i) => ({ place: labels[i] ?? String(i + 1), value })),
    how: answer.how,
    from: answer.from,
    missing: answer.missing,
    assumed: answer.assumed,
    range: answer.range,
    notes: answer.notes,
    problem: answer.problem,
    shown: answer.shown,
    decimals: answer.decimals,
    isDifference: answer.isDifference,
  };
}

/** Places of an answer, or names of the rows of the table that it goes through. */
const labelsOf = ({ per, rows }: Figure, sheet: Sheet): readonly string[] =>
  rows ?? (per === null ? [] : placeLabels(per, sheet.layout));

/** Symbol of the unit in which numbers of this kind are computed. */
export function insideUnit(kind: DisplayKind): string {
  const { dimension } = displayUnit(kind, 'metric');
  return UNITS.find(
    (unit) => unit.dimension === dimension && unit.factor === 1 && unit.offset === 0,
  )!.symbol;
}

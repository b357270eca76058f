import { PullbookError } from '../../errors.ts';
import { fieldOf, tableOf } from '../sections/index.ts';
import type { Sheet } from '../sheet/types.ts';
import { unitOfField } from '../sheet/units.ts';
import { Ask, Memory, type Need, NotMeasured } from './ask.ts';
import type {
  Check,
  CheckSpec,
  Figure,
  FigureSpec,
  Note,
  Said,
  SheetAnswer,
  ToMeasure,
  Value,
  Verdict,
  Window,
} from './types.ts';
import { ruleFor, type WindowRule, windowOf } from './windows.ts';

/** What one computation came to: a value, what is missing, or why the sheet cannot be true. */
interface Outcome {
  readonly value: Value | null;
  readonly range: Figure['range'];
  readonly notes: readonly Note[];
  readonly rows: readonly string[] | null;
  readonly from: readonly string[];
  readonly assumed: readonly string[];
  readonly missing: readonly string[];
  readonly problem: string | null;
}

/**
 * Everything that follows from a sheet: figures, checks against the shop's windows, and what to measure next.
 * Nothing is refused because something else is not known.
 * @param rules  shipped windows, then the shop's own
 * @param withTolerances  without them every `plusMinus` is null and the answer takes a fraction of the time
 */
export function answerFrom(
  figures: readonly FigureSpec[],
  checks: readonly CheckSpec[],
  sheet: Sheet,
  rules: readonly WindowRule[],
  withTolerances = true,
): SheetAnswer {
  const asking = new Asking(sheet, withTolerances);
  const applies = ({ applies: does = () => true }: FigureSpec | CheckSpec) => does(asking.ask());
  const figureAnswers = figures.filter(applies).map((spec) => figureOf(spec, asking));
  const checkAnswers = checks.filter(applies).map((spec) => checkOf(spec, asking, rules));
  return {
    figures: figureAnswers,
    checks: checkAnswers,
    measureNext: measureNext(figureAnswers, checkAnswers, checks),
  };
}

/** One sheet with what was worked out of it so far, for one answer. */
class Asking {
  readonly sheet: Sheet;
  readonly withTolerances: boolean;
  readonly #memory: Memory;
  readonly #shifted = new Map<string, readonly Ask[] | null>();
  constructor(sheet: Sheet, withTolerances: boolean) {
    this.sheet = sheet;
    this.withTolerances = withTolerances;
    this.#memory = new Memory(sheet);
  }
  ask(): Ask {
    return new Ask(this.sheet, null, this.#memory);
  }
  /** The sheet with a field moved by its tolerance, down and up; null where it has none. One pair for all who ask. */
  asShifted(path: string): readonly Ask[] | null {
    let pair = this.#shifted.get(path);
    if (pair === undefined) {
      const by = toleranceOf(this.sheet, path);
      pair =
        by === null || by === 0
          ? null
          : [-by, by].map((one) => new Ask(this.sheet, { path, by: one }, this.#memory));
      this.#shifted.set(path, pair);
    }
    return pair;
  }
}

const saidOf = (given: Value | Said): Said =>
  typeof given === 'number' || !('value' in given) ? { value: given } : given;

function outcomeOf(need: Need<Value | Said>, asking: Asking): Outcome {
  const ask = asking.ask();
  const came = ask.recall(need);
  const said = 'value' in came ? saidOf(came.value) : null;
  const thrown = 'thrown' in came ? came.thrown : null;
  if (thrown !== null && !(thrown instanceof NotMeasured) && !(thrown instanceof PullbookError))
    throw thrown;
  // Field by field: this is made for every answer at every keystroke, and spreading took a tenth of the time.
  return {
    value: said?.value ?? null,
    range: said?.range ?? null,
    notes: said?.notes ?? [],
    rows: said?.rows ?? null,
    from: [...ask.used],
    assumed: [...ask.assumed],
    missing: thrown instanceof NotMeasured ? thrown.paths : [],
    problem: thrown instanceof PullbookError ? thrown.message : null,
  };
}

/** The number that stands for a value: itself, or the mean of the places that are known. */
function numberOf(value: Value | null): number | null {
  if (value === null || typeof value === 'number') return value;
  const known = value.filter((one): one is number => one !== null);
  return known.length === 0 ? null : known.reduce((sum, one) => sum + one, 0) / known.length;
}

/**
 * Half of the 95 % interval that the tolerances on the sheet leave. Each tolerance is the half of its own 95 %
 * interval; independent slips add in squares, each by what shifting its field does to the result (GUM 5.1.2,
 * with differences in place of derivatives). A field measured at many places is shifted at all of them: a gauge
 * that is off is off everywhere.
 */
function plusMinusOf(need: Need<Value | Said>, asking: Asking, outcome: Outcome): number | null {
  const middle = numberOf(outcome.value);
  if (middle === null || !asking.withTolerances) return null;
  let squares = 0;
  let any = false;
  for (const path of outcome.from) {
    const shifted = asking.asShifted(path);
    if (shifted === null) continue;
    any = true;
    const sides = shifted.map((ask) => {
      const came = ask.recall(need);
      if ('value' in came) return numberOf(saidOf(came.value).value);
      // A shift may leave what is possible; the other side then speaks alone.
      if (came.thrown instanceof PullbookError || came.thrown instanceof NotMeasured) return null;
      throw came.thrown;
    });
    const effects = sides.filter((one): one is number => one !== null);
    if (effects.length > 0)
      squares += Math.max(...effects.map((one) => Math.abs(one - middle))) ** 2;
  }
  return any ? Math.sqrt(squares) : null;
}

/** Tolerance of a field in inside units; null where none was given. */
function toleranceOf(sheet: Sheet, path: string): number | null {
  const [section, id] = path.split('.') as [string, string];
  const entry = sheet.sections[section]?.values?.[id];
  if (entry?.plusMinus === undefined) return null;
  const field = fieldOf(path)!;
  const unit = entry.unit === undefined ? undefined : unitOfField(field, entry.unit);
  return entry.plusMinus * (unit?.factor ?? 1);
}

function figureOf(spec: FigureSpec | CheckSpec, asking: Asking): Figure {
  const outcome = outcomeOf(spec.compute, asking);
  return {
    id: spec.id,
    section: spec.section,
    label: spec.label,
    shown: spec.shown,
    decimals: spec.decimals ?? null,
    how: spec.how,
    per: spec.per ?? null,
    value: numberOf(outcome.value),
    each: Array.isArray(outcome.value) ? outcome.value : null,
    rows: outcome.rows,
    plusMinus: plusMinusOf(spec.compute, asking, outcome),
    isDifference: spec.isDifference ?? false,
    range: outcome.range,
    notes: outcome.notes,
    from: outcome.from,
    assumed: outcome.assumed,
    missing: outcome.missing,
    problem: outcome.problem,
  };
}

function checkOf(spec: CheckSpec, asking: Asking, rules: readonly WindowRule[]): Check {
  const figure = figureOf(spec, asking);
  const rule = ruleFor(spec.window, asking.ask(), rules);
  const scale = spec.scale === undefined ? null : outcomeOf(spec.scale, asking);
  const window = rule === null ? null : windowOf(rule, numberOf(scale?.value ?? null));
  const missing = [...new Set([...figure.missing, ...(rule?.perM ? (scale?.missing ?? []) : [])])];
  const values = figure.each ?? [figure.value];
  const judged = values.map((value) =>
    value === null || window === null ? null : judge(value, window),
  );
  let worst: number | null = null;
  judged.forEach((one, i) => {
    if (one === null) return;
    if (worst === null || one.beyond > judged[worst]!.beyond) worst = i;
  });
  const decisive = worst === null ? null : judged[worst]!;
  const verdict: Verdict =
    figure.problem !== null ? 'stop' : decisive === null ? 'not known' : decisive.verdict;
  return {
    ...figure,
    missing,
    value: worst === null ? figure.value : (values[worst] ?? figure.value),
    verdict,
    window,
    worst: figure.each === null || verdict === 'fine' ? null : worst,
    remedy: decisive === null || decisive.side === null ? null : spec.remedy[decisive.side],
  };
}

/** Verdict of one value, and how far beyond its window it stands as a share of the window. */
function judge(
  value: number,
  window: Window,
): { verdict: Verdict; side: 'low' | 'high' | null; beyond: number } {
  const width =
    window.low !== null && window.high !== null && window.high > window.low
      ? window.high - window.low
      : Math.abs(window.low ?? window.high ?? 1) || 1;
  const under = window.low === null ? -Infinity : (window.low - value) / width;
  const over = window.high === null ? -Infinity : (value - window.high) / width;
  const beyond = Math.max(under, over);
  // A value on the edge of its window stands in it: what was typed in inches must not fall out by rounding.
  const hair = 1e-9;
  const stops =
    (window.stopBelow !== null && value < window.stopBelow - hair * width) ||
    (window.stopAbove !== null && value > window.stopAbove + hair * width);
  const isIn = beyond <= hair && !stops;
  return {
    verdict: stops ? 'stop' : isIn ? 'fine' : 'look again',
    side: isIn ? null : under > over ? 'low' : 'high',
    beyond: stops ? beyond + 1e6 : beyond,
  };
}

/** Missing fields, those first that decide most: each check counts its weight, shared by all that it still lacks. */
function measureNext(
  figures: readonly Figure[],
  checks: readonly Check[],
  specs: readonly CheckSpec[],
): readonly ToMeasure[] {
  const weights = new Map(specs.map((spec) => [spec.id, spec.weight]));
  const wanted = new Map<string, { decides: string[]; weight: number }>();
  const want = (path: string, label: string, weight: number) => {
    const entry = wanted.get(path) ?? { decides: [], weight: 0 };
    if (!entry.decides.includes(label)) entry.decides.push(label);
    entry.weight += weight;
    wanted.set(path, entry);
  };
  for (const answer of [...checks, ...figures]) {
    const weight = 'verdict' in answer ? (weights.get(answer.id) ?? 1) : FIGURE_WEIGHT;
    for (const path of answer.missing) want(path, answer.label, weight / answer.missing.length);
    for (const path of answer.assumed) want(path, answer.label, ASSUMED_WEIGHT * weight);
  }
  return [...wanted]
    .map(([path, entry]) => ({ path, label: labelOf(path), ...entry }))
    .sort((a, b) => b.weight - a.weight || a.path.localeCompare(b.path));
}

/** A figure tells, a check decides: many figures of one fuel must not outweigh a piston that may meet the head. */
const FIGURE_WEIGHT = 0.2;
/** What was assumed is answered already, if less well: it counts by this much of what is missing. */
const ASSUMED_WEIGHT = 0.2;

function labelOf(path: string): string {
  const [section, id] = path.split('.') as [string, string];
  return fieldOf(path)?.label ?? tableOf(section, id)?.label ?? path;
}

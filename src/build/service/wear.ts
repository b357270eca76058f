/** Whether leak-down or cranking pressure moved over time: of one cylinder against the others, and of all together. */
import { tQuantile } from '../../numerics/index.ts';

/** The cylinders as they were read on one date. */
export interface CylinderReading {
  /** ISO day. */
  readonly date: string;
  /** By cylinder; null: not read. A share for leak-down, Pa for pressure. */
  readonly values: readonly (number | null)[];
  /** Half width of what the gauge may be off by that day, taken as 95 %; null: nobody said. */
  readonly error: number | null;
}
export type WearMeasure = 'leakDown' | 'crankingPressure';

/** Change from the first date to the last, in the unit of the readings. */
export interface WearChange {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
export interface Wear {
  readonly word: 'moved' | 'cannot be told from chance' | 'not known yet';
  readonly fromDate: string | null;
  readonly toDate: string | null;
  /** Dates on which every cylinder was read: only these count. */
  readonly dates: number;
  readonly cylinders: number;
  /** Cylinders that moved against the others, from 1, the one that stands out most first. */
  readonly moved: readonly { readonly cylinder: number; readonly against: WearChange }[];
  /** Of the mean of the other cylinders; null: not known yet. */
  readonly together: (WearChange & { readonly moved: boolean }) | null;
  /** The newest reading, whole or not. */
  readonly newest: {
    readonly date: string;
    /** From 1. */
    readonly worstCylinder: number;
    readonly worst: number;
    readonly mean: number;
    /** Highest less lowest; null where one cylinder was read. */
    readonly spread: number | null;
  } | null;
}

const LEAST_DATES = 3;
const DAY_MS = 86_400_000;
/** Chance of calling anything moved where nothing did, over all that is asked of one measure. */
const FALSE_ALARM = 0.05;
const NORMAL_95 = 1.96;

/**
 * Derivation. The reading of cylinder i on date j is y_ij = a_i + b_i t_j + c_j + e_ij. What a date does to all of them
 * (the gauge, its air, the temperature, how fast the starter turned) is c_j, independent from date to date; e_ij is what
 * one reading scatters by. Two questions, each with its own scatter:
 *
 *  - One cylinder against the rest. In d_ij = y_ij less the mean of the date, c_j drops out, and with it whatever the
 *    gauge is off by. b_i less the mean of the others is estimated by least squares of d_i on t, scaled by n/(n−1);
 *    its variance is σ_e² (1 + 1/(n−1)) / S_tt, where σ_e² comes from the residuals of all cylinders on
 *    (n−1)(m−2) degrees of freedom.
 *  - All together. The mean of the date on t, with the scatter of those means about their line on m−2 degrees of
 *    freedom; where the gauge's own ± says more, its sd (± / 1.96) stands in: few means can agree by chance, a gauge
 *    does not get better by that.
 *
 * Readings are rounded: no scatter is taken to be less than that of rounding to the smallest step that occurs between
 * any two readings, step/√12. The false-alarm chance of 5 % is halved between the two questions, and the half of the
 * cylinders is divided by their number (Bonferroni), so that over everything asked it is at most 5 %. The cylinder that
 * stands out most is set aside and the rest asked again, because one that falls lifts the others against the mean.
 *
 * @source  two-way layout, contrasts of slopes: own derivation, held against lm() of R in reference/compare.test.ts;
 *          Bonferroni: NIST/SEMATECH e-Handbook 7.4.7.3, from memory; rounding: JCGM 100:2008 (GUM) F.2.2.1
 * @validity  changes that go on steadily: a step is found later than a slope of the same size. Scatter alike for all
 *          cylinders; dates that differ independently. Two gauges that are off in different ways are a change of
 *          all together unless their ± says so
 */
export function wearOf(readings: readonly CylinderReading[], measure: WearMeasure): Wear {
  const dated = readings
    .filter(({ date }) => Number.isFinite(Date.parse(date)))
    .sort((a, b) => a.date.localeCompare(b.date));
  const cylinders = Math.max(0, ...dated.map(({ values }) => values.length));
  const whole = dated.flatMap(({ date, values, error }) => {
    const known = values.filter((value): value is number => value !== null);
    return known.length === cylinders && cylinders > 0 ? [{ date, values: known, error }] : [];
  });
  const base = {
    fromDate: whole[0]?.date ?? null,
    toDate: whole.at(-1)?.date ?? null,
    dates: new Set(whole.map(({ date }) => date)).size,
    cylinders,
    newest: newestOf(dated, measure),
  };
  if (base.dates < LEAST_DATES)
    return { ...base, word: 'not known yet', moved: [], together: null };

  const days = whole.map(({ date }) => Date.parse(date) / DAY_MS);
  const rounding = stepIn(whole.flatMap(({ values }) => values)) / Math.sqrt(12);
  const gauge = Math.sqrt(meanOf(whole.map(({ error }) => ((error ?? 0) / NORMAL_95) ** 2)));
  let left = Array.from({ length: cylinders }, (_, at) => at);
  const moved: Wear['moved'][number][] = [];
  while (left.length >= 2) {
    const one = standsOut(days, whole, left, { rounding, measure, first: moved.length === 0 });
    if (one === null) break;
    moved.push({ cylinder: one.at + 1, against: one.against });
    left = left.filter((at) => at !== one.at);
  }
  const means = whole.map(({ values }) => meanOf(left.map((at) => values[at]!)));
  const chance = cylinders < 2 ? FALSE_ALARM : FALSE_ALARM / 2;
  const line = lineThrough(days, means);
  const freedom = days.length - 2;
  const sd = Math.max(
    Math.sqrt(line.residualSum / freedom),
    Math.hypot(gauge, rounding / Math.sqrt(left.length)),
  );
  const change = changeOf(line.slope, sd / Math.sqrt(line.spread), days, chance, freedom);
  const together = { ...change, moved: isMoved(change) };
  return {
    ...base,
    word: moved.length > 0 || together.moved ? 'moved' : 'cannot be told from chance',
    moved,
    together,
  };
}

/** Of the cylinders that are left, the one that moved most against the others; null where chance could have done it. */
function standsOut(
  days: readonly number[],
  whole: readonly { readonly values: readonly number[] }[],
  left: readonly number[],
  how: { readonly rounding: number; readonly measure: WearMeasure; readonly first: boolean },
): { readonly at: number; readonly against: WearChange } | null {
  const n = left.length;
  // Of two that move apart either may have; once others were set aside, too little is left to say.
  if (n === 2 && !how.first) return null;
  const lines = left.map((at) =>
    lineThrough(
      days,
      whole.map(({ values }) => values[at]! - meanOf(left.map((other) => values[other]!))),
    ),
  );
  const freedom = (n - 1) * (days.length - 2);
  const residualSum = lines.reduce((sum, { residualSum }) => sum + residualSum, 0);
  const sd = Math.max(Math.sqrt(residualSum / freedom), how.rounding);
  const se = sd * Math.sqrt((1 + 1 / (n - 1)) / lines[0]!.spread);
  const chance = FALSE_ALARM / 2 / n;
  const changes = lines.map(({ slope }, place) => ({
    at: left[place]!,
    against: changeOf((slope * n) / (n - 1), se, days, chance, freedom),
  }));
  const isWorse = ({ value }: WearChange) => (how.measure === 'leakDown' ? value : -value);
  const size = ({ against }: (typeof changes)[number]) =>
    // Of two, the one that got worse is the one to look at.
    n === 2 ? isWorse(against) : Math.abs(against.value);
  const most = [...changes].sort((a, b) => size(b) - size(a))[0]!;
  return isMoved(most.against) ? most : null;
}

const isMoved = ({ low, high }: WearChange) => low > 0 || high < 0;

function changeOf(
  slope: number,
  se: number,
  days: readonly number[],
  chance: number,
  freedom: number,
): WearChange {
  const span = days.at(-1)! - days[0]!;
  const half = tQuantile(1 - chance / 2, freedom) * se * span;
  const value = slope * span;
  return { value, low: value - half, high: value + half };
}

function lineThrough(x: readonly number[], y: readonly number[]) {
  const [meanX, meanY] = [meanOf(x), meanOf(y)];
  const spread = x.reduce((sum, one) => sum + (one - meanX) ** 2, 0);
  const slope = x.reduce((sum, one, at) => sum + (one - meanX) * (y[at]! - meanY), 0) / spread;
  const residualSum = x.reduce(
    (sum, one, at) => sum + (y[at]! - meanY - slope * (one - meanX)) ** 2,
    0,
  );
  return { slope, spread, residualSum };
}

/** The smallest step between two readings that differ; 0 where none do. */
function stepIn(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const scale = Math.max(...values.map(Math.abs));
  const steps = sorted.slice(1).map((value, at) => value - sorted[at]!);
  const real = steps.filter((step) => step > 1e-9 * scale);
  return real.length === 0 ? 0 : Math.min(...real);
}

function newestOf(dated: readonly CylinderReading[], measure: WearMeasure): Wear['newest'] {
  const last = dated.findLast(({ values }) => values.some((value) => value !== null));
  if (last === undefined) return null;
  const read = last.values.flatMap((value, at) => (value === null ? [] : [{ value, at }]));
  const values = read.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const worst = measure === 'leakDown' ? high : low;
  return {
    date: last.date,
    worstCylinder: read.find(({ value }) => value === worst)!.at + 1,
    worst,
    mean: meanOf(values),
    spread: read.length < 2 ? null : high - low,
  };
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, one) => sum + one, 0) / values.length;

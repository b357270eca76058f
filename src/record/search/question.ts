/** A question taken apart: peaks and days are read out of it, what is left over is words. */
import { findUnit, readNumber, toInside, type UnitSystem } from '../../units/index.ts';

/** What was asked for beside words, as it was understood. */
export interface PeakRange {
  readonly of: 'power' | 'torque';
  /** [W] or [N·m]; null: no end. */
  readonly low: number | null;
  readonly high: number | null;
}
/** ISO days or their beginnings (`2026-05`), both within; null: no end. */
export type DayRange = readonly [string | null, string | null];
export interface Question {
  readonly peaks: PeakRange | null;
  readonly days: DayRange | null;
  readonly words: readonly string[];
}

export const MOST_QUERY_LETTERS = 200;
const MOST_WORDS = 12;

const UNIT = String.raw`(hp|kw|ps|w|lb[-·]?ft|ft[-·]?lb|n[·.]?m)\b`;
const NUMBER = String.raw`(\d[\d.,]*)`;
const NAME = String.raw`(?:\b(?:peak\s+)?(power|torque)\s*)`;
const OVER = String.raw`(over|above|at\s+least|from|>=?|≥)`;
const UNDER = String.raw`(under|below|at\s+most|up\s+to|<=?|≤)`;
const TO = String.raw`\s*(?:-|–|to|and|\.\.)\s*`;
const pattern = (text: string) => new RegExp(text, 'iu');
/** The name of the peak may be left out where a unit tells it; a unit may stand after the first number, or both. */
const BETWEEN = pattern(
  String.raw`${NAME}?(?:(?:\bbetween|\bfrom)\s+)?(?<![\w-])${NUMBER}(?:\s*${UNIT})?${TO}${NUMBER}(?:\s*${UNIT})?`,
);
const BOUND = pattern(String.raw`${NAME}?(?:${OVER}|${UNDER})\s*${NUMBER}(?:\s*${UNIT})?`);

const MONTHS =
  'january february march april may june july august september october november december'.split(
    ' ',
  );
const MONTH = '(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*';
const DAY = String.raw`(?:\d{4}-\d\d-\d\d|\d{4}-\d\d|(?:\d{1,2}\s+)?${MONTH}(?:\s+\d{4})?|(?:19|20)\d\d)`;
const DAYS = pattern(
  String.raw`(?:\b(?:between|from)\s+)?\b(${DAY})\s*(?:\.\.|–|to|until|and)\s*(${DAY})\b`,
);
const OPEN = pattern(String.raw`(?<![\w-])(\d{4}(?:-\d\d(?:-\d\d)?)?)\s*\.\.`);
const SINCE = pattern(String.raw`\b(since|from|after|until|till|before)\s+(${DAY})\b`);
/** `17.5.2026`; `5/17/2026` where the shop writes it so, `17/5/2026` elsewhere. */
const POINTED = /(?<![\d.])(\d{1,2})\.(\d{1,2})\.(\d{4})(?![\d.])/gu;
const SLASHED = /(?<![\d/])(\d{1,2})\/(\d{1,2})\/(\d{4})(?![\d/])/gu;

/** @param units  of a peak whose unit is not said, and of a date with slashes */
export function understood(text: string, units: UnitSystem): Question {
  let rest = withIsoDays(text.slice(0, MOST_QUERY_LETTERS), units);
  const cut = <T>(found: RegExpExecArray | null, read: (found: RegExpExecArray) => T | null) => {
    const value = found === null ? null : read(found);
    if (found !== null && value !== null) rest = rest.replace(found[0], ' ');
    return value;
  };
  // Days first: what is a date is never a figure.
  const days =
    cut(DAYS.exec(rest), (found) => between(found[1]!, found[2]!)) ??
    cut(OPEN.exec(rest), (found): DayRange => [found[1]!, null]) ??
    cut(SINCE.exec(rest), (found) => bounded(found[1]!, found[2]!));
  const peaks =
    cut(BETWEEN.exec(rest), (found) => {
      const [, name, one, unit, two, last] = found;
      return rangeOf(name, last ?? unit, units, one, two);
    }) ??
    cut(BOUND.exec(rest), (found) => {
      const [, name, over, , number, unit] = found;
      return over === undefined
        ? rangeOf(name, unit, units, null, number)
        : rangeOf(name, unit, units, number, null);
    });
  const words = rest
    // What no word of the index can hold: it would ask for nothing, or be read as a sign of the engine.
    .replace(/\0/g, ' ')
    .split(/\s+/u)
    .filter((word) => /[\p{L}\p{N}]/u.test(word))
    .slice(0, MOST_WORDS);
  return { peaks, days, words };
}

function rangeOf(
  name: string | undefined,
  said: string | undefined,
  system: UnitSystem,
  low: string | null | undefined,
  high: string | null | undefined,
): PeakRange | null {
  // Two numbers that nobody calls a peak are words.
  const of = (name?.toLowerCase() ?? dimensionOf(said)) as PeakRange['of'] | null;
  if (of === null) return null;
  const usual = of === 'power' ? { us: 'hp', metric: 'kW' } : { us: 'lb-ft', metric: 'N·m' };
  const unit = findUnit(said ?? usual[system], of);
  if (unit === undefined) return null;
  const inside = (text: string | null | undefined): number | null => {
    const value = text == null ? undefined : readNumber(text.replace(/[.,]+$/, ''));
    return value === undefined ? null : toInside(value, unit);
  };
  const [one, two] = [inside(low), inside(high)];
  if ((low != null && one === null) || (high != null && two === null)) return null;
  if (one !== null && two !== null)
    return { of, low: Math.min(one, two), high: Math.max(one, two) };
  return { of, low: one, high: two };
}

const dimensionOf = (unit: string | undefined): PeakRange['of'] | null => {
  if (unit === undefined) return null;
  return /^(hp|kw|ps|w)$/iu.test(unit) ? 'power' : 'torque';
};

function between(from: string, to: string): DayRange | null {
  // `May to July 2026`: the year said once is that of both.
  const year = /\d{4}/.exec(to)?.[0] ?? /\d{4}/.exec(from)?.[0];
  const [first, last] = [isoOf(from, year), isoOf(to, year)];
  return first === null || last === null ? null : [first, last];
}

function bounded(word: string, day: string): DayRange | null {
  const iso = isoOf(day, undefined);
  if (iso === null) return null;
  switch (word.toLowerCase()) {
    case 'after':
      return [dayBeside(iso, 1), null];
    case 'before':
      return [null, dayBeside(iso, -1)];
    case 'until':
    case 'till':
      return [null, iso];
    default:
      return [iso, null];
  }
}

/** `17 May 2026` → `2026-05-17`; null where it has no year. */
function isoOf(text: string, year: string | undefined): string | null {
  if (/^\d{4}/.test(text)) return text;
  const [, day, month, own] =
    /^(?:(\d{1,2})\s+)?([a-z]+)(?:\s+(\d{4}))?$/iu.exec(text.trim()) ?? [];
  const place = MONTHS.findIndex((name) => name.startsWith(month!.slice(0, 3).toLowerCase()));
  const whole = own ?? year;
  if (whole === undefined || place < 0 || !MONTHS[place]!.startsWith(month!.toLowerCase()))
    return null;
  return [whole, pad(place + 1), ...(day === undefined ? [] : [pad(Number(day))])].join('-');
}

/** The day before the beginning of a stretch of days, or after its end. */
function dayBeside(iso: string, by: 1 | -1): string {
  const [year, month = by === 1 ? 12 : 1, day] = iso.split('-').map(Number);
  const at =
    day !== undefined
      ? Date.UTC(year!, month - 1, day + by)
      : by === 1
        ? Date.UTC(year!, month, 1)
        : Date.UTC(year!, month - 1, 0);
  return Number.isFinite(at) ? new Date(at).toISOString().slice(0, 10) : iso;
}

function withIsoDays(text: string, units: UnitSystem): string {
  const iso = (day: string, month: string, year: string, all: string) =>
    Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= 31
      ? `${year}-${pad(Number(month))}-${pad(Number(day))}`
      : all;
  return text
    .replace(POINTED, (all, day, month, year) => iso(day, month, year, all))
    .replace(SLASHED, (all, one, two, year) =>
      (units === 'us' ? Number(one) <= 12 : Number(two) > 12)
        ? iso(two, one, year, all)
        : iso(one, two, year, all),
    );
}
const pad = (number: number) => String(number).padStart(2, '0');

/** `07:34:26.120`, `7:34:26,12 pm`, `34:26.1`, `07:34:26:120` and `00:07:34`. */
const TIME = /^(\d{1,4}):(\d{1,2})(?::(\d{1,2}))?(?:[.,:](\d{1,9}))?\s*([ap])?\.?(?:m\.?)?$/i;
/** `2026-11-25`, `25/11/2026`, `25.11.26`; then perhaps `T` or a space and the time, then perhaps a zone. */
const DATE =
  /^(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})(?:(?:[T\s,]+)(\d{1,2}:\d{1,2}(?::\d{1,2})?(?:[.,:]\d{1,9})?\s*(?:[ap]\.?m\.?)?)\s*(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})?)?$/i;
const LONGEST_CLOCK = 48;
/** Every clock reading and every date has one of these. */
const CLOCK_MARK = /[:/.-]/;

/** Whether a text reads as a time of day, a running clock or a date with or without a time. */
export function looksLikeClock(text: string): boolean {
  if (text.length > LONGEST_CLOCK || !CLOCK_MARK.test(text)) return false;
  return !Number.isNaN(clockSeconds(text, true));
}

/**
 * Seconds of a clock reading: since midnight for a time, since 1970 for a date with time; NaN where it is neither.
 * Two parts are minutes and seconds (`34:26.1`). Zones are left aside: only differences are used.
 */
export function clockSeconds(text: string, dayFirst: boolean): number {
  if (text.length > LONGEST_CLOCK) return Number.NaN;
  const time = TIME.exec(text);
  if (time !== null) return timeSeconds(time);
  const date = DATE.exec(text);
  if (date === null) return Number.NaN;
  const days = daysOf(date[1]!, date[3]!, date[4]!, dayFirst);
  if (date[5] === undefined) return days * 86_400;
  const ofDay = TIME.exec(date[5].trim());
  return ofDay === null ? Number.NaN : days * 86_400 + timeSeconds(ofDay, true);
}

function timeSeconds(match: RegExpExecArray, twoAreHours = false): number {
  const first = Number(match[1]);
  const second = Number(match[2]);
  const fraction = match[4] === undefined ? 0 : Number(`0.${match[4]}`);
  const third = match[3] === undefined ? undefined : Number(match[3]);
  if (second > 59 || (third ?? 0) > 60) return Number.NaN;
  if (third === undefined && !twoAreHours && match[5] === undefined)
    return first * 60 + second + fraction;
  let hours = first;
  if (match[5] !== undefined) {
    if (hours < 1 || hours > 12) return Number.NaN;
    hours = (hours % 12) + (match[5].toLowerCase() === 'p' ? 12 : 0);
  }
  return hours * 3600 + second * 60 + (third ?? 0) + fraction;
}

function daysOf(first: string, middle: string, last: string, dayFirst: boolean): number {
  const yearFirst = first.length >= 3;
  if (!yearFirst && last.length === 3) return Number.NaN;
  const year = fullYear(yearFirst ? first : last);
  const [a, b] = yearFirst ? [Number(last), Number(middle)] : [Number(first), Number(middle)];
  let day = a;
  let month = b;
  if (!yearFirst && !dayFirst) [day, month] = [b, a];
  // What cannot be a month is the day, whatever the order was said to be.
  if (!yearFirst && month > 12 && day <= 12) [day, month] = [month, day];
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN;
  return Date.UTC(year, month - 1, day) / 86_400_000;
}

function fullYear(text: string): number {
  const year = Number(text);
  return text.length <= 2 ? 2000 + year : year;
}

/**
 * Order of day and month as the dates themselves show it: true, false, or null where none of them tells;
 * `none` where there is no date in which it matters.
 */
export function dayOrder(texts: Iterable<string>): boolean | null | 'none' {
  const days = new Set<string>();
  for (const text of texts) {
    const date = DATE.exec(text.slice(0, LONGEST_CLOCK));
    if (date === null || date[1]!.length >= 3) continue;
    days.add(`${date[1]}/${date[3]}/${date[4]}`);
    if (Number(date[1]) > 12) return true;
    if (Number(date[3]) > 12) return false;
  }
  // Only differences are used, and within one day there are none.
  return days.size > 1 ? null : 'none';
}

/**
 * Turns clock readings into seconds since the first, in place. A time of day that falls back by more than half a day
 * has passed midnight.
 */
export function sinceFirst(seconds: Float64Array): void {
  let origin = Number.NaN;
  let previous = Number.NaN;
  let days = 0;
  for (let row = 0; row < seconds.length; row++) {
    const value = seconds[row]!;
    if (Number.isNaN(value)) continue;
    if (Number.isNaN(origin)) origin = value;
    else if (value < previous - 43_200 && value < 86_400) days += 86_400;
    previous = value;
    // Rounded to microseconds: epoch seconds as doubles carry no more.
    seconds[row] = Math.round((value + days - origin) * 1e6) / 1e6;
  }
}

/** How fast an engine is being used, by its last days, and when something will have been used up at that pace. */
import { tQuantile } from '../../numerics/index.ts';

/** What was used by the end of this day since the one before it: pulls, seconds. */
export interface UsedOn {
  /** ISO day. */
  readonly date: string;
  readonly amount: number;
}
export interface Reached {
  /** ISO day. */
  readonly on: string;
  readonly earliest: string;
  /** Null: a later end is not known. */
  readonly latest: string | null;
  /** Days with a date that the pace was taken from. */
  readonly days: number;
}
export type NoPace = 'too few days' | 'has stood';

/** The last so many days say what the pace is now. */
const MOST_DAYS = 8;
/** Two intervals are the fewest whose scatter says anything. */
const LEAST_DAYS = 3;
/** An engine that has stood this much longer than ever before among these days has no pace. */
const STOOD = 2;
const DAY_MS = 86_400_000;
/** Past this a date says nothing any more. */
const MOST_DAYS_AHEAD = 3650;

/**
 * When `left` more will have been used, seen from a day, at the pace of the last days: amount over time as a ratio r of
 * what was used in the intervals between them. The interval holds both how well r is known from m intervals and how the
 * k intervals to come will differ from it: r ± t(0.975, m−1) s √(1/m + 1/k) / ḡ, where s is the scatter of a_i − r g_i
 * and ḡ the mean gap; turned into time by left / r.
 *
 * @source  ratio estimator and its variance: W. G. Cochran, Sampling Techniques, 3rd ed., 6.4, from memory; the part of
 *          the intervals to come: own derivation. Simulated truth beside it
 * @validity  an engine that is used on as it was; a season's end or a sale is not in its past days
 */
export function reachedOn(
  used: readonly UsedOn[],
  left: number,
  on: string,
): Reached | { readonly none: NoPace } {
  const byDay = new Map<string, number>();
  for (const { date, amount } of used)
    if (date <= on) byDay.set(date, (byDay.get(date) ?? 0) + amount);
  const days = [...byDay].sort(([a], [b]) => a.localeCompare(b)).slice(-MOST_DAYS);
  if (days.length < LEAST_DAYS) return { none: 'too few days' };
  const places = days.map(([date]) => Date.parse(date) / DAY_MS);
  const gaps = places.slice(1).map((place, at) => place - places[at]!);
  const amounts = days.slice(1).map(([, amount]) => amount);
  const today = Date.parse(on) / DAY_MS;
  if (today - places.at(-1)! > STOOD * Math.max(...gaps)) return { none: 'has stood' };
  const m = gaps.length;
  const [whole, time] = [sum(amounts), sum(gaps)];
  if (!(whole > 0)) return { none: 'too few days' };
  const r = whole / time;
  const k = Math.max(1, left / (whole / m));
  const residuals = sum(gaps.map((gap, at) => (amounts[at]! - r * gap) ** 2));
  const sd = Math.sqrt(residuals / (m - 1));
  const half = (tQuantile(0.975, m - 1) * sd * Math.sqrt(1 / m + 1 / k)) / (time / m);
  const dayAt = (pace: number): string | null => {
    const ahead = left / pace;
    return pace > 0 && ahead <= MOST_DAYS_AHEAD
      ? new Date(Math.round(today + ahead) * DAY_MS).toISOString().slice(0, 10)
      : null;
  };
  const central = dayAt(r);
  if (central === null) return { none: 'has stood' };
  return { on: central, earliest: dayAt(r + half)!, latest: dayAt(r - half), days: days.length };
}

const sum = (values: readonly number[]) => values.reduce((all, one) => all + one, 0);

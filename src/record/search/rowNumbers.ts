/** The number of a row tells its kind and day: within a kind, the newest stands last. */
import { FOUND_KINDS, type FoundKind } from './words.ts';

/** Room for a running number, for days since 1900, for kinds: 32 + 16 + 5 bits make 53, what a number holds exactly. */
const DAY = 2 ** 32;
export const KIND = 2 ** 48;
const MOST_DAYS = 2 ** 16 - 1;
const FIRST_DAY = Date.UTC(1900, 0, 1);

/** @param onDate  ISO day, or its beginning; empty: not known, stands as the oldest */
export function rowNumber(kind: FoundKind, onDate: string, running: number): number {
  return FOUND_KINDS.indexOf(kind) * KIND + dayNumber(onDate) * DAY + running;
}

/** First and last number that a kind can have between two days (null: no end). */
export function rowsOf(
  kind: FoundKind,
  [from, to]: readonly [string | null, string | null] = [null, null],
): readonly [number, number] {
  const base = FOUND_KINDS.indexOf(kind) * KIND;
  const [low, high] = [
    from === null ? 0 : Math.max(1, dayNumber(from)),
    to === null ? MOST_DAYS : dayNumber(lastDayOf(to)),
  ];
  return [base + low * DAY, base + high * DAY + DAY - 1];
}

function dayNumber(iso: string): number {
  const [year, month = 1, day = 1] = iso.split('-').map(Number);
  const days = Math.floor((Date.UTC(year!, month - 1, day) - FIRST_DAY) / 86_400_000);
  return Number.isFinite(days) ? Math.min(MOST_DAYS, Math.max(0, days)) : 0;
}

/** `2026-02` → `2026-02-28`; `2026` → `2026-12-31`. */
function lastDayOf(beginning: string): string {
  const [year, month = 12, day] = beginning.split('-').map(Number);
  if (day !== undefined) return beginning;
  return new Date(Date.UTC(year!, month, 0)).toISOString().slice(0, 10);
}

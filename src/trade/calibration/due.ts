import { InputError, NonPhysicalError } from '../../errors.ts';
import { count } from '../possible.ts';

export interface Due {
  /** First day on which the calibration no longer counts, YYYY-MM-DD. */
  readonly dueIso: string;
  /** Days from today to the due day; 0 or less: due. */
  readonly daysLeft: number;
  readonly isDue: boolean;
}

const DAY_MS = 86_400_000;

/**
 * When a calibration falls due: its day and an interval in whole months or days, seen from a day that is handed in.
 * Months end on the last day where the day is missing: 31 January and one month is 28 or 29 February.
 * @param lastIso   day of the last calibration, YYYY-MM-DD
 * @param todayIso  day from which to look
 * @throws InputError        a text that is no such date
 * @throws NonPhysicalError  a day that the calendar does not have, an interval of 0
 */
export function calibrationDue(
  lastIso: string,
  interval: { readonly months: number } | { readonly days: number },
  todayIso: string,
): Due {
  const last = dayOf('day of the last calibration', lastIso);
  const today = dayOf('day of today', todayIso);
  const due =
    'days' in interval
      ? last.getTime() + count('interval in days', interval.days) * DAY_MS
      : monthsLater(last, count('interval in months', interval.months));
  const daysLeft = Math.round((due - today.getTime()) / DAY_MS);
  return { dueIso: new Date(due).toISOString().slice(0, 10), daysLeft, isDue: daysLeft <= 0 };
}

function monthsLater(from: Date, months: number): number {
  const [year, month] = [from.getUTCFullYear(), from.getUTCMonth() + months];
  const lastDay = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return Date.UTC(year, month, Math.min(from.getUTCDate(), lastDay));
}

/** Days are counted in UTC: a calendar day has no clock. */
function dayOf(what: string, iso: string): Date {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (parts === null)
    throw new InputError(`invalid ${what}: ${iso}; expected a date such as 2026-05-17`, {
      found: iso,
      expected: 'YYYY-MM-DD',
    });
  const day = new Date(Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])));
  if (day.toISOString().slice(0, 10) !== iso)
    throw new NonPhysicalError(`invalid ${what}: ${iso}; expected a day that the calendar has`, {
      found: iso,
      expected: 'a day that the calendar has',
    });
  return day;
}

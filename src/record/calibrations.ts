/** What a calibration must be to be kept. */
import { FormatError } from '../errors.ts';
import { calibrationDue, readMeasured } from '../trade/index.ts';
import type { Fields } from './draft.ts';

const MOST_MONTHS = 240;

/**
 * Of a change only the fields that it gives are looked at.
 * @throws FormatError  naming the field
 */
export function checkCalibration(fields: Fields): void {
  const { doneOn, who, intervalMonths, notes, measured } = fields;
  if (doneOn !== undefined && !isDay(doneOn))
    refuse('doneOn', doneOn, 'a day that the calendar has, such as 2026-05-17');
  for (const [field, text, most] of [
    ['who', who, 200],
    ['notes', notes, 20_000],
  ] as const)
    if (text !== undefined && (typeof text !== 'string' || text.length > most))
      refuse(field, text, `a text of at most ${most} letters`);
  if (intervalMonths !== undefined && intervalMonths !== null && !isInterval(intervalMonths))
    refuse('intervalMonths', intervalMonths, `whole months from 1 to ${MOST_MONTHS}, or none`);
  if (measured !== undefined) readMeasured(measured);
}

function isDay(given: unknown): boolean {
  try {
    calibrationDue(String(given), { days: 1 }, String(given));
    return true;
  } catch {
    return false;
  }
}

const isInterval = (given: unknown) =>
  Number.isInteger(given) && (given as number) >= 1 && (given as number) <= MOST_MONTHS;

function refuse(field: string, found: unknown, expected: string): never {
  const shown = (JSON.stringify(found) ?? 'nothing').slice(0, 60);
  throw new FormatError(`${field}: ${shown}; expected ${expected}`, {
    column: field,
    found: shown,
    expected,
  });
}

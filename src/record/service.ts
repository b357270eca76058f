/** What was done to an engine, and what was read of it, between its builds. */
import { InputError } from '../errors.ts';
import type { Id, IsoDate, IsoTime } from './types.ts';

export interface ServiceEvent {
  readonly id: Id;
  readonly engineId: Id;
  /** A refresh begins its hours and pulls anew; other work leaves them as they are. */
  readonly kind: 'refresh' | 'work';
  readonly doneOn: IsoDate;
  readonly what: string;
  readonly parts: string;
  /** What the engine had run then, as its meter or log says [s]; null: not known. */
  readonly hoursS: number | null;
  readonly who: string;
  readonly writtenAt: IsoTime;
}

/** Readings of one date: any of hours, leak-down and cranking pressure. */
export interface ServiceReading {
  readonly id: Id;
  readonly engineId: Id;
  readonly readOn: IsoDate;
  /** What the engine had run then, as its meter or log says [s]. */
  readonly hoursS: number | null;
  /** By cylinder, as a share (0.05 is 5 %); null for one that was not read. */
  readonly leakDown: readonly (number | null)[] | null;
  /** What the gauge may be wrong by, ± the same share; null: nobody said. */
  readonly leakDownError: number | null;
  /** By cylinder, over the air about it [Pa]. */
  readonly crankingGaugePa: readonly (number | null)[] | null;
  /** ± [Pa] */
  readonly crankingErrorPa: number | null;
  readonly note: string;
  readonly who: string;
  readonly writtenAt: IsoTime;
}

/** @throws InputError  nothing is read in it */
export function checkReading(fields: Readonly<Record<string, unknown>>): void {
  const isRead = (list: unknown) => Array.isArray(list) && list.some((one) => one !== null);
  if ((fields.hoursS ?? null) !== null) return;
  if (isRead(fields.leakDown) || isRead(fields.crankingGaugePa)) return;
  throw new InputError(
    'A service reading needs hours, a leak-down or a cranking pressure of at least one cylinder.',
    { column: 'leakDown' },
  );
}

import { PullbookError, sentenceOf } from '../errors.ts';
import type { PullSpan, Recording } from '../pull/recording.ts';

/** What was understood of a run file, as `pullbook look --json` publishes it. Rows count from 0. */
export interface LookObject {
  readonly file: string;
  readonly ok: true;
  readonly rows: number;
  readonly kind: Recording['kind'];
  readonly channels: readonly {
    readonly header: string;
    readonly quantity: string;
    readonly unit: string | null;
  }[];
  readonly pulls: readonly {
    readonly firstRow: number;
    readonly lastRow: number;
    /** Speed at the start and the end of the pull [rev/min]. */
    readonly from: number;
    readonly to: number;
  }[];
  readonly warnings: readonly string[];
}

/** A refused file: what is wrong, and where. Line and column count from 1; null where they have no meaning. */
export interface RefusedObject {
  readonly file: string;
  readonly ok: false;
  readonly error: {
    readonly message: string;
    readonly line: number | null;
    readonly column: number | string | null;
    readonly found: string | null;
    readonly expected: string | null;
    /** What else is wrong with a file that was gone through to its end; left out where there is nothing. */
    readonly also?: readonly string[];
  };
}

/** The published object of a file that was understood. Questions that are open are warnings with what was taken meanwhile. */
export function lookObject(
  file: string,
  recording: Recording,
  pulls: readonly PullSpan[],
  questions: readonly { readonly sentence: string; readonly meanwhile: string }[] = [],
): LookObject {
  return {
    file,
    ok: true,
    rows: recording.rows,
    kind: recording.kind,
    channels: recording.channels.map(({ header, quantity, unit }) => ({ header, quantity, unit })),
    pulls: pulls.map(({ firstRow, lastRow, fromRpm, toRpm }) => ({
      firstRow,
      lastRow,
      from: fromRpm,
      to: toRpm,
    })),
    warnings: [
      ...recording.warnings,
      ...questions.map(
        ({ sentence, meanwhile }) => `${sentence} Until that is answered: ${meanwhile}`,
      ),
    ],
  };
}

/** A refused session; `error.file` is the run file that was refused where it was not the session itself. */
export interface RefusedSession {
  readonly session: string;
  readonly ok: false;
  readonly error: RefusedObject['error'] & { readonly file: string | null };
}

/** The published object of a file that was refused. */
export function refusedObject(file: string, error: unknown): RefusedObject {
  const place = error instanceof PullbookError ? error.place : {};
  return {
    file,
    ok: false,
    error: {
      message: error instanceof PullbookError ? error.message : sentenceOf(error),
      line: place.line ?? null,
      column: place.column ?? null,
      found: place.found ?? null,
      expected: place.expected ?? null,
      ...(place.also === undefined ? {} : { also: place.also }),
    },
  };
}

/** The published object of a session that was refused. */
export function refusedSession(session: string, error: unknown): RefusedSession {
  const file = error instanceof PullbookError ? (error.place.file ?? null) : null;
  return { session, ok: false, error: { ...refusedObject(session, error).error, file } };
}

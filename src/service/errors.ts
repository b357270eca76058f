/** The one place where an error becomes an HTTP status and a body that a person can act on. */
import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { type ErrorCode, type ErrorPlace, PullbookError } from '../errors.ts';
import { ConflictError, NotInRecordError, StaleSheetError } from '../record/index.ts';

/** A refusal that only makes sense over HTTP. */
export class RequestRefused extends Error {
  readonly status: ContentfulStatusCode;
  readonly code: string;
  readonly place: ErrorPlace;
  constructor(status: ContentfulStatusCode, code: string, message: string, place: ErrorPlace = {}) {
    super(message);
    this.status = status;
    this.code = code;
    this.place = place;
  }
}

const STATUS_OF_CODE: Readonly<Record<ErrorCode, ContentfulStatusCode>> = {
  input: 422,
  format: 422,
  nonphysical: 422,
  'no-convergence': 422,
  usage: 400,
  store: 500,
};

interface Refusal {
  readonly status: ContentfulStatusCode;
  readonly error: { readonly code: string; readonly message: string } & ErrorPlace;
}

export function refusalOf(error: unknown): Refusal {
  if (error instanceof RequestRefused) {
    return {
      status: error.status,
      error: { code: error.code, message: error.message, ...error.place },
    };
  }
  if (error instanceof PullbookError) {
    const status =
      error instanceof NotInRecordError
        ? 404
        : error instanceof ConflictError
          ? 409
          : STATUS_OF_CODE[error.code];
    // Whoever kept the older one must choose: the screen asks, where other conflicts are only told.
    const code = error instanceof StaleSheetError ? 'stale' : error.code;
    return { status, error: { code, message: error.message, ...error.place } };
  }
  if (error instanceof Error && error.name === 'AbortError') {
    return { status: 400, error: { code: 'cancelled', message: 'Cancelled; nothing was stored.' } };
  }
  if (error instanceof HTTPException) {
    const message =
      error.status === 415
        ? 'This request has to be JSON; send it with content-type application/json.'
        : `The request cannot be read: ${(error.message || 'no reason given').replace(/\.$/, '')}.`;
    return { status: error.status, error: { code: 'request', message } };
  }
  if ((error as NodeJS.ErrnoException | null)?.code === 'ENOSPC') {
    const message = 'The disk is full; nothing of this was stored. Make room and try again.';
    return { status: 500, error: { code: 'store', message } };
  }
  return {
    status: 500,
    error: {
      code: 'internal',
      message:
        'Pullbook made a mistake and stored nothing of this; the terminal it runs in shows the details.',
    },
  };
}

/** What came back as an answer to a thrown error; faults of ours are also reported to `report`. */
export function answerError(error: unknown, c: Context, report: (error: unknown) => void) {
  const { status, error: body } = refusalOf(error);
  if (status >= 500) report(error);
  return c.json({ error: body }, status);
}

/** One sentence about the first thing that a schema refused. */
export function schemaRefusal(issues: readonly { path: PropertyKey[]; message: string }[]) {
  const [first] = issues;
  const where = first?.path.map(String).join('.') ?? '';
  return new RequestRefused(
    400,
    'request',
    where === ''
      ? `The request is not as it should be: ${first?.message ?? 'unknown reason'}.`
      : `The field ${where} is not as it should be: ${first!.message}.`,
    where === '' ? {} : { column: where },
  );
}

/**
 * The errors of Pullbook: one base with a stable code, the place, and what was expected.
 * Each edge (command, HTTP, browser) maps codes once; everything else only throws and passes on.
 */

/** Where in the outside world the trouble stands; every field is left out when it has no meaning. */
export interface ErrorPlace {
  readonly file?: string;
  /** 1-based line (or spreadsheet row) in that file. */
  readonly line?: number;
  /** 1-based column (field) of that line, or the column's header. */
  readonly column?: number | string;
  /** What stands there, shortened to what a person can read. */
  readonly found?: string;
  /** What was expected there instead. */
  readonly expected?: string;
  /** What else is wrong with the same file, each as a sentence with its own place. */
  readonly also?: readonly string[];
}

export type ErrorCode = 'input' | 'format' | 'nonphysical' | 'no-convergence' | 'store' | 'usage';

/** Base of every error that Pullbook throws on purpose. Its message is one sentence the user can act on. */
export abstract class PullbookError extends Error {
  abstract readonly code: ErrorCode;
  readonly place: ErrorPlace;

  protected constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = new.target.name;
    this.place = place;
  }
}

/** A value that was handed in is missing, unknown or out of its range. */
export class InputError extends PullbookError {
  readonly code = 'input';
  constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, place, cause);
  }
}

/** A file does not have the form it should have. */
export class FormatError extends PullbookError {
  readonly code = 'format';
  constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, place, cause);
  }
}

/** The values are well formed but cannot be true of any engine or air. */
export class NonPhysicalError extends PullbookError {
  readonly code = 'nonphysical';
  constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, place, cause);
  }
}

/** A computation did not settle; its last value is never handed on as an answer. */
export class NoConvergenceError extends PullbookError {
  readonly code = 'no-convergence';
  readonly iterations: number;
  readonly residual: number;
  constructor(message: string, iterations: number, residual: number) {
    super(message);
    this.iterations = iterations;
    this.residual = residual;
  }
}

/** The database refuses, is damaged, or is not one of ours. */
export class StoreError extends PullbookError {
  readonly code = 'store';
  constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, place, cause);
  }
}

/** The command was called in a way it does not know. */
export class UsageError extends PullbookError {
  readonly code = 'usage';
  constructor(message: string, place: ErrorPlace = {}, cause?: unknown) {
    super(message, place, cause);
  }
}

/** One sentence for the user, with file, line and column in front where they are known. */
export function sentenceOf(error: unknown): string {
  if (!(error instanceof PullbookError)) {
    return error instanceof Error ? error.message : String(error);
  }
  const { file, line, column } = error.place;
  const where = [
    // Some sentences name the file themselves.
    file !== undefined && error.message.includes(file) ? undefined : file,
    line === undefined ? undefined : `line ${line}`,
    column === undefined ? undefined : `column ${column}`,
  ].filter((part) => part !== undefined);
  return where.length === 0 ? error.message : `${where.join(', ')}: ${error.message}`;
}

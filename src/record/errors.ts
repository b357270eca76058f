/** Refusals of the record that an edge tells apart from others. */
import { type ErrorPlace, InputError, StoreError } from '../errors.ts';

/** There is no such thing in the record (any more). */
export class NotInRecordError extends InputError {
  constructor(what: string, id: string | number, place: ErrorPlace = {}) {
    super(
      `There is no ${what} with the id ${id}; it may have been removed, and undo brings it back.`,
      { found: String(id), expected: `the id of a ${what} in this shop`, ...place },
    );
  }
}

/** Another Pullbook has the folder. */
export class InUseError extends StoreError {}

/** Something that stands now is in the way of what was asked. */
export class ConflictError extends InputError {}

/** A sheet was saved from a version that is no longer the newest. */
export class StaleSheetError extends ConflictError {}

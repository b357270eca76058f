import { FormatError } from '../errors.ts';
import type { Channel } from '../pull/recording.ts';
import type { FileShape } from './types.ts';

/**
 * A table whose columns are not known to be a run's. It carries what was understood, so that a person can say
 * what the columns are and give the same file again with those answers.
 */
export class UnknownColumnsError extends FormatError {
  readonly shape: FileShape;
  readonly channels: readonly Channel[];

  constructor(refusal: FormatError, shape: FileShape, channels: readonly Channel[]) {
    super(refusal.message, refusal.place, refusal);
    this.shape = shape;
    this.channels = channels;
  }
}

import type { Phrase } from '../../phrases.ts';

/** What the record and the hand-over add: cautions, reasons, the state of the calibration. */
export const records: readonly Phrase[] = [];

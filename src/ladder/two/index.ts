export { answerTwo, TWO_VERSION } from './answer.ts';
export { speedTable, speedTableCsv, type TableBlock } from './csv.ts';
export type * from './types.ts';
export { placeText } from './words.ts';

/** Ours, from common practice, no source: a table every 500 rev/min, 3 degrees and 0.03 of lambda in 500 rev/min at most. */
export const SHIPPED_TABLE = { everyRpm: 500, steepestDeg: 3, steepestLambda: 0.03 } as const;

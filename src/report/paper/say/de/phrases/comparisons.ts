import type { Phrase } from '../../phrases.ts';

/** What `src/compare` says. */
export const comparisons: readonly Phrase[] = [];

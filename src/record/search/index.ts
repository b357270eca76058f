export { type Finding, type Found, makeAsk } from './ask.ts';
export { keepFindable, refillFindable } from './keep.ts';
export { makePeaks, type PullPeak } from './peaks.ts';
export { MOST_QUERY_LETTERS, type PeakRange } from './question.ts';
export { FOUND_KINDS, type FoundKind } from './words.ts';

export { type Finding, type Found, MOST_QUERY_LETTERS, makeAsk, type PeakRange } from './ask.ts';
export { keepFindable, refillFindable } from './keep.ts';
export { makePeaks, type PullPeak } from './peaks.ts';
export { FOUND_KINDS, type FoundKind } from './words.ts';

import { answerFrom } from './compute/answer.ts';
import type { SheetAnswer } from './compute/types.ts';
import type { WindowRule } from './compute/windows.ts';
import type { Sheet } from './sheet/types.ts';
import { CHECKS, FIGURES } from './topics/index.ts';
import { SHIPPED_WINDOWS } from './windows/shipped.ts';

export * from './changes/index.ts';
export type {
  Check,
  Figure,
  SheetAnswer,
  ToMeasure,
  Verdict,
  Window,
} from './compute/types.ts';
export type { WindowRule } from './compute/windows.ts';
export * from './plan/index.ts';
export * from './sections/index.ts';
export * from './service/index.ts';
export { newSheetFrom } from './sheet/copy.ts';
export { countOf, layoutOf, placeLabels } from './sheet/layout.ts';
export { mergedSheet, type Taken, takenIn } from './sheet/merge.ts';
export { type FieldProblem, parseSheet, problemSentence, readSheet } from './sheet/read.ts';
export * from './sheet/types.ts';
export { insideOf, unitOfField } from './sheet/units.ts';
export { inOrder, writeSheet } from './sheet/write.ts';
export * from './table/index.ts';
export { readWindows, WINDOWS_FORMAT } from './windows/readWindows.ts';
export { SHIPPED_WINDOWS } from './windows/shipped.ts';

/** Rises with any change of what follows from a sheet. */
export const SHEET_VERSION = 2;

/**
 * All that follows from a sheet: figures, checks and what to measure next. Pure.
 * @param own  the shop's own windows, which stand before the shipped ones
 */
export function answerSheet(sheet: Sheet, own: readonly WindowRule[] = []): SheetAnswer {
  return answerFrom(FIGURES, CHECKS, sheet, [...SHIPPED_WINDOWS, ...own]);
}

/**
 * The same values and verdicts at every keystroke: what tolerances leave open (`plusMinus`) is null here and follows
 * with `answerSheet`, which takes some times as long.
 */
export function answerSheetAtOnce(sheet: Sheet, own: readonly WindowRule[] = []): SheetAnswer {
  return answerFrom(FIGURES, CHECKS, sheet, [...SHIPPED_WINDOWS, ...own], false);
}

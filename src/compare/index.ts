export { begun } from './begun.ts';
export { COMPARE_VERSION, compareGroups, type PreparedCompare, prepareCompare } from './compare.ts';
export { type Difference, type DifferenceIn, differenceIn } from './difference.ts';
export {
  type DrawnCurve,
  type DrawnCurves,
  drawnBands,
  drawnCurves,
  evenly,
  peakPowerRpm,
} from './drawn.ts';
export { findingOf, headlineOf, leadOf } from './finding.ts';
export { paragraphOf } from './paragraph.ts';
export { answerPartTest, type PartAnswer, partPointsOf } from './partAnswer.ts';
export type { PartPoint } from './partDrift.ts';
export {
  lookAtPartTest,
  type PartLook,
  type PartOrder,
  type PartPlan,
  planPartTest,
} from './partTest.ts';
export { type Reconciled, reconcile, type Side, type SidePull } from './reconcile.ts';
export {
  comparePeaks,
  type PeakChange,
  type PeakSide,
  type PeaksAnswer,
  peakSideOf,
  type SidePeak,
} from './typedPeaks.ts';
export { type TypedGroup, type TypedTable, typedGroup } from './typedTable.ts';
export type * from './types.ts';
export * from './use/index.ts';
export * from './vehicle/index.ts';
export { orRefuse, type ReadWritten, type WrittenProblem } from './written.ts';

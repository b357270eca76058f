export { type DayPower, type Drift, driftOf } from './drift.ts';
export { type CellDue, type DueItem, dueOf, type PlanOfDay } from './due.ts';
export type { UsedOn } from './pace.ts';
export {
  type RefreshAfter,
  type RefreshDue,
  type RefreshUse,
  refreshDueOf,
} from './refresh.ts';
export {
  type CylinderReading,
  type Wear,
  type WearMeasure,
  wearOf,
} from './wear.ts';
export { wearSentences } from './wearWords.ts';

export { type DayPower, type Drift, driftOf } from './drift.ts';
export { type CellDue, type DueItem, dueOf, type PlanOfDay } from './due.ts';

export {
  type ChangedNumber,
  type EditedItem,
  editPlan,
  editSummary,
  type PlanEdit,
  shortly,
  withEditsOf,
} from './edits.ts';
export { type PlanContext, planFor } from './plan.ts';
export type { PlannedDay } from './pulls.ts';
export { contentOf, labelsOf, planSentence } from './say.ts';
export { type TickedItem, type TickedPlan, tickedPlan } from './ticks.ts';
export * from './types.ts';

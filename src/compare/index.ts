export { COMPARE_VERSION, compareGroups } from './compare.ts';
export { type Difference, type DifferenceIn, differenceIn } from './difference.ts';
export {
  lookAtPartTest,
  type PartLook,
  type PartOrder,
  type PartPlan,
  planPartTest,
} from './partTest.ts';
export { type Reconciled, reconcile, type Side, type SidePull } from './reconcile.ts';
export type * from './types.ts';

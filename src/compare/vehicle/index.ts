export {
  answerVehicle,
  behindAt,
  type RunPair,
  type VehicleAnswer,
} from './answer.ts';
export { FIGURES, type GoalId, isGoal } from './figures.ts';
export { answerGearing, type BestGearing, type GearingAnswer } from './gearing.ts';
export { type ReadVehicle, readVehicle, USUAL_CONVERTER } from './read.ts';
export { ROAD_CAUTION } from './sentences.ts';
export { forceByGear } from './shifts.ts';
export type { Vehicle } from './types.ts';

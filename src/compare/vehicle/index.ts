export {
  answerVehicle,
  type BuildRun,
  behindAt,
  type RunFigure,
  type RunPair,
  type VehicleAnswer,
} from './answer.ts';
export { FIGURES, type GoalId, isGoal } from './figures.ts';
export { answerGearing, type BestGearing, type GearingAnswer } from './gearing.ts';
export { DISTANCES, type TimeShare, timeShare, traceOf } from './marks.ts';
export { type ReadVehicle, readVehicle, USUAL, USUAL_CONVERTER } from './read.ts';
export { ROAD_CAUTION } from './sentences.ts';
export { forceByGear, type ShiftPoint, type TopSpeed } from './shifts.ts';
export type { Converter, Traction, Vehicle } from './types.ts';

export { type MixtureWindow, startingMixture } from './mixture.ts';
export { BEST_LEAD_DEG, type SparkWindow, startingSpark } from './spark.ts';
export {
  type Aspiration,
  type Chamber,
  type Reason,
  START_CAUTION,
  type StartInput,
  type StartWindow,
} from './types.ts';

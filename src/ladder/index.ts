export { answerLadder } from './answer.ts';
export { LAMBDA, SPARK_LEAD } from './kinds.ts';
export * from './types.ts';
export {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  SHIPPED_USES,
  WORTH_PERCENT,
} from './uses.ts';
export { chanceText, chosenPercentText, distanceText, percentText, settingText } from './words.ts';

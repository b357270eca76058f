export { answerLadder } from './answer.ts';
export { LAMBDA, SETTING_KINDS, SETTING_NAMES, type SettingName, SPARK_LEAD } from './kinds.ts';
export {
  belongsTo,
  type LadderChoice,
  type PullSettings,
  settingIn,
  steppedIn,
} from './members.ts';
export * from './types.ts';
export {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  SHIPPED_USES,
  WORTH_PERCENT,
} from './uses.ts';
export { chanceText, chosenPercentText, distanceText, percentText, settingText } from './words.ts';

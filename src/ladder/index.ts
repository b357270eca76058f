export { answerLadder, LADDER_VERSION } from './answer.ts';
export { LAMBDA, SETTING_KINDS, SETTING_NAMES, type SettingName, SPARK_LEAD } from './kinds.ts';
export {
  belongsTo,
  isSameGroup,
  type LadderChoice,
  ladderOrder,
  type PullSettings,
  type SteppedSetting,
  settingIn,
  settingsKnown,
  steppedIn,
} from './members.ts';
export * from './types.ts';
export {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  mixtureHoldback,
  SHIPPED_MIXTURE_USES,
  SHIPPED_USES,
  WORTH_PERCENT,
} from './uses.ts';
export { chanceText, chosenPercentText, distanceText, percentText, settingText } from './words.ts';

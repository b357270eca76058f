export { adviceOf } from './advice.ts';
export { changesInWords } from './builtOtherwise.ts';
export { type Alike, listed, type SetPull } from './compareAlike.ts';
export {
  type ComparedObject,
  type CompareObject,
  compareObjects,
  type PeaksObject,
  type RankingObject,
} from './compareObject.ts';
export {
  answerPeaks,
  answerQuestion,
  type CompareQuestion,
  type CompareWork,
  questionOf,
  type ReadSide,
  type SidesWish,
} from './compareSides.ts';
export {
  type CompareOptions,
  compareParts,
  type FileSide,
  filesInOrder,
  readFileSide,
  type Source,
} from './compareWork.ts';
export { configurationWords } from './configuration.ts';
export { type CurveObject, curveObject } from './curveObject.ts';
export {
  type DayWork,
  type DayWorkOptions,
  workSession,
} from './dayWork.ts';
export { contentsDiffer, isAllContents } from './handover/alike.ts';
export * from './handover/bundle.ts';
export { apart, type Difference, differences, placeInWords, rounding } from './handover/held.ts';
export { type Making, madeOf, usualSize } from './handover/made.ts';
export { keyName, newKeyPem, type ShopKey, shopKey } from './handover/signing.ts';
export { bySpeed, handOverTables } from './handover/tables.ts';
export * from './handover/types.ts';
export {
  bandFromCurves,
  type DayPull,
  type LadderSettings,
  ladderInputOf,
  NO_BAND_RPM,
} from './ladderInput.ts';
export {
  type FiledPull,
  type LadderObject,
  ladderObject,
  type PublishedPeak,
} from './ladderObject.ts';
export {
  type LookObject,
  lookObject,
  type RefusedObject,
  type RefusedSession,
  refusedObject,
  refusedSession,
} from './lookObject.ts';
export { attachedIn } from './paper/attachment.ts';
export { fontFiles, printable } from './paper/fonts.ts';
export { findingsOf, LANGUAGES, type Language, paperOf } from './paper/index.ts';
export { pageOf } from './paper/page.ts';
export { type PacedPull, type PullShown, replayOf, replayOfPull } from './paper/replay.ts';
export { SHAPES, type Shape, shownOf } from './paper/shown.ts';
export { paperSide } from './paperSide.ts';
export { partNotBegun, readPartTest } from './partRead.ts';
export { belowFullThrottle, lambdasOf, type SetAt } from './pullSettings.ts';
export { planPercent, type Repeatability, repeatabilityFrom } from './repeatability.ts';
export { curveOptionsOf, settingsOf } from './sessionRules.ts';
export { type PublishedCheck, type SheetObject, sheetObject } from './sheetObject.ts';
export {
  openShop,
  packShop,
  SHOP_FORMAT,
  type ShopArchive,
} from './shop/shopArchive.ts';
export { type DayOfTables, dayCurvesTable, dayPullsTable } from './table/dayTables.ts';
export { type TwoObject, twoObject } from './twoObject.ts';
export {
  type LoadAnswer,
  type TwoDayPull,
  type TwoSettings,
  twoByLoad,
  twoInputsByLoad,
  twoTable,
  twoUses,
} from './twoWork.ts';
export {
  type PublishedUse,
  type PublishedVehicle,
  publishedUses,
  type UseObject,
} from './useObject.ts';
export {
  answerUses,
  loggedUseFrom,
  refusePeaks,
  type UseWanted,
  type UseWish,
  type UseWork,
} from './useWork.ts';

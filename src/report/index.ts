export { type CurveObject, curveObject } from './curveObject.ts';
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
export { type LookObject, lookObject, type RefusedObject, refusedObject } from './lookObject.ts';

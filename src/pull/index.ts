export { CALIBRATION_REL_SD, defaultCell, REPEATABILITY_REL_SD } from './cell.ts';
export { checkDay, type DayPullCheck } from './checks/day.ts';
export { curveIn, curveOf } from './curve.ts';
export { findPulls } from './findPulls.ts';
export { CURVE_VERSION, fitPull } from './fitPull.ts';
export { type MeanCurve, meanCurve } from './meanCurve.ts';
export { meanPowerW } from './meanPower.ts';
export * from './recording.ts';
export * from './types.ts';

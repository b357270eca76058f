/** Ours, from common practice, no source: pull-to-pull sd of mean power [1]: median 0.4 %, 95 % between 0.15 and 1.0 %. */
export const REPEAT_MEDIAN = 0.004;
export const REPEAT_LOG_SD = Math.log(0.01 / 0.0015) / (2 * 1.96);
/** How far a stated repeatability may itself be off, as sd of its logarithm. */
export const STATED_LOG_SD = 0.1;

/**
 * Sd of a day's own offset [1]: median 1.2 %, 95 % between 0.6 and 2.4 %. Day-to-day 1 to 2 % with correction is
 * what engine-test handbooks give (Martyr and Plint, Engine Testing; from memory, medium-low confidence).
 */
export const DAY_MEDIAN = 0.012;
export const DAY_LOG_SD = Math.log(4) / (2 * 1.96);
/** A day's offset is not the same at all speeds: sd of the first shape over speed, as a part of the offset's (ours). */
export const DAY_SHAPE_PART = 0.4;

/** Drift of power with each further pull of a day: sd and its weight (ours; usually small, now and then a heat soak). */
export const DRIFT_SDS: readonly (readonly [sd: number, weight: number])[] = [
  [0.0002, 0.7],
  [0.0016, 0.3],
];

/** Wander of a pull over speed: median sd of the first shape [1] and the sd of its logarithm (ours, no source). */
export const WANDER_MEDIAN = 0.003;
export const WANDER_LOG_SD = 0.8;

/**
 * Relative sd of a figure typed from paper of whose cell nothing is known, that cell's calibration alone (ours, common
 * practice, no source); how days differ (DAY_MEDIAN) comes on top.
 */
export const PAPER_CELL_REL_SD = 0.01;
/** How far the speed of a peak on paper may be off [rev/min], as an sd: tops are flat, and paper rounds (ours). */
export const PAPER_SPEED_SD_RPM = 75;
/** Roughness of a typed curve, as `pull/torqueFit.ts` has it: sd of its third differences on 20 intervals, as a part of its level. */
export const TABLE_ROUGHNESS = { median: 0.01, logSd: 1.2 };
/** How far each figure of a typed table stands off its curve, as a part of the largest, where the paper does not say (ours). */
export const TABLE_READING_REL_SD = 0.003;

import type { ShapeName } from './shape.ts';
import type { SettingKind } from './types.ts';

/** Ours, from common practice, no source: pull-to-pull sd of mean power [1]: median 0.4 %, 95 % between 0.15 and 1.0 %. */
const REPEAT_MEDIAN = 0.004;
const REPEAT_LOG_SD = Math.log(0.01 / 0.0015) / (2 * 1.96);
/** How far a stated repeatability may itself be off, as sd of its logarithm. */
const STATED_LOG_SD = 0.1;
/**
 * Drift of power with each further pull of the day [1]: usually small, now and then a heat soak.
 * Sd and its weight; ours, from common practice, no source.
 */
export const DRIFT_SDS: readonly (readonly [sd: number, weight: number])[] = [
  [0.0002, 0.65],
  [0.0016, 0.35],
];
/** Share of pulls that are off by far more than the cell usually repeats, and how far (relative sd). */
export const STRAY_SHARE = 0.03;
export const STRAY_SD = 0.03;

/** The priors of one ladder in mirrored settings (up is unsafe). */
export interface Priors {
  readonly shape: ShapeName;
  readonly curvature: readonly [number, number];
  readonly lean: readonly [number, number];
  readonly best: readonly [middle: number, spread: number];
  readonly repeatMedian: number;
  readonly repeatLogSd: number;
}

/**
 * @param lowest  the most careful setting that was run, mirrored
 * @param highest  the one that went furthest to the unsafe side, mirrored
 * @param statedPercent  pull-to-pull sd of mean power that the shop states [%], or null
 */
export function priorsFor(
  kind: SettingKind,
  lowest: number,
  highest: number,
  statedPercent: number | null,
): Priors {
  const [short, spread] = kind.startShortPrior;
  // Who climbs further than a careful start explains may have begun further off than usual, or may have gone well
  // past the best: the middle follows in part, and the longer the ladder grew the less it is trusted. The two parts
  // were settled on simulated days and on two published sweeps (reference/published-sweeps.test.ts).
  const longer = Math.max(0, highest - lowest - short - spread / 2);
  return {
    shape: kind.shape,
    curvature: kind.curvaturePrior,
    lean: kind.leanPrior,
    best: [lowest + short + 0.4 * longer, Math.hypot(spread, 0.75 * longer)],
    repeatMedian: statedPercent === null ? REPEAT_MEDIAN : statedPercent / 100,
    repeatLogSd: statedPercent === null ? REPEAT_LOG_SD : STATED_LOG_SD,
  };
}

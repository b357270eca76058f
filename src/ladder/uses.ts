import type { UseRule } from './types.ts';

/**
 * The shipped rules for spark lead, each editable by the shop. Holdback in degrees.
 * The chances are limits on standing above the true best and above the limit, all uncertainty in.
 */
export const SHIPPED_USES: readonly UseRule[] = [
  {
    name: 'bursts',
    holdback: 2,
    speedsRpm: null,
    chancePastBest: 0.025,
    chancePastLimit: 0.01,
  },
  {
    name: 'sustained',
    holdback: 4,
    speedsRpm: null,
    chancePastBest: 0.025,
    chancePastLimit: 0.01,
  },
];

/** Holdback for a hotter inlet [degrees per 10 K] (common practice, no source). */
export const HOLDBACK_PER_10K = 1.5;
/** Holdback for fuel that is one octane number worse [degrees] (handbook rule, 0.8 to 1.5 degrees a number). */
export const HOLDBACK_PER_OCTANE = 1;
/** Least gain of mean power a rung that is worth having [%]. */
export const WORTH_PERCENT = 0.75;

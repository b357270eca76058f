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

/**
 * The shipped rules for mixture: lambda to the rich side of the lowest of best, clean rung and limit. A richer mixture
 * burns cooler and knocks later, and costs next to nothing within 0.04 of the best (common practice, no source).
 */
export const SHIPPED_MIXTURE_USES: readonly UseRule[] = SHIPPED_USES.map((use) => ({
  ...use,
  holdback: use.name === 'sustained' ? 0.04 : 0.02,
}));

/**
 * Holdback of mixture of a use [lambda]: the shop's own; where it gave none, the shipped one of that name. Null: no rule.
 *
 * @param own  null: the shop wants no rule; undefined: it said nothing
 */
export const mixtureHoldback = (name: string, own: number | null | undefined): number | null =>
  own === undefined
    ? (SHIPPED_MIXTURE_USES.find((use) => use.name === name)?.holdback ?? null)
    : own;

/** Holdback for a hotter inlet [degrees per 10 K] (common practice, no source). */
export const HOLDBACK_PER_10K = 1.5;
/** Holdback for fuel that is one octane number worse [degrees] (handbook rule, 0.8 to 1.5 degrees a number). */
export const HOLDBACK_PER_OCTANE = 1;
/** Least gain of mean power a rung that is worth having [%]. */
export const WORTH_PERCENT = 0.75;

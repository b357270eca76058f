import type { UseLimit } from './limit.ts';
import type { ResponseDraws, ResponsePosterior } from './posterior.ts';
import type { UseRule } from './types.ts';

/** All settings mirrored: up is the unsafe side. */
export interface UseSetting {
  /** The setting by the rule, or null where no lower bound of the three is known. */
  readonly u: number | null;
  readonly holdback: number;
  /** Which of the three is lowest. */
  readonly from: 'best' | 'clean' | 'limit';
  readonly base: number;
  /** More than the rule's holdback was needed so that one of the chances holds. */
  readonly lowered: 'best' | 'limit' | null;
  readonly givesUp: number;
  readonly chancePastBest: number;
  readonly chancePastLimit: number | null;
  /** Chance that a finished ladder would permit a setting worth more than `regret` above this one. */
  readonly chanceShort: number;
}

/** Loss of mean power against a finished ladder's setting that is not worth worrying about [1]. */
const REGRET = 0.015;
/** Of a step: against the last bit of a division only. */
const ROUNDING = 1e-6;

const lossOf = (draws: ResponseDraws, d: number, u: number) =>
  draws.shape.loss(u - draws.best[d]!, draws.curvature[d]!, draws.lean[d]!);

/** Middle of the limit's draws, or null. */
export function middleLimit(limit: UseLimit): number | null {
  if (limit.draws === null) return null;
  const sorted = Float64Array.from(limit.draws).sort();
  const value = sorted[sorted.length >> 1]!;
  return Number.isFinite(value) ? value : null;
}

/**
 * The setting to leave for a use: the rule's holdback below the lowest of best, highest clean rung and limit, rounded
 * to the safe side, and lower by whole steps until both chances hold.
 */
export function settingForUse(
  rule: UseRule,
  extraHoldback: number,
  posterior: ResponsePosterior,
  limit: UseLimit,
  step: number,
): UseSetting {
  const { draws } = posterior;
  const best = posterior.bestQuantile(0.5);
  const limitMiddle = middleLimit(limit);
  const holdback = rule.holdback + extraHoldback;
  let base = best;
  let from: UseSetting['from'] = 'best';
  if (limit.clean !== null && limit.clean < base) {
    base = limit.clean;
    from = 'clean';
  }
  if (limitMiddle !== null && limitMiddle < base) {
    base = limitMiddle;
    from = 'limit';
  }
  const chancePastLimit = (u: number) => {
    if (limit.draws === null) return limit.clean !== null && u <= limit.clean ? 0 : null;
    let past = 0;
    for (const value of limit.draws) if (value < u) past++;
    return past / limit.draws.length;
  };
  let u = step * Math.floor((base - holdback) / step + ROUNDING);
  let lowered: UseSetting['lowered'] = null;
  for (let i = 0; i < 60; i++) {
    if (posterior.chanceBestBelow(u) > rule.chancePastBest) lowered = 'best';
    else if ((chancePastLimit(u) ?? 0) > rule.chancePastLimit) lowered = 'limit';
    else break;
    u -= step;
  }
  const known = limit.clean !== null || limitMiddle !== null;
  let givesUp = 0;
  let short = 0;
  for (let d = 0; d < draws.count; d++) {
    const b = draws.best[d]!;
    const here = lossOf(draws, d, u);
    givesUp += here / draws.count;
    const ceiling = limit.draws === null ? b : Math.min(b, limit.draws[d % limit.draws.length]!);
    if (here - lossOf(draws, d, ceiling - holdback) > REGRET) short += 1 / draws.count;
  }
  return {
    u: known ? u : null,
    holdback,
    from,
    base,
    lowered,
    givesUp,
    chancePastBest: posterior.chanceBestBelow(u),
    chancePastLimit: chancePastLimit(u),
    chanceShort: short,
  };
}

/** Gain of mean power that one more rung brings, for each draw [1]. */
export function nextGains(draws: ResponseDraws, from: number, to: number): Float64Array {
  return Float64Array.from(
    { length: draws.count },
    (_, d) => (1 - lossOf(draws, d, to)) / (1 - lossOf(draws, d, from)) - 1,
  );
}

/**
 * Expected gain of what would be left in the engine if the ladder went on to `next` and then knew the best [1]:
 * the setting a holdback below the lowest of best and `next`, against the one below the lowest of best and `top`.
 */
export function worthOfNext(
  draws: ResponseDraws,
  best: number,
  top: number,
  next: number,
  holdback: number,
): number {
  const now = Math.min(best, top) - holdback;
  let sum = 0;
  for (let d = 0; d < draws.count; d++) {
    const then = Math.min(draws.best[d]!, next) - holdback;
    if (then > now) sum += Math.max(0, lossOf(draws, d, now) - lossOf(draws, d, then));
  }
  return sum / draws.count;
}

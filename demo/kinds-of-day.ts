import type { DayOptions } from './knobs.ts';
import { knobsOf } from './knobs.ts';
import { Chance } from './random.ts';

/** Kinds of test day by which the intervals are judged. */
export const KINDS_OF_DAY = [
  'plain',
  'flat',
  'steep',
  'repeat',
  'drift',
  'drift and repeat',
  'knock',
  'knock in the way',
  'unfinished',
  'short',
] as const;
export type KindOfDay = (typeof KINDS_OF_DAY)[number];

/**
 * Options of one day of a kind, for either simulation. Where the ladder starts and ends against its best,
 * how the cell repeats and what shape the engine has are drawn anew with each seed.
 */
export function dayOfKind(kind: KindOfDay, seed: number): DayOptions {
  const chance = new Chance(seed, `kind ${kind}`);
  const curvature =
    kind === 'flat'
      ? chance.logBetween(2e-4, 4e-4)
      : kind === 'steep'
        ? chance.logBetween(8e-4, 1.5e-3)
        : chance.logBetween(2e-4, 1.5e-3);
  const options: DayOptions = { seed, engine: { curvature } };
  const probe = knobsOf({ ...options, leadsDeg: [] });
  const best = probe.engine.bestLeadDeg;
  const short = chance.between(4, 10);
  const first = 2 * Math.round((best - short) / 2);
  const rungs =
    kind === 'unfinished'
      ? Math.max(2, Math.round((short - chance.between(3, 6)) / 2) + 1)
      : kind === 'short'
        ? 3
        : Math.round((short + chance.between(0, 4.5)) / 2) + 1;
  const leads = Array.from({ length: rungs }, (_, i) => first + 2 * i);
  if (kind === 'repeat' || kind === 'drift and repeat') {
    const again = chance.pick(['first at once', 'first at the end', 'best at the end']);
    if (again === 'first at once') leads.unshift(first);
    else if (again === 'first at the end') leads.push(first);
    else leads.push(leads.reduce((a, b) => (Math.abs(b - best) < Math.abs(a - best) ? b : a)));
  }
  return {
    ...options,
    leadsDeg: leads,
    ...(kind.startsWith('drift')
      ? { driftPercentPerPull: chance.pick([-1, -1, -1, 1]) * chance.between(0.05, 0.25) }
      : {}),
    ...(kind === 'knock' ? { limit: { leadDeg: best + chance.between(0.5, 5) } } : {}),
    ...(kind === 'knock in the way' ? { limit: { leadDeg: best - chance.between(1, 6) } } : {}),
  };
}

import { bestLeadOverBandDeg, trueMeanPowerW } from './engine.ts';
import type { Blip, DayOptions } from './knobs.ts';
import { knobsOf } from './knobs.ts';
import { Chance } from './random.ts';
import { offsetOfPull } from './sweep.ts';

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

/** Least drift a pull of a day that soaks [%]. */
export const LEAST_SOAK_PERCENT = 0.05;

const RUNG_DEG = 2;
const LEAST_RUNGS = 4;
const MOST_RUNGS = 9;
/** Sd of the drift a pull on an ordinary day [%], and the share of days that soak without being days of drift. */
const USUAL_DRIFT_PERCENT = 0.02;
const SOAK_SHARE = 0.2;
/** Share of pulls in which something shook the brake for a moment. */
const BLIP_SHARE = 0.1;

/**
 * Options of one day of a kind, for either simulation. How the shop works is drawn anew with each seed: the first rung
 * stands some 3 to 11 degrees short of the best, the best moves with speed as far as the published regression has it,
 * more or less, and power drifts a little every day. The operator does not know the truth: he climbs until a rung
 * gained too little by what the cell showed him, for a ladder that ended by the truth would tell more of the best than
 * any shop's ever does. Only `unfinished` is cut off by it, 3 to 6 degrees short.
 */
export function dayOfKind(kind: KindOfDay, seed: number): DayOptions {
  const chance = new Chance(seed, `kind ${kind}`);
  const curvature =
    kind === 'flat'
      ? chance.logBetween(2e-4, 4e-4)
      : kind === 'steep'
        ? chance.logBetween(8e-4, 1.5e-3)
        : chance.logBetween(2e-4, 1.5e-3);
  const options: DayOptions = {
    seed,
    engine: { curvature, bestLeadSlopeDegPerKrpm: 0.9 + 0.8 * chance.normal() },
    driftPercentPerPull: driftOf(kind, chance),
  };
  const probe = knobsOf({ ...options, leadsDeg: [] });
  const best = bestLeadOverBandDeg(probe.engine, probe.bandRpm);
  const cut = kind === 'unfinished' ? chance.between(3, 6) : 0;
  const short = Math.min(12, Math.max(2, cut + 2.5, 7 + 2 * chance.normal()));
  const first = 2 * Math.round((best - short) / 2);
  const repeats = kind === 'repeat' || kind === 'drift and repeat';
  const again = repeats
    ? chance.pick(['first at once', 'first at the end', 'next to last at the end'])
    : null;
  /** What a rung must gain for the operator to go on. */
  const enoughPercent = chance.between(-0.4, 0.6);
  const leads = again === 'first at once' ? [first] : [];
  const seen = () => {
    const pull = leads.length - 1;
    return (
      trueMeanPowerW(probe.engine, probe.bandRpm, leads[pull]!) * (1 + offsetOfPull(probe, pull))
    );
  };
  const rungs =
    kind === 'short'
      ? 3
      : kind === 'unfinished'
        ? Math.round((best - cut - first) / RUNG_DEG) + 1
        : null;
  let before = Number.NaN;
  for (let rung = 1; rung <= (rungs ?? MOST_RUNGS); rung++) {
    leads.push(first + RUNG_DEG * (rung - 1));
    const now = seen();
    const gainPercent = 100 * (now / before - 1);
    if (rungs === null && rung >= LEAST_RUNGS && gainPercent < enoughPercent) break;
    before = now;
  }
  if (again === 'first at the end') leads.push(first);
  if (again === 'next to last at the end') leads.push(leads.at(-2)!);
  return {
    ...options,
    leadsDeg: leads,
    blips: blipsOf(chance, leads.length, probe.fromRpm, probe.toRpm),
    ...(kind === 'knock' ? { limit: { leadDeg: best + chance.between(0.5, 5) } } : {}),
    ...(kind === 'knock in the way' ? { limit: { leadDeg: best - chance.between(1, 6) } } : {}),
  };
}

/** A little every day; a heat soak on all days of drift, and now and then on the others. */
function driftOf(kind: KindOfDay, chance: Chance): number {
  const usual = USUAL_DRIFT_PERCENT * chance.normal();
  const soak = chance.pick([-1, -1, -1, 1]) * chance.between(LEAST_SOAK_PERCENT, 0.25);
  const soaks = chance.uniform() < SOAK_SHARE;
  if (kind.startsWith('drift')) return soak;
  return soaks ? soak : usual;
}

function blipsOf(chance: Chance, pulls: number, fromRpm: number, toRpm: number): Blip[] {
  return Array.from({ length: pulls }, (_, pull) => ({
    pull,
    atRpm: chance.between(fromRpm, toRpm),
    depthPercent: chance.pick([-1, 1]) * chance.between(3, 12),
    lengthS: chance.between(0.1, 0.4),
    happens: chance.uniform() < BLIP_SHARE,
  }))
    .filter(({ happens }) => happens)
    .map(({ happens: _, ...blip }) => blip);
}

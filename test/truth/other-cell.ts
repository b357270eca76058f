import { GRID } from '../../demo/curve-day.ts';
import { Chance } from '../../demo/random.ts';
import { SPARK_LEAD } from '../../src/ladder/kinds.ts';
import type { LadderInput, LadderPull } from '../../src/ladder/types.ts';
import {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  SHIPPED_USES,
  WORTH_PERCENT,
} from '../../src/ladder/uses.ts';
import { curvesOver, UNSEEN } from './curve-pull.ts';

/*
 * A second simulated cell, of which no prior was ever settled: what holds on the first (demo/) must hold here. Other
 * in every part that matters: the shape of the response, how the best moves with speed, the wander over speed
 * (a random walk and a ripple, neither known to the curves' bands), a repeatability that is one figure, starts drawn
 * evenly, and as many rungs as the day had time for.
 */

/** How power falls away d degrees above the best, k the curvature there or, for the flat top, farther out. */
const SHAPES = {
  /** Flat-topped, near-parabolic on both sides: the handbook's normalised curve. */
  handbook: (d: number, k: number) => k * d * d,
  /** Too much lead costs nearly twice as much as too little. */
  lopsided: (d: number, k: number) => (d > 0 ? 1.8 : 1) * k * d * d,
  /** The last degree and a half about the best cost next to nothing. */
  'flat top': (d: number, k: number) => (k * d ** 4) / (d * d + 2.25),
} as const;
export type OtherShape = keyof typeof SHAPES;
export const OTHER_SHAPES = Object.keys(SHAPES) as OtherShape[];

export interface OtherDay {
  readonly input: LadderInput;
  readonly truth: {
    readonly bestLeadOverBandDeg: number;
    readonly followingGainPercent: number;
    readonly torqueNm: (speedRpm: number, leadDeg: number) => number;
    readonly meanPowerW: (leadDeg: number) => number;
    readonly lossPercent: (leadDeg: number) => number;
    readonly limitLeadDeg: null;
  };
  readonly knobs: { readonly leadsDeg: readonly number[] };
}

/** One day of that cell. @param repeatPercent its pull-to-pull sd of torque [%] */
export function otherDay(shape: OtherShape, repeatPercent: number, seed: number): OtherDay {
  const chance = new Chance(seed, `other ${shape} ${repeatPercent}`);
  const [fromRpm, toRpm] = [chance.between(2400, 3200), chance.between(6000, 7800)];
  const span = toRpm - fromRpm;
  const bandRpm: [number, number] = [fromRpm + 0.4 * span, toRpm - 0.06 * span];
  const k = chance.logBetween(2e-4, 1.5e-3);
  const best = chance.between(24, 38);
  const rise = chance.between(0, 5);
  const middleNm = chance.between(120, 600);
  const [dip, dipAt] = [chance.between(0, 0.05), chance.between(fromRpm, toRpm)];
  /** Rises with speed until turbulence balances the time that is left: fast at first, then hardly. */
  const bestAt = (rpm: number) =>
    best + rise * (Math.exp(-(bandRpm[0] - fromRpm) / 1800) - Math.exp(-(rpm - fromRpm) / 1800));
  const torqueNm = (rpm: number, lead: number) => {
    const x = (rpm - fromRpm) / span;
    const base = 1 + 0.9 * x - 1.15 * x * x - dip * Math.exp(-(((rpm - dipAt) / 350) ** 2));
    return middleNm * base * (1 - SHAPES[shape](lead - bestAt(rpm), k));
  };
  const speeds = Array.from(
    { length: 61 },
    (_, i) => bandRpm[0] + ((bandRpm[1] - bandRpm[0]) * i) / 60,
  );
  const meanOver = (leadOf: (rpm: number) => number) =>
    speeds.reduce(
      (sum, rpm, i) => sum + (i === 0 || i === 60 ? 0.5 : 1) * rpm * torqueNm(rpm, leadOf(rpm)),
      0,
    ) *
    (Math.PI / 30 / 60);
  const meanPowerW = (lead: number) => meanOver(() => lead);
  const bestLead = topOf(meanPowerW, best - 6, best + 8);
  const first = Math.round(bestLead - chance.between(4, 11));
  const rungs = 5 + Math.floor(3 * chance.uniform());
  const leads = Array.from({ length: rungs }, (_, i) => first + 2 * i);
  if (chance.uniform() < 0.3) leads.push(chance.pick(leads));
  const driftPercent = (chance.uniform() < 0.2 ? 0.12 : 0.02) * chance.normal();
  const whiteNm = (middleNm * chance.between(0.1, 0.4)) / 100;
  const curveOf = curvesOver(fromRpm, toRpm, whiteNm);
  const pulls = leads.map((lead, order): LadderPull => {
    const offset = (repeatPercent * chance.normal() + driftPercent * order) / 100;
    const wander = wanderOf(chance);
    const observed = Float64Array.from({ length: GRID }, (_, g) => {
      const rpm = fromRpm + (span * g) / (GRID - 1);
      const part = 1 + offset + wander(g / (GRID - 1));
      return torqueNm(rpm, lead) * part + whiteNm * chance.normal();
    });
    return {
      id: `pull-${order + 1}`,
      setting: lead,
      order,
      torque: curveOf(observed),
      ...UNSEEN,
    };
  });
  const bestW = meanPowerW(bestLead);
  return {
    knobs: { leadsDeg: leads },
    truth: {
      bestLeadOverBandDeg: bestLead,
      followingGainPercent: 100 * (meanOver(bestAt) / bestW - 1),
      torqueNm,
      meanPowerW,
      lossPercent: (lead) => 100 * (1 - meanPowerW(lead) / bestW),
      limitLeadDeg: null,
    },
    input: {
      kind: SPARK_LEAD,
      pulls,
      bandRpm,
      uses: SHIPPED_USES,
      aspiration: 'natural',
      step: SPARK_LEAD.defaultStep,
      worthPercent: WORTH_PERCENT,
      repeatabilityPercent: null,
      worstInletDeltaK: 0,
      worstFuelDeltaOctane: 0,
      holdbackPer10K: HOLDBACK_PER_10K,
      holdbackPerOctane: HOLDBACK_PER_OCTANE,
    },
  };
}

/** A random walk over the sweep, centred, and a ripple of some four to nine waves with a phase of its own. */
function wanderOf(chance: Chance): (x: number) => number {
  const walk = new Float64Array(GRID);
  const step = chance.between(0.01, 0.04) / 100;
  for (let g = 1; g < GRID; g++) walk[g] = walk[g - 1]! + step * chance.normal();
  const mean = walk.reduce((sum, value) => sum + value / GRID, 0);
  const [height, waves, phase] = [
    chance.between(0.03, 0.15) / 100,
    chance.between(4, 9),
    chance.between(0, 2 * Math.PI),
  ];
  return (x) =>
    walk[Math.round(x * (GRID - 1))]! - mean + height * Math.sin(2 * Math.PI * waves * x + phase);
}

/** Place of the largest value of a function with one top (golden section, to 1e-3). */
function topOf(f: (x: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  while (b - a > 1e-3) {
    const [x, y] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(x) > f(y)) b = y;
    else a = x;
  }
  return (a + b) / 2;
}

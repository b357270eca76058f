import {
  evaluateSpline,
  functionalCovariance,
  functionalValue,
  meanFunctional,
  type SplineFit,
} from '../numerics/spline.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import type { LadderInput, LadderPull } from './types.ts';

/** Least part of the band that a pull must cover to be compared. */
const LEAST_COVERAGE = 0.9;

/** A pull that counts, with the one figure by which rungs are compared. */
export interface Counted {
  readonly pull: LadderPull;
  /** The setting mirrored so that up is the unsafe side. */
  readonly u: number;
  /** Mean power over the band [W]; for typed peaks the peak power [W] or, lacking that, the peak torque [N·m]. */
  readonly power: number;
  /** Sd of that figure from the curve's own fit, same unit. */
  readonly powerSd: number;
}

export interface BandReading {
  readonly counted: readonly Counted[];
  /** Left out here, each with its reason. */
  readonly leftOut: readonly { readonly pull: LadderPull; readonly because: string }[];
  /** The band that all counted curves cover, or null when peaks are compared. */
  readonly bandRpm: readonly [number, number] | null;
  readonly of: 'mean power' | 'peak power' | 'peak torque';
}

const rpm = (value: number) => `${Math.round(value)} rpm`;

function peakPowerOf(fit: SplineFit): number {
  let top = 0;
  for (let i = 0; i <= 200; i++) {
    const speed = fit.low + ((fit.high - fit.low) * i) / 200;
    top = Math.max(top, evaluateSpline(fit, speed) * speed * RAD_PER_S_PER_RPM);
  }
  return top;
}

/**
 * The one figure of each pull by which the ladder compares: mean power over the band where every pull has a curve,
 * otherwise the peaks, so that like is compared with like.
 */
export function readBand(input: LadderInput, mirror: number): BandReading {
  const leftOut: { pull: LadderPull; because: string }[] = [];
  const usable: LadderPull[] = [];
  const [low, high] = input.bandRpm;
  for (const pull of input.pulls) {
    if (!Number.isFinite(pull.setting)) {
      leftOut.push({ pull, because: 'its setting is not known' });
    } else if (pull.excludedBecause !== null) {
      leftOut.push({ pull, because: pull.excludedBecause });
    } else if (pull.aborted) {
      leftOut.push({ pull, because: 'it was aborted' });
    } else if (pull.torque === null && pull.peakPowerW === null && pull.peakTorqueNm === null) {
      leftOut.push({ pull, because: 'it has neither a curve nor a peak' });
    } else usable.push(pull);
  }
  const curves = usable.every((pull) => pull.torque !== null);
  if (curves && usable.length > 0) {
    const covering = usable.filter((pull) => {
      const { low: from, high: to } = pull.torque!;
      const part = (Math.min(to, high) - Math.max(from, low)) / (high - low);
      if (part >= LEAST_COVERAGE) return true;
      leftOut.push({
        pull,
        because: `it runs from ${rpm(from)} to ${rpm(to)} and misses too much of the band`,
      });
      return false;
    });
    const from = Math.max(low, ...covering.map((pull) => pull.torque!.low));
    const to = Math.min(high, ...covering.map((pull) => pull.torque!.high));
    const counted = covering.map((pull) => {
      const fit = pull.torque!;
      const functional = meanFunctional(fit, from, to, 1);
      return {
        pull,
        u: mirror * pull.setting,
        power: functionalValue(fit, functional) * RAD_PER_S_PER_RPM,
        powerSd: Math.sqrt(Math.max(0, functionalCovariance(fit, functional))) * RAD_PER_S_PER_RPM,
      };
    });
    return { counted, leftOut, bandRpm: [from, to], of: 'mean power' };
  }
  const powerOf = (pull: LadderPull) =>
    pull.peakPowerW ?? (pull.torque === null ? null : peakPowerOf(pull.torque));
  const byPower = usable.filter((pull) => powerOf(pull) !== null);
  const byTorque = usable.filter((pull) => pull.peakTorqueNm !== null);
  const of = byPower.length >= byTorque.length ? ('peak power' as const) : ('peak torque' as const);
  const counted = usable.flatMap((pull) => {
    const power = of === 'peak power' ? powerOf(pull) : pull.peakTorqueNm;
    if (power !== null && power > 0) {
      return [{ pull, u: mirror * pull.setting, power, powerSd: 0 }];
    }
    leftOut.push({ pull, because: `it has no ${of}` });
    return [];
  });
  return { counted, leftOut, bandRpm: null, of };
}

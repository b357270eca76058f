import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import type { PairAnswer } from './types.ts';

/** In what a difference by speed is read. */
export type DifferenceIn = 'percent' | 'torque' | 'power';

/** B less A by speed [%, N·m or W], with the simultaneous 95 % band and the half-width of what chance could do. */
export interface Difference {
  readonly speedRpm: readonly number[];
  readonly value: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly chance: readonly number[];
  readonly toldFromChance: readonly boolean[];
}

/**
 * The difference of two groups by speed in percent, in torque [N·m] or in power [W]: percent times the first group's
 * torque, times the engine's speed for power. How well that torque itself is known would change the last by less than a
 * fiftieth and is left out, so the three say the same of chance.
 */
export function differenceIn(bySpeed: PairAnswer['bySpeed'], unit: DifferenceIn): Difference {
  const { speedRpm, torqueANm, gainPercent, lowPercent, highPercent, chancePercent } = bySpeed;
  const scale = speedRpm.map((speed, m) =>
    unit === 'percent'
      ? 1
      : (torqueANm[m]! / 100) * (unit === 'power' ? speed * RAD_PER_S_PER_RPM : 1),
  );
  const scaled = (percents: readonly number[]) => percents.map((value, m) => value * scale[m]!);
  return {
    speedRpm,
    value: scaled(gainPercent),
    low: scaled(lowPercent),
    high: scaled(highPercent),
    chance: scaled(chancePercent),
    toldFromChance: bySpeed.toldFromChance,
  };
}

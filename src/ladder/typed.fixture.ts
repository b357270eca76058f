import { SPARK_LEAD } from './kinds.ts';
import type { LadderInput, LadderPull } from './types.ts';
import { HOLDBACK_PER_10K, HOLDBACK_PER_OCTANE, SHIPPED_USES, WORTH_PERCENT } from './uses.ts';

/** 550 ft·lbf/s, exact. */
const WATT_PER_HP = 745.6998715822702;

/** A pull as a shop types it: a setting and a peak power [hp]. */
export function typedPull(
  setting: number,
  peakHp: number,
  order: number,
  more: Partial<LadderPull> = {},
): LadderPull {
  return {
    id: `pull-${order + 1}`,
    setting,
    order,
    torque: null,
    peakPowerW: peakHp * WATT_PER_HP,
    peakTorqueNm: null,
    excludedBecause: null,
    watched: null,
    knockHeard: false,
    aborted: false,
    knock: null,
    airTemperatureK: null,
    configuration: null,
    ...more,
  };
}

/** A ladder of typed peaks, with everything else as shipped. */
export function typedLadder(
  rungs: readonly (readonly [setting: number, peakHp: number, more?: Partial<LadderPull>])[],
  more: Partial<LadderInput> = {},
): LadderInput {
  return {
    kind: SPARK_LEAD,
    pulls: rungs.map(([setting, peakHp, own], order) => typedPull(setting, peakHp, order, own)),
    bandRpm: [4500, 6500],
    uses: SHIPPED_USES,
    aspiration: 'natural',
    step: 1,
    worthPercent: WORTH_PERCENT,
    repeatabilityPercent: null,
    worstInletDeltaK: 0,
    worstFuelDeltaOctane: 0,
    holdbackPer10K: HOLDBACK_PER_10K,
    holdbackPerOctane: HOLDBACK_PER_OCTANE,
    ...more,
  };
}

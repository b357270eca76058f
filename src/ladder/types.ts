import type { SplineFit } from '../numerics/spline.ts';
import type { Aspiration, Banded } from '../pull/types.ts';
import type { ShapeName } from './shape.ts';

/** A kind of setting a ladder can step. */
export interface SettingKind {
  readonly name: string;
  readonly unit: string;
  /** Which way is safe: for spark lead the lower figure. */
  readonly safeDirection: 'lower' | 'higher';
  /** The step in which settings are given out unless the shop says otherwise. */
  readonly defaultStep: number;
  /** The usual distance between two rungs, where the ladder does not show it yet. */
  readonly defaultRung: number;
  /** How power falls away from its best (shape.ts). */
  readonly shape: ShapeName;
  /** Prior of the curvature of log torque against the setting, per unit squared: log-uniform between the two. */
  readonly curvaturePrior: readonly [number, number];
  /** Lean of the loss, (1 + lean·d) at d units to the unsafe side of the best: mean and sd, per unit. */
  readonly leanPrior: readonly [number, number];
  /** How far the first, most careful rung usually stands on the safe side of the best: middle and spread, in units. */
  readonly startShortPrior: readonly [number, number];
  /** How the setting is called in a sentence: `lead`, `lambda`; and what a move to the unsafe side is called. */
  readonly word: string;
  readonly more: string;
  readonly less: string;
}

export type Watched = 'ear' | 'plug' | 'sensor' | 'not';

/** One pull as the ladder sees it. Either a curve or typed peaks (or both). */
export interface LadderPull {
  readonly id: string;
  readonly setting: number;
  /**
   * Sd of the setting where it was measured rather than set [its unit]: lambda read with a jet in place. Its error moves
   * the pull's power by slope times error, which the response takes as so much more scatter.
   */
  readonly settingSd?: number;
  /** What the setting was set by, where that is not its figure: jets by position. */
  readonly setBy?: string | null;
  /** Hottest exhaust in the sweep [K], where recorded; judged by the input's `exhaustLimitK`. */
  readonly exhaustPeakK?: number | null;
  /** Fuel for power over the band [kg/J], where fuel flow was recorded. */
  readonly bsfcKgPerJ?: number | null;
  /** Order in which the day's pulls were made, from 0; excluded pulls keep their place. */
  readonly order: number;
  readonly torque: SplineFit | null;
  readonly peakPowerW: number | null;
  readonly peakTorqueNm: number | null;
  /** Why the operator left it out; null: it counts. */
  readonly excludedBecause: string | null;
  readonly watched: Watched | null;
  /** true: heard somewhere; a number: heard at that speed [rev/min]; false: listened and heard nothing. */
  readonly knockHeard: boolean | number;
  readonly aborted: boolean;
  /** Knock channel in bins of speed, where recorded. */
  readonly knock: {
    readonly speedRpm: readonly number[];
    readonly level: readonly number[];
  } | null;
  readonly airTemperatureK: number | null;
  /** What differs from the day's configuration, in words; shown beside the gain. */
  readonly configuration: string | null;
}

export interface UseRule {
  readonly name: string;
  /** Least holdback, in the setting's unit. */
  readonly holdback: number;
  /** Speeds at full throttle that this use visits; null: the ladder's band. */
  readonly speedsRpm: readonly [number, number] | null;
  readonly chancePastBest: number;
  readonly chancePastLimit: number;
}

export interface LadderInput {
  readonly kind: SettingKind;
  readonly pulls: readonly LadderPull[];
  readonly bandRpm: readonly [number, number];
  readonly uses: readonly UseRule[];
  readonly aspiration: Aspiration;
  /** Step in which settings are given out. */
  readonly step: number;
  /** Least gain of mean power a rung that is worth having [%]. */
  readonly worthPercent: number;
  /** Pull-to-pull sd of mean power [%], when the shop states it; null: prior and pulls decide. */
  readonly repeatabilityPercent: number | null;
  /** How much hotter than today the owner's worst inlet is [K], and how many numbers worse his fuel. */
  readonly worstInletDeltaK: number;
  readonly worstFuelDeltaOctane: number;
  /** What is known of the day beside its pulls, one sentence each; said with the answer. */
  readonly remarks?: readonly string[];
  /** Spark holdback per 10 K of hotter inlet and per octane number [setting units]. */
  readonly holdbackPer10K: number;
  readonly holdbackPerOctane: number;
  /** Exhaust hotter than this is a limit reached [K]; none: it is not watched by temperature. */
  readonly exhaustLimitK?: number | null;
}

export type StepWord = 'real' | 'small' | 'cannot be told from chance' | 'loss';

/** Interval of a setting; null marks an end that the ladder has not closed. */
export interface SettingInterval {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

export interface StepAnswer {
  readonly from: number;
  readonly to: number;
  readonly gainPercent: number;
  readonly lowPercent: number;
  readonly highPercent: number;
  /** The plain difference between the two rungs' own pulls, for comparison. */
  readonly measuredPercent: number;
  readonly word: StepWord;
  /** Differences of configuration between the two rungs, in words. */
  readonly besides: string | null;
  /** The same by speed, with a simultaneous band; `toldFromChance` is decided speed by speed. Empty for typed peaks. */
  readonly bySpeed: {
    readonly speedRpm: readonly number[];
    readonly gainPercent: readonly number[];
    readonly lowPercent: readonly number[];
    readonly highPercent: readonly number[];
    /** Half-width of what chance alone could do, around zero. */
    readonly chancePercent: readonly number[];
    readonly toldFromChance: readonly boolean[];
  };
}

export interface UseAnswer {
  /** The setting to leave in the engine, or null: not known yet, or no rule. */
  readonly value: number | null;
  readonly givesUpPercent: number | null;
  readonly chancePastBest: number | null;
  readonly chancePastLimit: number | null;
  readonly holdback: number;
  readonly why: string;
}

export interface NextMove {
  readonly action: 'pull' | 'repeat' | 'back' | 'stop';
  readonly value: number | null;
  /** Expected gain of mean power that the pull may bring to the setting left in the engine [%]. */
  readonly worthPercent: number | null;
  readonly why: string;
}

/** Power and fuel at one mixture. */
export interface MixtureRow {
  readonly lambda: number;
  /** Mean power given up against the best [%]. */
  readonly lossPercent: Banded;
  /** Fuel burnt for the same air, against the best mixture [%]: by lambda alone. */
  readonly fuelPercent: number;
  /** Fuel for the same power, against the best mixture [%]: from both. */
  readonly fuelForPowerPercent: Banded;
}

export interface MixtureAnswer {
  /** Leaner than this, mean power has fallen from its best by what is worth having. */
  readonly costsFrom: SettingInterval;
  readonly rows: readonly MixtureRow[];
  /** Fuel for power of each pull that recorded it [kg/J], by lambda, and whether every counted pull did. */
  readonly measured: readonly {
    readonly id: string;
    readonly lambda: number;
    readonly bsfcKgPerJ: number;
  }[];
  /** What leaning from the best to where it costs saves of the fuel for the same air [%]; null: not known. */
  readonly savesPercent: number | null;
  readonly sentence: string;
}

export interface LadderAnswer {
  readonly version: number;
  readonly headline: string;
  readonly summary: string;
  readonly best: SettingInterval;
  readonly knee: SettingInterval;
  readonly limit: SettingInterval | null;
  readonly limitBySpeed: {
    readonly speedRpm: readonly number[];
    readonly value: readonly number[];
    readonly low: readonly number[];
  } | null;
  readonly limitWatched: boolean;
  readonly highestClean: number | null;
  readonly uses: Readonly<Record<string, UseAnswer>>;
  readonly next: NextMove;
  readonly steps: readonly StepAnswer[];
  readonly repeatability: Banded & { readonly from: 'stated' | 'prior' | 'pulls' | 'repeats' };
  /** Mean power in the band [W] of each counted pull, in the order given, with its own band. */
  readonly dots: readonly {
    readonly id: string;
    readonly setting: number;
    readonly meanPowerW: Banded;
  }[];
  /** Mean power in the band against the setting. */
  readonly response: {
    readonly setting: readonly number[];
    readonly meanPowerW: readonly number[];
    readonly lowW: readonly number[];
    readonly highW: readonly number[];
  };
  /** Loss from the best at each speed [%], rows follow `setting`, columns `speedRpm`. Null for typed peaks. */
  readonly map: {
    readonly speedRpm: readonly number[];
    readonly setting: readonly number[];
    readonly lossPercent: readonly (readonly number[])[];
    readonly bestSetting: readonly number[];
    readonly bestLow: readonly (number | null)[];
    readonly bestHigh: readonly (number | null)[];
  } | null;
  /** What a setting that follows speed would gain over the best fixed one. Null where that is not known yet. */
  readonly following: {
    readonly gainPercent: Banded;
    readonly table: readonly {
      readonly speedRpm: number;
      readonly setting: number;
      readonly fixedCostPercent: Banded;
    }[];
  } | null;
  /** What a mixture ladder says beside its best; null for other settings. */
  readonly mixture: MixtureAnswer | null;
  readonly warnings: readonly string[];
}

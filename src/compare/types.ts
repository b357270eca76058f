import type { SplineFit } from '../numerics/spline.ts';
import type { Banded } from '../pull/types.ts';

/** One pull of a group. Curves of one comparison stand in one air standard, inertia put back (see `reconcile.ts`). */
export interface ComparePull {
  readonly id: string;
  readonly torque: SplineFit;
  /** Pulls of one day share that day's offset; any text that tells days apart. */
  readonly day: string;
  readonly cell: string;
  /** Place in its day's order, excluded pulls counted. */
  readonly order: number;
  readonly excludedBecause: string | null;
  /** How the engine stood, in words, where it is not as the day's. */
  readonly configuration: string | null;
}

export interface CompareGroup {
  readonly name: string;
  readonly pulls: readonly ComparePull[];
  /** How its build differs from the first group's, in a sentence. */
  readonly builtOtherwise?: string;
}

export interface CompareInput {
  /** Two or more; gains are of each over the first. */
  readonly groups: readonly CompareGroup[];
  readonly bandRpm: readonly [number, number];
  /** Repeated pulls of one unchanged engine on several days: they teach how days differ, and are not reported. */
  readonly reference: readonly CompareGroup[];
  /** Pull-to-pull sd of mean power [%] that the shop states; null: prior and pulls decide. */
  readonly repeatabilityPercent: number | null;
  /** Relative standard uncertainty of each cell's torque calibration; counts between cells only. */
  readonly calibrationRelSd: Readonly<Record<string, number>>;
  /** Least gain of mean power worth having [%]. */
  readonly worthPercent: number;
}

export type GainWord = 'real' | 'small' | 'cannot be told from chance' | 'loss';

/** A gain or a change [%, or its own unit] with its 95 % interval. */
export type Change = Banded;

/** A peak of one group's mean curve. */
export interface GroupPeak {
  readonly value: Banded;
  readonly speedRpm: Banded;
  /** The highest point stands at the edge of what was swept: the true peak may lie beyond. */
  readonly atEdge: boolean;
}

/** A group's mean curve with its own 95 % band by speed, less what is common to all groups; see `bands.ts`. */
export interface GroupCurve {
  readonly speedRpm: readonly number[];
  readonly torqueNm: readonly number[];
  readonly lowNm: readonly number[];
  readonly highNm: readonly number[];
}

/**
 * What one group's mean curve is like. All with 95 % intervals; how far its day may be off stands in them, which
 * leaves the changes of a pair where both share that day.
 */
export interface GroupMeasures {
  readonly name: string;
  readonly curve: GroupCurve;
  readonly pulls: number;
  readonly days: number;
  readonly meanPowerW: Banded;
  readonly meanTorqueNm: Banded;
  readonly peakTorqueNm: GroupPeak;
  readonly peakPowerW: GroupPeak;
  /** Span of speeds about the peak where at least 90 % of it is there [rev/min]; null where the sweep ends before. */
  readonly torqueWidthRpm: Banded | null;
  readonly powerWidthRpm: Banded | null;
  /** Least torque in the band as a part of the most. */
  readonly flatness: Banded;
  /** Peak power over peak torque [W/(N·m)], from which the trade's hp per lb-ft follows. */
  readonly powerPerTorqueRadPerS: Banded;
}

/** Where in the sweep one side is ahead, and it can be told. */
export interface Region {
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly word: 'gain' | 'loss';
  /** Largest gain (or loss) inside and where it is. */
  readonly mostPercent: number;
  readonly mostAtRpm: number;
}

/** One group against the first. */
export interface PairAnswer {
  readonly a: string;
  readonly b: string;
  readonly gain: Change;
  readonly word: GainWord;
  /** Chance that B has more mean power in the band than A. */
  readonly chanceAhead: number;
  /**
   * By speed, with a simultaneous 95 % band: the whole true difference lies inside with that chance, and
   * `toldFromChance` is decided by it.
   */
  readonly bySpeed: {
    readonly speedRpm: readonly number[];
    readonly torqueANm: readonly number[];
    readonly torqueBNm: readonly number[];
    readonly gainPercent: readonly number[];
    readonly lowPercent: readonly number[];
    readonly highPercent: readonly number[];
    /** Half-width of what chance alone could do, around zero. */
    readonly chancePercent: readonly number[];
    readonly toldFromChance: readonly boolean[];
  };
  readonly regions: readonly Region[];
  /** Speeds where the curves cross between two regions of opposite sign, from the slower to the faster. */
  readonly crossings: readonly {
    readonly speedRpm: number;
    readonly lowRpm: number;
    readonly highRpm: number;
    /** Which side is ahead above it. */
    readonly aheadAbove: 'a' | 'b';
  }[];
  readonly peakPowerChangeW: Change;
  readonly peakTorqueChangeNm: Change;
  readonly peakPowerMovedRpm: Change;
  readonly peakTorqueMovedRpm: Change;
  readonly meanTorqueChangeNm: Change;
  /** Null where one of the two widths is not known. */
  readonly torqueWidthChangeRpm: Change | null;
  readonly powerWidthChangeRpm: Change | null;
  readonly flatnessChange: Change;
  readonly powerPerTorqueChangeRadPerS: Change;
  /** Differences of configuration between the groups, in words. */
  readonly besides: string | null;
  readonly finding: string;
}

export interface CompareAnswer {
  readonly version: number;
  readonly bandRpm: readonly [number, number];
  readonly groups: readonly GroupMeasures[];
  /** Each later group against the first. */
  readonly pairs: readonly PairAnswer[];
  /** Groups by mean power in the band, the strongest first; the chance that each is the strongest. */
  readonly ranking: readonly {
    readonly name: string;
    readonly chanceBest: number;
    /** Names that cannot be told from it. */
    readonly likeIt: readonly string[];
  }[];
  /** Pull-to-pull sd of mean power [%]. */
  readonly repeatability: Banded & { readonly from: 'stated' | 'prior' | 'pulls' };
  /** Sd of a day's own offset [%]; null where all pulls are of one day. */
  readonly dayToDay: (Banded & { readonly from: 'prior' | 'reference pulls' }) | null;
  readonly warnings: readonly string[];
}

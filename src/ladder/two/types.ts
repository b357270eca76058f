import type { Aspiration, Banded } from '../../pull/types.ts';
import type { LadderPull, SettingInterval } from '../types.ts';

/** A pull with both settings. */
export interface TwoPull extends Omit<LadderPull, 'setting' | 'settingSd'> {
  readonly leadDeg: number;
  readonly lambda: number;
  /** Sd of lambda where it was measured rather than set. */
  readonly lambdaSd: number;
  /** Pulls of one day share that day's level: any number, alike for one day. */
  readonly day: number;
}

export interface TwoUse {
  readonly name: string;
  readonly holdbackDeg: number;
  readonly holdbackLambda: number;
  readonly chancePastBest: number;
}

export interface TwoInput {
  readonly pulls: readonly TwoPull[];
  readonly bandRpm: readonly [number, number];
  readonly uses: readonly TwoUse[];
  readonly aspiration: Aspiration;
  /** Steps in which settings are given out. */
  readonly stepDeg: number;
  readonly stepLambda: number;
  readonly worthPercent: number;
  readonly repeatabilityPercent: number | null;
  readonly exhaustLimitK: number | null;
  /** Holdback of lead for the owner's worst fuel and hottest inlet, over the uses' own [degrees]. */
  readonly extraHoldbackDeg: number;
  readonly table: TableRules;
}

/** How a table by speed is made to be driven. */
export interface TableRules {
  readonly everyRpm: number;
  /** Steepest change over 500 rev/min. */
  readonly steepestDeg: number;
  readonly steepestLambda: number;
}

export interface Place {
  readonly leadDeg: number;
  readonly lambda: number;
}

export interface TwoMove {
  readonly action: 'pull' | 'repeat' | 'back' | 'stop';
  readonly at: Place | null;
  /** What it is expected to bring to the setting left in the engine [% of mean power]: by reach, and by knowing better. */
  readonly worthPercent: number | null;
  readonly why: string;
}

export interface TwoUseAnswer {
  readonly name: string;
  readonly leadDeg: number | null;
  readonly lambda: number | null;
  readonly givesUpPercent: number | null;
  readonly chancePastBest: number | null;
  readonly why: string;
}

export interface TableRow {
  readonly speedRpm: number;
  readonly leadDeg: number;
  readonly lambda: number;
  /** Lead and mixture of most power at this speed, before any holdback; an end that is not known is null. */
  readonly bestLeadDeg: SettingInterval;
  readonly bestLambda: SettingInterval;
}

export interface TwoAnswer {
  readonly version: number;
  readonly headline: string;
  readonly summary: string;
  readonly bestLeadDeg: SettingInterval;
  readonly bestLambda: SettingInterval;
  /** How much further the best lead stands with each 0.1 of lambda leaner [degrees]. */
  readonly ridgeDegPerTenth: Banded;
  readonly limitWatched: boolean;
  readonly repeatabilityPercent: Banded;
  readonly next: TwoMove;
  readonly uses: readonly TwoUseAnswer[];
  /** Best lead for each mixture. */
  readonly ridge: {
    readonly lambda: readonly number[];
    readonly leadDeg: readonly number[];
    readonly lowDeg: readonly number[];
    readonly highDeg: readonly number[];
  };
  /** Mean power given up against the best [%]: rows follow `lambda`, columns `leadDeg`. */
  readonly map: {
    readonly leadDeg: readonly number[];
    readonly lambda: readonly number[];
    readonly lossPercent: readonly (readonly number[])[];
    /** Half-width of the 95 % interval of that loss. */
    readonly halfPercent: readonly (readonly number[])[];
    /** What the pulls tell well enough to be shown in colour. */
    readonly known: readonly (readonly boolean[])[];
    /** What may be run next: at most one rung past what ran clean, in one setting. */
    readonly open: readonly (readonly boolean[])[];
  };
  readonly dots: readonly (Place & {
    readonly id: string;
    /** Null: it does not count. */
    readonly meanPowerW: number | null;
    readonly state: 'clean' | 'limit' | 'not watched' | 'left out';
  })[];
  /** By use; rows null: not known yet, and why. */
  readonly tables: readonly {
    readonly use: string;
    readonly rows: readonly TableRow[] | null;
    readonly why: string;
  }[];
  readonly warnings: readonly string[];
}

/**
 * The hand-over: everything that is told to the owner of an engine, frozen, as plain data in inside units. The report,
 * the page for the owner, the tables and the bundle are all made of it, and `pullbook verify` computes it again.
 */
import type { Check, Figure, Plan, PlanTick, SheetChanges } from '../../build/index.ts';
import type { CompareAnswer } from '../../compare/index.ts';
import type { LadderAnswer } from '../../ladder/types.ts';
import type { Banded, Curve, Mark, TorqueBasis } from '../../pull/index.ts';
import type { AirStandard } from '../../trade/index.ts';
import type { UnitSystem } from '../../units/index.ts';

/** Rises with any change of what a hand-over says of the same record. */
export const HANDOVER_VERSION = 3;

/** What was asked for; together with the record it decides every figure. */
export interface HandOverChoice {
  readonly buildId: string;
  /** Days in the order they are told; the last with a decision says what was left in the engine. */
  readonly dayIds: readonly string[];
  /** The build it is held against; null: none. */
  readonly comparedBuildId: string | null;
  readonly standard: AirStandard;
  readonly units: UnitSystem;
  /** Step of the table by speed [rev/min]. */
  readonly stepRpm: number;
  /** What the shop wants to say in its own words; paragraphs parted by an empty line. */
  readonly notes: string;
  /** Who hands it over. */
  readonly by: string;
}

/** Versions of every computation that had a hand in it. */
export interface Versions {
  readonly pullbook: string;
  readonly handover: number;
  readonly curve: number;
  readonly ladder: number;
  readonly sheet: number;
  readonly compare: number;
  readonly plan: number;
}

/** One pull of a day, used or left out. */
export interface HandedPull {
  readonly id: string;
  /** From 1, in the order made that day. */
  readonly number: number;
  readonly madeAt: string | null;
  readonly fileName: string | null;
  /** Null for typed peaks. */
  readonly recordingSha256: string | null;
  readonly rows: { readonly first: number; readonly last: number } | null;
  readonly leadDeg: number | null;
  readonly lambdaTarget: number | null;
  /** This and the next three are missing where nobody said, and in hand-overs older than these columns. */
  readonly lambdaMeasured?: number;
  readonly lambdaErrorSd?: number;
  readonly jets?: string;
  /** Held load [%]; missing: full throttle. */
  readonly loadPercent?: number;
  readonly note: string;
  /** Why it does not count; null: it does. */
  readonly excludedBecause: string | null;
  readonly isAborted: boolean;
  readonly watched: string | null;
  readonly knockHeard: boolean | number;
  /** How the engine stood where it was not as the day's, in words. */
  readonly configuration: string | null;
  /** Null where there is none, and `whyNoCurve` says why. */
  readonly curve: HandedCurve | null;
  readonly whyNoCurve: string | null;
  readonly typedPeaks: {
    readonly torqueNm: number | null;
    readonly torqueSpeedRpm: number | null;
    readonly powerW: number | null;
    readonly powerSpeedRpm: number | null;
    /** The air they were said to stand in; since version 3. */
    readonly air?: TorqueBasis['air'];
  } | null;
}

/** What one pull said, as the report prints and draws it. */
export interface HandedCurve
  extends Pick<
    Curve,
    | 'standard'
    | 'correctionFactor'
    | 'speedRpm'
    | 'torqueNm'
    | 'lowNm'
    | 'highNm'
    | 'powerW'
    | 'peakTorque'
    | 'peakPower'
    | 'conditions'
  > {
  readonly marks: readonly Mark[];
}

export interface HandedLadder {
  readonly id: string;
  readonly name: string;
  readonly setting: string;
  readonly unit: string;
  readonly bandRpm: readonly [number, number] | null;
  /** Null where there is none yet, and `whyNone` says why. */
  readonly answer: LadderAnswer | null;
  readonly whyNone: string | null;
  readonly decision: {
    readonly use: string;
    readonly setting: number | null;
    readonly who: string;
    readonly decidedAt: string;
    readonly why: string;
    readonly advised: number | null;
    readonly advisedWhy: string | null;
  } | null;
}

export interface HandedDay {
  readonly id: string;
  readonly name: string;
  readonly date: string | null;
  readonly notes: string;
  readonly fuel: string;
  readonly octane: number | null;
  readonly fuelBatch: string;
  readonly cell: {
    readonly id: string;
    readonly name: string;
    /** All that turned with the crank, as used [kg m2]; null: not known, and then not put back. */
    readonly inertiaKgM2: number | null;
    /** Day of the torque calibration that held; null: none is in the record, or the day has no date. */
    readonly calibratedOn: string | null;
    readonly calibrationDue: string | null;
    /** What is past due, and the like, in sentences. */
    readonly remarks: readonly string[];
  };
  readonly configuration: Readonly<Record<string, string | number>>;
  readonly pulls: readonly HandedPull[];
  readonly ladders: readonly HandedLadder[];
  readonly plan: {
    readonly plan: Plan;
    readonly madeAt: string;
    readonly ticks: readonly PlanTick[];
  } | null;
}

/** The engine's curve as handed over: the mean of the pulls named, with its band. */
export interface FinalCurve {
  readonly pullIds: readonly string[];
  /** Why these pulls: `the pulls at 27 deg, the setting left in it`. */
  readonly why: string;
  readonly speedRpm: readonly number[];
  readonly torqueNm: readonly number[];
  readonly lowNm: readonly number[];
  readonly highNm: readonly number[];
  readonly powerW: readonly number[];
  readonly peakTorqueNm: Banded & { readonly speedRpm: number };
  readonly peakPowerW: Banded & { readonly speedRpm: number };
  /** The speeds that count, and the means over them. */
  readonly bandRpm: readonly [number, number];
  readonly meanTorqueNm: Banded;
  readonly meanPowerW: Banded;
}

export interface HandedBuild {
  readonly id: string;
  readonly name: string;
  readonly notes: string;
  readonly displacementM3: number | null;
  readonly cylinders: number | null;
  readonly compressionRatio: number | null;
}

/** The build before and this one, each by the pulls that stand for it. */
export interface HandedComparison {
  readonly answer: CompareAnswer;
  /** For the owner, as one paragraph. */
  readonly finding: string;
  /** Why the pulls of the build before stand for it. */
  readonly why: string;
  readonly before: FinalCurve;
  /** How days differ, and how that is known. */
  readonly dayToDay: string;
  readonly warnings: readonly string[];
}

export interface HandOver {
  readonly format: 'handover/1';
  readonly madeAt: string;
  readonly choice: HandOverChoice;
  readonly versions: Versions;
  readonly shop: {
    readonly name: string;
    readonly isInvented: boolean;
    /** Since version 2. */
    readonly address?: string;
    /** PNG or SVG as a data URL; since version 2. */
    readonly mark?: string | null;
  };
  readonly engine: {
    readonly id: string;
    readonly name: string;
    readonly serial: string;
    readonly owner: string;
    readonly notes: string;
    readonly cycle: 2 | 4;
    readonly aspiration: string;
    readonly fuel: string;
  };
  readonly build: HandedBuild;
  readonly days: readonly HandedDay[];
  /** Null where no pull of the days has a curve. */
  readonly final: FinalCurve | null;
  readonly sheet: {
    readonly figures: readonly Figure[];
    readonly checks: readonly Check[];
    readonly measured: number;
    readonly toMeasure: readonly { readonly path: string; readonly label: string }[];
  } | null;
  readonly sinceLast: {
    readonly build: HandedBuild;
    /** Null where one of the two has no sheet. */
    readonly changes: SheetChanges | null;
    /** Null where they cannot be compared, and `whyNoComparison` says why. */
    readonly comparison: HandedComparison | null;
    readonly whyNoComparison: string | null;
  } | null;
  /** What the reader has to be careful about, in sentences. */
  readonly cautions: readonly string[];
}

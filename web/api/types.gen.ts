// Written by `npm run openapi` from the published OpenAPI document. Do not edit by hand.
import type { PartStay, Plan, Sheet, SheetAnswer } from '../../src/build/index.ts';
import type {
  CompareAnswer,
  CompareInput,
  PartAnswer,
  PartPlan,
  PeakSide,
  PeaksAnswer,
} from '../../src/compare/index.ts';
import type { FigureWanted, ReplayWanted } from '../../src/figures.ts';
import type {
  LadderAnswer,
  LadderInput,
  NextMove,
  SettingInterval,
  UseAnswer,
  UseRule,
} from '../../src/ladder/types.ts';
import type { SplineFit } from '../../src/numerics/spline.ts';
import type { AirStandard, PullSpan, TorqueBasis } from '../../src/pull/recording.ts';
import type { Banded, Curve, Mark, Peak } from '../../src/pull/types.ts';

export type {
  AirStandard,
  Banded,
  CompareAnswer,
  CompareInput,
  Curve,
  FigureWanted,
  LadderAnswer,
  LadderInput,
  Mark,
  NextMove,
  PartAnswer,
  PartPlan,
  PartStay,
  Peak,
  PeakSide,
  PeaksAnswer,
  Plan,
  PullSpan,
  ReplayWanted,
  SettingInterval,
  Sheet,
  SheetAnswer,
  SplineFit,
  TorqueBasis,
  UseAnswer,
  UseRule,
};

/** What Pullbook advised at that moment; nothing changes it afterwards. */
export type Advice = {
  /** The setting advised; null: none yet. */ readonly value: number | null;
  readonly why: string;
  readonly evidence: AdviceEvidence | null;
};
/** All that the advice rested on and said, in the unit of the ladder’s setting. */
export type AdviceEvidence = {
  readonly curveVersion: number;
  readonly ladderVersion: number;
  readonly standard: AirStandard;
  readonly bandRpm: BandRpm;
  readonly step: number /** The pulls that counted. */;
  readonly pullIds: readonly string[];
  readonly headline: string;
  readonly best: SettingInterval;
  readonly knee: SettingInterval;
  readonly limit: SettingInterval | null;
  readonly limitWatched: boolean;
  readonly next: NextMove;
  readonly uses: readonly { readonly rule: UseRule; readonly answer: UseAnswer }[];
  readonly warnings: readonly string[];
};
/** Two speeds [rev/min], low before high. */
export type BandRpm = readonly [number, number];
/** One state of the engine. What it leaves null is as the engine says. */
export type Build = {
  readonly name: string;
  readonly notes: string;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly strokeM: number | null;
  readonly compressionRatio: number | null;
  readonly id: string;
  readonly engineId: string;
};
/** A photo or file put to a build. */
export type BuildFile = {
  readonly id: string;
  readonly buildId: string;
  readonly sha256: string /** As it came; to be shown as text. */;
  readonly fileName: string /** Section of the sheet; null: the build as a whole. */;
  readonly section: string | null;
  readonly caption: string;
  readonly who: string;
  readonly putAt: string /** By its bytes, not by its name. */;
  readonly mediaType: string;
  readonly sizeBytes: number;
};
export type BuildPatch = {
  readonly name?: string;
  readonly notes?: string;
  readonly cylinders?: number | null;
  readonly displacementM3?: number | null;
  readonly strokeM?: number | null;
  readonly compressionRatio?: number | null;
};
/** As it was read off, with what follows from it. */
export type Calibration = {
  readonly doneOn: string;
  readonly who: string /** Whole months until it is due again; null: it does not fall due. */;
  readonly intervalMonths: number | null;
  readonly notes: string;
  readonly measured: DeadWeights | SensorCheck;
  readonly id: string;
  readonly cellId: string;
  readonly answer: DeadWeightsAnswer | SensorAnswer;
  readonly due: Due | null;
};
/** All calibrations of a cell, the newest first. */
export type CalibrationPage = {
  readonly state: CalibrationState;
  readonly calibrations: readonly Calibration[];
};
export type CalibrationPatch = {
  readonly doneOn?: string;
  readonly who?: string /** Whole months until it is due again; null: it does not fall due. */;
  readonly intervalMonths?: number | null;
  readonly notes?: string;
  readonly measured?: DeadWeights | SensorCheck;
};
/** How the calibrations of a cell stand on a day. */
export type CalibrationState = {
  readonly cellId: string;
  readonly on: string | null;
  readonly torque: Holding | null;
  readonly sensors: readonly Holding[] /** What pulls, day and ladder say of it. */;
  readonly remarks: readonly Mark[];
};
export type Cell = {
  readonly name: string;
  readonly notes: string;
  readonly inertiaKgM2: number | null;
  readonly sensorLagS: number | null;
  readonly ratio: number;
  readonly torqueIs: TorqueBasis /** Stands in where no calibration with dead weights is in the record on or before the day. */;
  readonly calibrationRelSd: number /** Torque is corrected by the newest calibration; else what it reads wrong is in the band. */;
  readonly applyCalibration: boolean;
  readonly id: string;
};
export type CellPatch = {
  readonly name?: string;
  readonly notes?: string;
  readonly inertiaKgM2?: number | null;
  readonly sensorLagS?: number | null;
  readonly ratio?: number;
  readonly torqueIs?: TorqueBasis /** Stands in where no calibration with dead weights is in the record on or before the day. */;
  readonly calibrationRelSd?: number /** Torque is corrected by the newest calibration; else what it reads wrong is in the band. */;
  readonly applyCalibration?: boolean;
};
/** What a person said of one column. What is left out is as the file says. */
export type ColumnAnswer = {
  readonly quantity:
    | 'time'
    | 'speed'
    | 'torque'
    | 'power'
    | 'lambda'
    | 'afr'
    | 'fuelFlow'
    | 'airFlow'
    | 'oilPressure'
    | 'oilTemperature'
    | 'waterTemperature'
    | 'airTemperature'
    | 'barometer'
    | 'humidity'
    | 'manifoldPressure'
    | 'exhaustTemperature'
    | 'lead'
    | 'throttle'
    | 'knock'
    | 'other';
  readonly unit?: string;
  readonly ignore?: boolean;
  readonly basis?: TorqueBasis;
  readonly pressureReference?: 'absolute' | 'gauge';
  readonly bank?: number;
  readonly cylinder?: number;
};
/** Sides brought to one air and one setting, not compared yet: a browser does that itself, at any band. */
export type CompareMembers = {
  readonly standard: AirStandard;
  readonly sides: readonly CompareSide[] /** Which pulls were taken, in a sentence. */;
  readonly taken: string;
  readonly dayToDay: DayToDay;
  readonly warnings: readonly string[] /** null: fewer than two sides have a curve. */;
  readonly input: CompareInput | null /** Sides of which only the peaks are known. */;
  readonly peakSides: readonly PeakSide[] /** Each of them with the first side. */;
  readonly peaks: readonly PeaksAnswer[];
};
/** What a side was made of. */
export type CompareSide = {
  readonly name: string;
  readonly wanted: SideWanted;
  readonly engineId: string | null /** null: of several builds, or of none. */;
  readonly buildId: string | null;
  readonly pulls: readonly SidePull[] /** peaks: only they are known, and the side has no group in the input. */;
  readonly known:
    | 'curve'
    | 'peaks' /** How its build differs from the first side’s, in a sentence. */;
  readonly builtOtherwise: string | null;
};
export type CompareWanted = {
  /** Gains are of each over the first. */ readonly sides: readonly SideWanted[];
  readonly bandRpm?: BandRpm;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
};
/** A comparison that somebody kept. */
export type Comparison = {
  readonly name: string;
  readonly note: string;
  readonly bandRpm: BandRpm | null;
  readonly standard: AirStandard | null;
  readonly id: string;
  readonly engineId: string;
  readonly engineIds: readonly string[];
  readonly sides: readonly SideWanted[];
  readonly who: string;
  readonly keptAt: string;
  readonly said: ComparisonSaid;
};
export type ComparisonAnswer = {
  readonly standard: AirStandard;
  readonly sides: readonly CompareSide[] /** Which pulls were taken, in a sentence. */;
  readonly taken: string;
  readonly dayToDay: DayToDay;
  readonly warnings: readonly string[] /** Of the sides that have a curve; null where fewer than two have. */;
  readonly answer: CompareAnswer | null /** Of each side of which only the peaks are known, with the first side. */;
  readonly peaks: readonly PeaksAnswer[] /** A paragraph for the owner. */;
  readonly finding: string;
};
export type ComparisonPatch = { readonly name?: string; readonly note?: string };
/** What it said when it was kept; nothing changes it. */
export type ComparisonSaid = {
  readonly compareVersion: number;
  readonly curveVersion: number;
  readonly standard: AirStandard;
  readonly bandRpm: BandRpm | null;
  readonly sides: readonly { readonly name: string; readonly pullIds: readonly string[] }[];
  readonly gains: readonly (Banded & { readonly word: string })[];
  readonly finding: string;
};
/** How the engine stood on the cell. A pull's names only what differs from the day's. */
export type Configuration = {
  readonly exhaust?: string;
  readonly airCleaner?: string;
  readonly accessories?: string;
  readonly oil?: string;
  readonly plugs?: string;
  readonly baseTimingDeg?: number;
  readonly leadSetBy?: string;
  readonly distributorCurve?: string;
  readonly other?: string;
};
export type DayPage = {
  readonly day: TestDay;
  readonly build: Build;
  readonly engine: Engine;
  readonly cell: Cell;
  readonly calibration: CalibrationState;
  readonly pulls: readonly Pull[];
  readonly recordings: readonly StoredRecording[];
  readonly ladders: readonly Ladder[];
  readonly decisions: readonly Decision[];
};
export type DayPatch = {
  readonly cellId?: string;
  readonly name?: string;
  readonly date?: string | null;
  readonly notes?: string;
  readonly fuel?: string | null;
  readonly octane?: number | null;
  readonly fuelBatch?: string;
  readonly inletTemperatureK?: number | null;
  readonly worstInletTemperatureK?: number | null;
  readonly worstOctane?: number | null;
  readonly airPressureAbsPa?: number | null;
  readonly airTemperatureK?: number | null;
  readonly airHumidity?: number | null;
  readonly configuration?: Configuration;
  readonly standard?: AirStandard | null;
  readonly bandRpm?: BandRpm | null;
  readonly use?: string | null;
  readonly lambdaTarget?:
    | number
    | null /** All that turns with the crank, this engine included; null: nobody has said it, the cell’s stands in. */;
  readonly inertiaKgM2?:
    | number
    | null /** Made to learn how days differ: pulls of an unchanged engine. */;
  readonly isReference?: boolean;
};
export type DaySummary = {
  readonly id: string;
  readonly name: string;
  readonly date: string | null;
  readonly engineId: string;
  readonly engineName: string;
  readonly buildId: string;
  readonly buildName: string;
  readonly pullCount: number;
  readonly lowLeadDeg: number | null;
  readonly highLeadDeg: number | null;
  readonly ladders: readonly {
    readonly id: string;
    readonly name: string;
    readonly setting: SettingName;
  }[];
  readonly decisions: readonly {
    readonly kind: SettingName;
    readonly use: string;
    readonly setting: number | null;
  }[];
};
/** From what it is known how days differ on the cell. */
export type DayToDay = {
  readonly from: 'one day' | 'reference pulls' | 'prior';
  readonly sentence: string /** The reference pulls. */;
  readonly pullIds: readonly string[] /** The shop marked their days as reference. */;
  readonly marked: boolean;
};
/** Weights on the torque arm, put on and taken off. */
export type DeadWeights = {
  readonly kind: 'dead weights';
  readonly arm: {
    readonly lengthM: number;
    readonly gravityMPerS2: number;
    readonly offLevelDeg: number;
  } /** Relative standard uncertainties; the most the arm may be off level. */;
  readonly uncertainty: {
    readonly massRelative: number;
    readonly armLengthRelative: number;
    readonly gravityRelative: number;
    readonly offLevelLimitDeg: number;
  } /** Step of the display. */;
  readonly resolutionNm: number /** In the order they were read. */;
  readonly points: readonly {
    readonly massKg: number;
    readonly readingNm: number;
    readonly direction: 'up' | 'down';
  }[];
};
/** At the sensor, in N·m; `expanded` is 95 %. */
export type DeadWeightsAnswer = {
  readonly kind: 'dead weights';
  readonly line: {
    readonly intercept: number;
    readonly slope: number;
    readonly interceptSe: number;
    readonly slopeSe: number;
    readonly correlation: number;
    readonly residualSd: number;
    readonly rSquared: number;
    readonly degreesOfFreedom: number;
    readonly meanX: number;
    readonly sumSquaresX: number;
  };
  readonly zeroNm: number /** Reading over torque: 1.003 reads 0.3 % high. */;
  readonly gain: number;
  readonly hysteresisNm: number | null;
  readonly nonLinearityNm: number;
  readonly repeatabilityNm: number | null;
  readonly zeroReturnNm: number | null;
  readonly rangeNm: readonly [number, number];
  readonly armRelative: number;
  readonly standard: TorqueUncertainty;
  readonly expanded: TorqueUncertainty;
  readonly coverageFactor: number;
  readonly residuals: readonly {
    readonly appliedNm: number;
    readonly readingNm: number;
    readonly direction: 'up' | 'down';
    readonly residualNm: number;
    readonly correctedNm: number;
    readonly expandedNm: number;
  }[];
};
export type Decision = {
  readonly use: string /** In the unit of the ladder’s setting (crank degrees for lead). */;
  readonly setting: number | null;
  readonly who: string;
  readonly why: string;
  readonly id: string;
  readonly ladderId: string;
  readonly decidedAt: string;
  readonly advice: Advice | null;
};
export type DecisionPatch = {
  readonly use?: string /** In the unit of the ladder’s setting (crank degrees for lead). */;
  readonly setting?: number | null;
  readonly who?: string;
  readonly why?: string;
};
export type Drift = {
  /** Of mean power from the first of these days to the last; null: not known yet. */ readonly changePercent: Banded | null;
  readonly word: 'falls' | 'rises' | 'cannot be told from chance' | 'not known yet';
  readonly fromDate: string | null;
  readonly toDate: string | null;
  readonly days: number;
  readonly sentence: string;
};
/** Seen from the day that was asked for; due: 0 days left or less. */
export type Due = { readonly dueIso: string; readonly daysLeft: number; readonly isDue: boolean };
export type Engine = {
  readonly name: string;
  readonly serial: string;
  readonly owner: string;
  readonly notes: string;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly strokeM: number | null;
  readonly compressionRatio: number | null;
  readonly cycle: 2 | 4;
  readonly aspiration: 'natural' | 'boosted' | 'nitrous';
  readonly fuel: string /** Running time after which the shop refreshes it; of this and the next three whichever comes first. */;
  readonly refreshAfterS: number | null;
  readonly refreshAfterPulls: number | null;
  readonly refreshAfterThrottleS: number | null;
  readonly refreshAfterMonths: number | null;
  readonly id: string;
};
export type EnginePage = {
  readonly engine: Engine;
  readonly builds: readonly Build[];
  readonly days: readonly DaySummary[];
};
export type EnginePatch = {
  readonly name?: string;
  readonly serial?: string;
  readonly owner?: string;
  readonly notes?: string;
  readonly cylinders?: number | null;
  readonly displacementM3?: number | null;
  readonly strokeM?: number | null;
  readonly compressionRatio?: number | null;
  readonly cycle?: 2 | 4;
  readonly aspiration?: 'natural' | 'boosted' | 'nitrous';
  readonly fuel?: string /** Running time after which the shop refreshes it; of this and the next three whichever comes first. */;
  readonly refreshAfterS?: number | null;
  readonly refreshAfterPulls?: number | null;
  readonly refreshAfterThrottleS?: number | null;
  readonly refreshAfterMonths?: number | null;
};
export type EngineSummary = {
  readonly id: string;
  readonly name: string;
  readonly serial: string;
  readonly owner: string;
  readonly aspiration: 'natural' | 'boosted' | 'nitrous';
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly builds: readonly {
    readonly id: string;
    readonly name: string;
    readonly dayCount: number;
    readonly pullCount: number;
    readonly lastDate: string | null;
  }[];
};
/** One sentence a person can act on, with its place. */
export type ErrorBody = {
  readonly error: {
    /** input, format, nonphysical, no-convergence, store, too-large … */ readonly code: string;
    readonly message: string;
    readonly file?: string;
    readonly line?: number;
    readonly column?: number | string;
    readonly found?: string;
    readonly expected?: string;
  };
};
/** Why a file was not taken. */
export type FileRefusal = ErrorBody & { readonly understood?: Understood };
export type Finding = {
  readonly found: readonly Found[] /** All that fit, also those not told. */;
  readonly total: number /** The peak range asked for, in W or N·m; a null end is open. */;
  readonly peaks: {
    readonly of: 'power' | 'torque';
    readonly low: number | null;
    readonly high: number | null;
  } | null;
  readonly days:
    | readonly [string | null, string | null]
    | null /** Pulls whose peaks are still to be computed; asking begins it. */;
  readonly peaksNotKnown: number | null;
};
/** The first page of the report, in words. */
export type Findings = {
  readonly title: string;
  readonly language: string;
  readonly blocks: readonly (
    | {
        readonly kind: 'heading';
        readonly level: 1 | 2 | 3;
        readonly text: string;
        readonly over?: string;
      }
    | { readonly kind: 'paragraph'; readonly text: string; readonly quiet?: boolean }
    | { readonly kind: 'facts'; readonly rows: readonly (readonly [string, string])[] }
    | {
        readonly kind: 'headline';
        readonly figures: readonly {
          readonly label: string;
          readonly value: string;
          readonly interval: string;
          readonly where: string;
        }[];
      }
    | {
        readonly kind: 'figure';
        readonly figure: FigureWanted;
        readonly caption: string;
        readonly height: number;
      }
    | { readonly kind: 'list'; readonly items: readonly string[] }
    | { readonly kind: 'care'; readonly word: string; readonly items: readonly string[] }
  )[];
};
export type Found = {
  readonly kind:
    | 'engine'
    | 'build'
    | 'part'
    | 'test day'
    | 'ladder'
    | 'decision'
    | 'hand-over'
    | 'service'
    | 'plan'
    | 'part test'
    | 'comparison'
    | 'use'
    | 'vehicle'
    | 'cell'
    | 'calibration'
    | 'sheet'
    | 'file'
    | 'pull';
  readonly label: string /** What it stands under, outermost first. */;
  readonly trail: string /** Address of its page in the workbook. */;
  readonly page: string;
  readonly date: string | null /** Of a pull, in the air of its day. */;
  readonly peakPowerW: number | null;
  readonly peakTorqueNm: number | null;
};
/** Every figure that was handed over; see docs/handover.md. */
export type HandOver = { readonly format: 'handover/1' };
/** A hand-over as it was frozen. */
export type HandOverKept = {
  readonly id: string;
  readonly buildId: string;
  readonly madeAt: string;
  readonly madeBy: string;
  readonly pullbook: string;
  readonly choice: {
    readonly buildId: string;
    readonly dayIds: readonly string[];
    readonly comparedBuildId: string | null;
    readonly standard: AirStandard;
    readonly units: 'us' | 'metric';
    readonly stepRpm: number;
    readonly notes: string;
    readonly by: string;
  };
  readonly documentSha256: string;
  readonly partSha256: string;
};
export type HandOverWish = {
  /** Left out: every day of the build that has pulls. */ readonly dayIds?: readonly string[] /** Left out: the build before it of the same engine; null: none. */;
  readonly comparedBuildId?: string | null;
  readonly standard?: AirStandard;
  readonly units?: 'us' | 'metric' /** Step of the table by speed. */;
  readonly stepRpm?: number;
  readonly notes?: string;
  readonly by?: string;
};
export type Health = {
  readonly ok: boolean;
  readonly product: 'pullbook';
  readonly version: string;
  readonly apiVersion: 1;
};
/** The newest calibration of one thing on or before a day. */
export type Holding = {
  readonly calibrationId: string /** `torque`, or the sensor by name. */;
  readonly of: string;
  readonly doneOn: string;
  readonly due: Due | null;
};
/** One line of the progress of one file; the last line is done or refused. */
export type ImportProgress =
  | { readonly stage: 'receiving'; readonly fileName: string; readonly bytes: number }
  | {
      readonly stage: 'reading' | 'finding pulls' | 'storing';
      readonly fileName: string;
      readonly share: number | null;
    }
  | { readonly stage: 'done'; readonly fileName: string; readonly imported: Imported }
  | {
      readonly stage: 'refused';
      readonly fileName: string;
      readonly error: {
        /** input, format, nonphysical, no-convergence, store, too-large … */ readonly code: string;
        readonly message: string;
        readonly file?: string;
        readonly line?: number;
        readonly column?: number | string;
        readonly found?: string;
        readonly expected?: string;
      };
      readonly understood?: Understood;
    };
export type Imported = {
  readonly fileName: string /** These very bytes were in the record: nothing was stored, pulls are those that have them. */;
  readonly duplicate: boolean;
  readonly recording: StoredRecording;
  readonly pulls: readonly Pull[];
  readonly understood: Understood | null;
};
export type KeptPlan = {
  /** null: none was made for this day yet. */ readonly planId: string | null;
  readonly madeAt: string | null;
  readonly plan: Plan;
  readonly ticks: readonly PlanTick[];
};
export type KeptSheet = {
  readonly buildId: string /** Rises with every change; 0: there never was a sheet. */;
  readonly version: number;
  readonly sheet: Sheet;
};
/** A use of one’s own, typed or from a log. */
export type KeptUse = {
  readonly id: string;
  readonly engineId: string;
  readonly name: string;
  readonly who: string;
  readonly keptAt: string /** An object of the format use/1, as typed: quantities are texts with their unit (`"speed": "5500 rpm"`). See docs/use.md. */;
  readonly written: Readonly<Record<string, unknown>>;
};
/** A vehicle that an engine goes into, as somebody typed it. */
export type KeptVehicle = {
  readonly id: string;
  readonly engineId: string;
  readonly name: string;
  readonly who: string;
  readonly keptAt: string /** An object of the format vehicle/1, as typed: quantities are texts with their unit (`"mass": "3500 lb"`). See docs/use.md. */;
  readonly written: Readonly<Record<string, unknown>>;
};
/** Pulls of one day (and group) that step one setting. Null: the day's, then the shop's. */
export type Ladder = {
  readonly name: string;
  readonly group:
    | string
    | null /** Only pulls at this lead; null: at any. Says nothing in a ladder of lead. */;
  readonly heldLeadDeg:
    | number
    | null /** Only pulls at this lambda target; null: at any. Says nothing in a ladder of lambda. */;
  readonly heldLambda: number | null;
  readonly bandRpm: BandRpm | null;
  readonly standard: AirStandard | null;
  readonly use: string | null /** Step in which settings are given out, in the setting’s unit. */;
  readonly step: number | null;
  readonly worthPercent: number | null;
  readonly repeatabilityPercent: number | null;
  readonly id: string;
  readonly dayId: string;
  readonly setting: SettingName;
};
export type LadderPatch = {
  readonly name?: string;
  readonly group?:
    | string
    | null /** Only pulls at this lead; null: at any. Says nothing in a ladder of lead. */;
  readonly heldLeadDeg?:
    | number
    | null /** Only pulls at this lambda target; null: at any. Says nothing in a ladder of lambda. */;
  readonly heldLambda?: number | null;
  readonly bandRpm?: BandRpm | null;
  readonly standard?: AirStandard | null;
  readonly use?: string | null /** Step in which settings are given out, in the setting’s unit. */;
  readonly step?: number | null;
  readonly worthPercent?: number | null;
  readonly repeatabilityPercent?: number | null;
};
export type LadderReading = {
  readonly ladderId: string;
  readonly standard: AirStandard;
  readonly input: LadderInput | null;
  readonly answer: LadderAnswer | null;
  readonly whyNone: string | null;
};
export type Mapping = {
  readonly id: string;
  readonly cellId: string;
  readonly shape: string;
  readonly answers: RememberedOptions;
};
/** Replaces what was remembered of this file shape. */
export type MappingBody = { readonly answers: RememberedOptions };
/** Power and fuel along the mixture, and the lambda from which leaner costs power. */
export type MixtureAnswer = {
  readonly costsFrom: SettingInterval;
  readonly rows: readonly {
    readonly lambda: number;
    readonly lossPercent: Banded;
    readonly fuelPercent: number;
    readonly fuelForPowerPercent: Banded;
  }[];
  readonly measured: readonly {
    readonly id: string;
    readonly lambda: number;
    readonly bsfcKgPerJ: number;
  }[];
  readonly savesPercent: number | null;
  readonly sentence: string;
};
export type NewBuild = {
  readonly name: string;
  readonly notes?: string;
  readonly cylinders?: number | null;
  readonly displacementM3?: number | null;
  readonly strokeM?: number | null;
  readonly compressionRatio?: number | null;
};
export type NewCalibration = {
  readonly doneOn: string;
  readonly who: string /** Whole months until it is due again; null: it does not fall due. */;
  readonly intervalMonths?: number | null;
  readonly notes?: string;
  readonly measured: DeadWeights | SensorCheck;
};
export type NewCell = {
  readonly name: string;
  readonly notes?: string;
  readonly inertiaKgM2?: number | null;
  readonly sensorLagS?: number | null;
  readonly ratio?: number;
  readonly torqueIs?: TorqueBasis /** Stands in where no calibration with dead weights is in the record on or before the day. */;
  readonly calibrationRelSd?: number /** Torque is corrected by the newest calibration; else what it reads wrong is in the band. */;
  readonly applyCalibration?: boolean;
};
/** What it says now is computed by the service and kept with it. */
export type NewComparison = {
  /** Left out: the names of its sides. */ readonly name?: string;
  readonly note?: string /** Gains are of each over the first. */;
  readonly sides: readonly SideWanted[];
  readonly bandRpm?: BandRpm | null;
  readonly standard?: AirStandard | null;
};
export type NewDay = {
  readonly cellId: string;
  readonly name?: string;
  readonly date?: string | null;
  readonly notes?: string;
  readonly fuel?: string | null;
  readonly octane?: number | null;
  readonly fuelBatch?: string;
  readonly inletTemperatureK?: number | null;
  readonly worstInletTemperatureK?: number | null;
  readonly worstOctane?: number | null;
  readonly airPressureAbsPa?: number | null;
  readonly airTemperatureK?: number | null;
  readonly airHumidity?: number | null;
  readonly configuration?: Configuration;
  readonly standard?: AirStandard | null;
  readonly bandRpm?: BandRpm | null;
  readonly use?: string | null;
  readonly lambdaTarget?:
    | number
    | null /** All that turns with the crank, this engine included; null: nobody has said it, the cell’s stands in. */;
  readonly inertiaKgM2?:
    | number
    | null /** Made to learn how days differ: pulls of an unchanged engine. */;
  readonly isReference?: boolean;
};
/** The advice that is kept beside it is computed by the service at that moment. */
export type NewDecision = {
  readonly use: string /** In the unit of the ladder’s setting (crank degrees for lead). */;
  readonly setting: number | null;
  readonly who: string;
  readonly why: string /** The figure that the person saw advised; 409 where the ladder no longer advises it. */;
  readonly advised?:
    | number
    | null /** What the person looked at where it was not what the record holds. */;
  readonly asShown?: {
    readonly standard?: AirStandard;
    readonly bandRpm?: BandRpm;
    readonly uses?: readonly UseRule[];
  };
};
export type NewEngine = {
  readonly name: string;
  readonly serial?: string;
  readonly owner?: string;
  readonly notes?: string;
  readonly cylinders?: number | null;
  readonly displacementM3?: number | null;
  readonly strokeM?: number | null;
  readonly compressionRatio?: number | null;
  readonly cycle?: 2 | 4;
  readonly aspiration?: 'natural' | 'boosted' | 'nitrous';
  readonly fuel?: string /** Running time after which the shop refreshes it; of this and the next three whichever comes first. */;
  readonly refreshAfterS?: number | null;
  readonly refreshAfterPulls?: number | null;
  readonly refreshAfterThrottleS?: number | null;
  readonly refreshAfterMonths?: number | null;
};
export type NewLadder = {
  readonly name?: string;
  readonly group?:
    | string
    | null /** Only pulls at this lead; null: at any. Says nothing in a ladder of lead. */;
  readonly heldLeadDeg?:
    | number
    | null /** Only pulls at this lambda target; null: at any. Says nothing in a ladder of lambda. */;
  readonly heldLambda?: number | null;
  readonly bandRpm?: BandRpm | null;
  readonly standard?: AirStandard | null;
  readonly use?: string | null /** Step in which settings are given out, in the setting’s unit. */;
  readonly step?: number | null;
  readonly worthPercent?: number | null;
  readonly repeatabilityPercent?: number | null;
  readonly setting?: SettingName;
};
export type NewPartTest = {
  /** Gain of mean power that the test is to see [%]. */ readonly gainPercent: number /** Pull-to-pull sd [%]; left out: as GET /days/{id}/repeatability says. */;
  readonly repeatabilityPercent?: number;
  readonly order?: 'by turns' | 'randomised' | 'A/B/A';
  readonly groupA?: string;
  readonly groupB?: string /** Of a drawn order; left out: a new one. */;
  readonly seed?: number;
  readonly name?: string;
  readonly bandRpm?: BandRpm | null;
};
/** A pull typed by hand: at least a lead and a peak. Recorded pulls come by import. */
export type NewPull = {
  readonly order?: number;
  readonly madeAt?: string | null;
  readonly leadDeg?: number | null;
  readonly lambdaTarget?:
    | number
    | null /** As read at this pull; null: what its recording says, where it has a channel. */;
  readonly lambdaMeasured?:
    | number
    | null /** Sd of that reading; null: nobody said, a sensor’s usual one stands in. */;
  readonly lambdaErrorSd?:
    | number
    | null /** Jets by position, in words; pulls of one set of jets are one rung. */;
  readonly jets?: string | null /** Held load [%]; null: full throttle. */;
  readonly loadPercent?: number | null;
  readonly note?: string;
  readonly excludedBecause?: string | null;
  readonly watched?:
    | 'ear'
    | 'plug'
    | 'sensor'
    | 'not'
    | null /** true: heard somewhere; a number: heard at that speed [rev/min]; false: not heard. */;
  readonly knockHeard?: boolean | number;
  readonly specksOnPlug?: boolean;
  readonly aborted?: boolean;
  readonly group?: string | null;
  readonly configuration?: Configuration;
  readonly peakPowerW?: number | null;
  readonly peakPowerSpeedRpm?: number | null;
  readonly peakTorqueNm?: number | null;
  readonly peakTorqueSpeedRpm?: number | null;
  readonly peaksAre?: TorqueBasis | null;
};
export type NewServiceEvent = {
  /** A refresh begins its hours and pulls anew; other work leaves them as they are. */ readonly kind?:
    | 'refresh'
    | 'work';
  readonly doneOn: string;
  readonly what?: string;
  readonly parts?: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS?: number | null;
};
export type NewServiceReading = {
  readonly readOn: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS?: number | null /** By cylinder, as a share; null for one that was not read. */;
  readonly leakDown?:
    | readonly (number | null)[]
    | null /** What the gauge may be wrong by, ± the same share; null: nobody said. */;
  readonly leakDownError?:
    | number
    | null /** Cranking pressure by cylinder over the air about it [Pa]. */;
  readonly crankingGaugePa?: readonly (number | null)[] | null;
  readonly crankingErrorPa?: number | null;
  readonly note?: string;
};
export type NewUse = {
  readonly name: string /** An object of the format use/1, as typed: quantities are texts with their unit (`"speed": "5500 rpm"`). See docs/use.md. */;
  readonly written: Readonly<Record<string, unknown>>;
};
export type NewVehicle = {
  readonly name: string /** An object of the format vehicle/1, as typed: quantities are texts with their unit (`"mass": "3500 lb"`). See docs/use.md. */;
  readonly written: Readonly<Record<string, unknown>>;
};
/** Where a part has been; no stay where no sheet names it. */
export type PartHistory = {
  readonly serial: string;
  readonly stays: readonly {
    readonly engineId: string;
    readonly buildId: string;
    readonly stay: PartStay /** Test days of the build, in the order of their dates. */;
    readonly days: readonly {
      readonly id: string;
      readonly name: string;
      readonly date: string | null;
      readonly pullCount: number;
    }[];
  }[];
};
/** A plan as it would be; nothing is stored. */
export type PartPreview = {
  readonly plan: PartPlan;
  readonly repeatability: Repeatability;
  readonly provenClean: boolean /** Why an order must not be drawn yet; null where it may. */;
  readonly whyNotProven: string | null;
};
/** Pulls put on a side of a part test; null: taken off it. */
export type PartPulls = { readonly pullIds: readonly string[]; readonly side: 'a' | 'b' | null };
/** A part test as it stands after the pulls made. */
export type PartReading = {
  readonly partTest: PartTest /** In the order made. */;
  readonly pulls: readonly {
    readonly pull: Pull;
    readonly side: 'a' | 'b';
    readonly counted: boolean;
    readonly why: string | null;
  }[];
  readonly look: PartAnswer;
  readonly standard: AirStandard | null;
  readonly input: CompareInput | null /** Both groups side by side as they stand; null before each has a pull. */;
  readonly answer: CompareAnswer | null;
  readonly finding: string | null;
  readonly warnings: readonly string[];
};
export type PartSerial = {
  readonly serial: string;
  readonly name: string;
  readonly section: string /** In how many builds it stands. */;
  readonly builds: number;
};
/** A fair test of a part; the pulls of a side are those of its group, in the order made. */
export type PartTest = {
  readonly id: string;
  readonly dayId: string;
  readonly name: string;
  readonly groupA: string;
  readonly groupB: string;
  readonly gainPercent: number;
  readonly repeatabilityPercent: number;
  readonly bandRpm: BandRpm | null;
  readonly plan: PartPlan;
  readonly who: string;
  readonly madeAt: string;
};
export type PartTestPatch = { readonly name?: string; readonly bandRpm?: BandRpm | null };
export type PartWanted = {
  /** Gain of mean power that the test is to see [%]. */ readonly gainPercent: number /** Pull-to-pull sd [%]; left out: as GET /days/{id}/repeatability says. */;
  readonly repeatabilityPercent?: number;
  readonly order?: 'by turns' | 'randomised' | 'A/B/A';
  readonly groupA?: string;
  readonly groupB?: string /** Of a drawn order; left out: a new one. */;
  readonly seed?: number;
};
/** Cells of a spreadsheet: rows by line, cells by tab, a heading with units or none. */
export type PastedReadings =
  | {
      readonly kind: 'dead weights';
      readonly text: string;
      readonly massUnit?: string;
      readonly torqueUnit?: string;
    }
  | { readonly kind: 'sensor'; readonly text: string; readonly unit: string };
/** Strike an item, change a number of it, bring it back as it was made, add one of your own, remove that again. Items that keep people safe are refused. */
export type PlanEdit =
  | { readonly act: 'strike'; readonly itemId: string; readonly reason: string }
  | {
      readonly act: 'number';
      readonly itemId: string /** Which stretch of the sentence holds the number, from 0. */;
      readonly part: number /** In the inside unit of that number. */;
      readonly value: number;
      readonly reason: string;
    }
  | { readonly act: 'restore'; readonly itemId: string }
  | {
      readonly act: 'add';
      readonly group:
        | 'safety'
        | 'preRun'
        | 'limits'
        | 'warmUp'
        | 'runIn'
        | 'afterRunIn'
        | 'firstSettings'
        | 'sweeps'
        | 'ladder'
        | 'consumables';
      readonly sentence: string;
      readonly weight?: 'must' | 'should';
      readonly beforeFirstStart?: boolean;
    }
  | { readonly act: 'remove'; readonly itemId: string };
export type PlanTick = { readonly itemId: string; readonly by: string; readonly at: string };
export type Pull = {
  readonly order: number;
  readonly madeAt: string | null;
  readonly leadDeg: number | null;
  readonly lambdaTarget:
    | number
    | null /** As read at this pull; null: what its recording says, where it has a channel. */;
  readonly lambdaMeasured:
    | number
    | null /** Sd of that reading; null: nobody said, a sensor’s usual one stands in. */;
  readonly lambdaErrorSd:
    | number
    | null /** Jets by position, in words; pulls of one set of jets are one rung. */;
  readonly jets: string | null /** Held load [%]; null: full throttle. */;
  readonly loadPercent: number | null;
  readonly note: string;
  readonly excludedBecause: string | null;
  readonly watched:
    | 'ear'
    | 'plug'
    | 'sensor'
    | 'not'
    | null /** true: heard somewhere; a number: heard at that speed [rev/min]; false: not heard. */;
  readonly knockHeard: boolean | number;
  readonly specksOnPlug: boolean;
  readonly aborted: boolean;
  readonly group: string | null;
  readonly configuration: Configuration;
  readonly peakPowerW: number | null;
  readonly peakPowerSpeedRpm: number | null;
  readonly peakTorqueNm: number | null;
  readonly peakTorqueSpeedRpm: number | null;
  readonly peaksAre: TorqueBasis | null;
  readonly id: string;
  readonly dayId: string;
  readonly recordingSha256: string | null;
  readonly fileName: string | null;
  readonly span: PullSpan | null;
};
/** The curve of one pull, or the sentence that says why there is none (typed peaks). */
export type PullCurve = {
  readonly pullId: string;
  readonly curve: Curve | null;
  readonly whyNone: string | null;
};
export type PullPatch = {
  readonly order?: number;
  readonly madeAt?: string | null;
  readonly leadDeg?: number | null;
  readonly lambdaTarget?:
    | number
    | null /** As read at this pull; null: what its recording says, where it has a channel. */;
  readonly lambdaMeasured?:
    | number
    | null /** Sd of that reading; null: nobody said, a sensor’s usual one stands in. */;
  readonly lambdaErrorSd?:
    | number
    | null /** Jets by position, in words; pulls of one set of jets are one rung. */;
  readonly jets?: string | null /** Held load [%]; null: full throttle. */;
  readonly loadPercent?: number | null;
  readonly note?: string;
  readonly excludedBecause?: string | null;
  readonly watched?:
    | 'ear'
    | 'plug'
    | 'sensor'
    | 'not'
    | null /** true: heard somewhere; a number: heard at that speed [rev/min]; false: not heard. */;
  readonly knockHeard?: boolean | number;
  readonly specksOnPlug?: boolean;
  readonly aborted?: boolean;
  readonly group?: string | null;
  readonly configuration?: Configuration;
  readonly peakPowerW?: number | null;
  readonly peakPowerSpeedRpm?: number | null;
  readonly peakTorqueNm?: number | null;
  readonly peakTorqueSpeedRpm?: number | null;
  readonly peaksAre?: TorqueBasis | null;
};
export type PullPatches = readonly { readonly id: string; readonly patch: PullPatch }[];
/** What the file does not say, asked once for each cell and shape of file. Merge the chosen answer into the remembered ones. */
export type Question = {
  /** Stable name: torqueIs, unit:Torque, dayFirst … */ readonly key: string;
  readonly header: string | null;
  readonly sentence: string /** What was taken until it is answered. */;
  readonly meanwhile: string;
  readonly choices: readonly { readonly label: string; readonly answer: RememberedOptions }[];
};
/** The points, as a calibration takes them. */
export type ReadReadings =
  | {
      readonly kind: 'dead weights';
      readonly points: readonly {
        readonly massKg: number;
        readonly readingNm: number;
        readonly direction: 'up' | 'down';
      }[];
    }
  | {
      readonly kind: 'sensor';
      readonly points: readonly { readonly reading: number; readonly reference: number }[];
    };
export type RecordEvent = {
  readonly id: number;
  readonly at: string;
  readonly who: string;
  readonly kind: 'change' | 'import' | 'undo' | 'redo';
  readonly summary: string;
  readonly of: number | null;
  readonly undone: boolean;
  readonly touched?: readonly Touched[];
};
/** By what the shop states; whichever comes first. */
export type RefreshDue = {
  readonly state: 'due' | 'not due' | 'not known';
  readonly since: { readonly what: string; readonly on: string | null };
  readonly lines: readonly {
    readonly by:
      | 'hours'
      | 'pulls'
      | 'full throttle'
      | 'months' /** [s], a number of pulls, or months. */;
    readonly after: number;
    readonly used: number | null;
    readonly isDue: boolean;
    readonly on: string | null;
    readonly earliest: string | null;
    readonly latest: string | null /** Why no day is known. */;
    readonly why: 'too few days' | 'has stood' | 'not read' | 'no day' | null;
  }[] /** Of the line that comes first. */;
  readonly on: string | null;
  readonly sentence: string;
};
/** Answers given to intake with every file of one shape from one cell. */
export type RememberedOptions = {
  /** By header, exactly as the file has it. */ readonly mapping?: Readonly<
    Record<string, ColumnAnswer>
  >;
  readonly torqueIs?: TorqueBasis;
  readonly brakeRatio?: number;
  readonly fuel?: string;
  readonly fuelDensityKgM3?: number;
  readonly dayFirst?: boolean;
};
/** How far two pulls of one setting differ on a cell, as sd of mean power [%]. */
export type Repeatability = {
  readonly percent: Banded;
  readonly from: 'stated' | 'pulls' | 'prior';
  readonly pulls: number;
  readonly sentence: string;
};
/** truth = offset + gain × reading. */
export type SensorAnswer = {
  readonly kind: 'sensor';
  readonly offset: number;
  readonly gain: number;
  readonly largestResidual: number /** 95 % of a corrected reading; null below three points. */;
  readonly uncertainty: number | null;
  readonly residuals: readonly {
    readonly reading: number;
    readonly reference: number;
    readonly corrected: number;
    readonly residual: number;
  }[];
};
/** A sensor beside a reference, both in its own unit. */
export type SensorCheck = {
  readonly kind: 'sensor';
  readonly sensor: string;
  readonly unit: string;
  readonly reference: string /** Standard, in the unit. */;
  readonly referenceUncertainty: number;
  readonly points: readonly { readonly reading: number; readonly reference: number }[];
};
export type ServiceEvent = {
  /** A refresh begins its hours and pulls anew; other work leaves them as they are. */ readonly kind:
    | 'refresh'
    | 'work';
  readonly doneOn: string;
  readonly what: string;
  readonly parts: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS: number | null;
  readonly id: string;
  readonly engineId: string;
  readonly who: string;
  readonly writtenAt: string;
};
export type ServiceEventPatch = {
  /** A refresh begins its hours and pulls anew; other work leaves them as they are. */ readonly kind?:
    | 'refresh'
    | 'work';
  readonly doneOn?: string;
  readonly what?: string;
  readonly parts?: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS?: number | null;
};
export type ServiceReading = {
  readonly readOn: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS: number | null /** By cylinder, as a share; null for one that was not read. */;
  readonly leakDown:
    | readonly (number | null)[]
    | null /** What the gauge may be wrong by, ± the same share; null: nobody said. */;
  readonly leakDownError:
    | number
    | null /** Cranking pressure by cylinder over the air about it [Pa]. */;
  readonly crankingGaugePa: readonly (number | null)[] | null;
  readonly crankingErrorPa: number | null;
  readonly note: string;
  readonly id: string;
  readonly engineId: string;
  readonly who: string;
  readonly writtenAt: string;
};
export type ServiceReadingPatch = {
  readonly readOn?: string /** What the engine had run then, as its meter or log says [s]. */;
  readonly hoursS?: number | null /** By cylinder, as a share; null for one that was not read. */;
  readonly leakDown?:
    | readonly (number | null)[]
    | null /** What the gauge may be wrong by, ± the same share; null: nobody said. */;
  readonly leakDownError?:
    | number
    | null /** Cranking pressure by cylinder over the air about it [Pa]. */;
  readonly crankingGaugePa?: readonly (number | null)[] | null;
  readonly crankingErrorPa?: number | null;
  readonly note?: string;
};
export type ServiceRecord = {
  readonly engine: Engine;
  readonly standard: AirStandard;
  readonly builds: readonly {
    readonly buildId: string;
    readonly name: string;
    readonly assembledOn: string | null;
    readonly pulls: number;
    readonly fullThrottleS: number;
    readonly pullsOfUnknownTime: number /** Since refresh, as the sheet says. */;
    readonly hoursS: number | null /** The speeds that all of its days below share. */;
    readonly bandRpm: BandRpm | null /** The setting that most of its days have. */;
    readonly leadDeg: number | null;
    readonly drift: Drift;
  }[];
  readonly days: readonly {
    readonly dayId: string;
    readonly buildId: string;
    readonly name: string;
    readonly date: string | null;
    readonly pulls: number /** Mean of its pulls at that setting; null: it has none. */;
    readonly power: {
      readonly pulls: number;
      readonly leadDeg: number | null;
      readonly peakPowerW: Banded;
      readonly meanPowerW: Banded;
    } | null;
  }[];
  readonly condition: {
    readonly builds: readonly { readonly name: string; readonly on: string | null }[];
    readonly measures: readonly {
      readonly path: string;
      readonly label: string;
      readonly shown: string | null /** One for each of the builds. */;
      readonly readings: readonly ({
        readonly low: number | null;
        readonly high: number | null;
        readonly mean: number | null;
        readonly count: number;
        readonly words: string | null;
      } | null)[];
      readonly by: number | null;
    }[];
  };
  readonly refresh: RefreshDue;
  readonly events: readonly ServiceEvent[];
  readonly readings: readonly ServiceReading[];
  readonly wear: readonly WearTold[];
  readonly due: readonly {
    readonly what: 'lash' | 'head bolts' | 'refresh' | 'calibration';
    readonly state: 'due' | 'not due' | 'done' | 'not known';
    readonly sentence: string;
    readonly on: string | null;
  }[];
};
/** A kind of setting that a ladder steps. */
export type SettingName = 'lead' | 'lambda';
/** What a file would fill in and change of a sheet, and what of it was not taken. */
export type SheetReading = {
  /** Of the sheet that it was held against; a PUT names it. */ readonly version: number;
  readonly given: Sheet;
  readonly sheet: Sheet;
  readonly taken: readonly {
    readonly section: string | null;
    readonly label: string /** null: nothing stood there. */;
    readonly before: string | null;
    readonly after: string;
  }[];
  readonly refused: readonly {
    readonly row: number | null;
    readonly column: number | null;
    readonly path: string | null;
    readonly found: string;
    readonly expected: string;
  }[];
};
export type Shop = {
  readonly name: string /** The demo: nobody and nothing in it is real. */;
  readonly invented: boolean /** In one line, for its papers. */;
  readonly address: string /** PNG or SVG as a data URL, at most 200 kB. */;
  readonly mark: string | null;
  readonly units: 'us' | 'metric';
  readonly standard: AirStandard;
  readonly worthPercent: number;
  readonly stepDeg: number;
  readonly repeatabilityPercent: number | null;
  readonly holdbackDegPer10K: number;
  readonly holdbackDegPerOctane: number;
  readonly uses: readonly UseRules[];
  readonly windows: readonly WindowRule[];
};
/** What the archive would bring; nothing was written. */
export type ShopFileLook = {
  readonly shop: string;
  readonly madeAt: string /** Rows by kind that are not here yet. */;
  readonly fresh: Readonly<Record<string, number>>;
  readonly known: number /** What becomes of the shop’s own settings: nothing that stands here is written over. Each in a few words. */;
  readonly settings: {
    readonly taken: readonly string[];
    readonly kept: readonly string[];
    readonly renamed: readonly string[];
  };
  readonly conflicts: readonly { readonly sentence: string }[];
  readonly sentence: string;
};
export type ShopFileTaken = {
  readonly taken: number;
  readonly known: number /** What becomes of the shop’s own settings: nothing that stands here is written over. Each in a few words. */;
  readonly settings: {
    readonly taken: readonly string[];
    readonly kept: readonly string[];
    readonly renamed: readonly string[];
  };
};
export type ShopKey = {
  /** Ed25519, 32 bytes, base64. */ readonly publicKey: string /** Short name of the key, for people to compare. */;
  readonly name: string;
};
export type ShopPatch = {
  readonly name?: string /** The demo: nobody and nothing in it is real. */;
  readonly invented?: boolean /** In one line, for its papers. */;
  readonly address?: string /** PNG or SVG as a data URL, at most 200 kB. */;
  readonly mark?: string | null;
  readonly units?: 'us' | 'metric';
  readonly standard?: AirStandard;
  readonly worthPercent?: number;
  readonly stepDeg?: number;
  readonly repeatabilityPercent?: number | null;
  readonly holdbackDegPer10K?: number;
  readonly holdbackDegPerOctane?: number;
  readonly uses?: readonly UseRules[];
  readonly windows?: readonly WindowRule[];
};
export type ShopSummary = {
  readonly shop: Shop;
  readonly engineCount: number;
  readonly dayCount: number;
  readonly pullCount: number;
  readonly engines: readonly EngineSummary[];
  readonly latestDays: readonly DaySummary[];
};
/** One pull of a side, and whether it counts. */
export type SidePull = {
  readonly pullId: string;
  readonly dayId: string;
  readonly label: string /** Name or date of its day. */;
  readonly day: string;
  readonly date: string | null;
  readonly cell: string /** In words: `28 degrees of lead`. */;
  readonly setting: string | null;
  readonly leadDeg: number | null;
  readonly lambda: number | null;
  readonly counted: boolean /** Why it is left out; null where it counts. */;
  readonly why: string | null;
  readonly correctionFactor: number | null;
  readonly airAsRecorded: string | null;
  readonly inertia: 'in' | 'out' | 'unknown' | null;
  readonly sweepRateRpmPerS: number | null;
  readonly lagS:
    | number
    | null /** Date of the calibration of the cell that stood then; null: none in the record. */;
  readonly calibration:
    | string
    | null /** How the engine stood where not all pulls of the comparison agree. */;
  readonly configuration: string | null;
};
/** A side: pulls named by things of the shop (rung: one setting of a ladder; left: the setting decided to be left in the engine of a build, for a use or the one decided last; engine: its newest build with pulls), or a curve typed from paper: a table of four speeds or more, else its peaks. sdPercent null: the paper does not say how sure it is. */
export type SideWanted =
  | {
      readonly kind: 'pulls' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly pullIds: readonly string[];
    }
  | {
      readonly kind: 'rung' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly ladderId: string;
      readonly setting: number;
    }
  | {
      readonly kind: 'ladder' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly ladderId: string;
    }
  | {
      readonly kind: 'group' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly dayId: string;
      readonly group: string;
    }
  | {
      readonly kind: 'day' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly dayId: string;
    }
  | {
      readonly kind: 'build' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly buildId: string;
    }
  | {
      readonly kind: 'left' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly buildId: string;
      readonly use?: string;
    }
  | {
      readonly kind: 'engine' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly engineId: string;
    }
  | {
      readonly kind: 'paper' /** What the side is called; left out: named after what it is. */;
      readonly name?: string;
      readonly basis: TorqueBasis;
      readonly sdPercent: number | null;
      readonly table: readonly { readonly speedRpm: number; readonly torqueNm: number }[] | null;
      readonly peaks: {
        readonly torqueNm: number | null;
        readonly torqueSpeedRpm: number | null;
        readonly powerW: number | null;
        readonly powerSpeedRpm: number | null;
      } | null;
    };
export type StoredRecording = {
  readonly sha256: string;
  readonly fileName: string;
  readonly sizeBytes: number;
  readonly storedBytes: number;
  readonly kind: 'time series' | 'speed table';
  readonly rows: number;
  readonly shape: string;
  readonly importedAt: string;
};
export type TestDay = {
  readonly cellId: string;
  readonly name: string;
  readonly date: string | null;
  readonly notes: string;
  readonly fuel: string | null;
  readonly octane: number | null;
  readonly fuelBatch: string;
  readonly inletTemperatureK: number | null;
  readonly worstInletTemperatureK: number | null;
  readonly worstOctane: number | null;
  readonly airPressureAbsPa: number | null;
  readonly airTemperatureK: number | null;
  readonly airHumidity: number | null;
  readonly configuration: Configuration;
  readonly standard: AirStandard | null;
  readonly bandRpm: BandRpm | null;
  readonly use: string | null;
  readonly lambdaTarget:
    | number
    | null /** All that turns with the crank, this engine included; null: nobody has said it, the cell’s stands in. */;
  readonly inertiaKgM2:
    | number
    | null /** Made to learn how days differ: pulls of an unchanged engine. */;
  readonly isReference: boolean;
  readonly id: string;
  readonly buildId: string;
};
/** U² = constantNm² + (fraction T)². */
export type TorqueUncertainty = { readonly constantNm: number; readonly fraction: number };
export type Touched = {
  readonly entity:
    | 'shop'
    | 'cell'
    | 'mapping'
    | 'engine'
    | 'build'
    | 'day'
    | 'pull'
    | 'ladder'
    | 'decision'
    | 'sheet'
    | 'sheetSection'
    | 'buildFile'
    | 'plan'
    | 'tick'
    | 'calibration'
    | 'comparison'
    | 'partTest'
    | 'vehicle'
    | 'engineUse'
    | 'handOver'
    | 'serviceEvent'
    | 'serviceReading';
  readonly id: string;
  readonly before: Readonly<Record<string, unknown>> | null;
  readonly after: Readonly<Record<string, unknown>> | null;
};
/** Channels drawn as the lowest and highest value of each bin of rows, so that no spike is lost. */
export type Trace = {
  readonly pullId: string;
  readonly span: PullSpan | null /** Rows of the window that is drawn. */;
  readonly rows: number /** Last row of that window. */;
  readonly lastRow: number /** First row of each bin. */;
  readonly row: readonly number[];
  readonly timeS: readonly (number | null)[] | null;
  readonly channels: readonly {
    readonly header: string;
    readonly quantity: string;
    readonly unit: string | null;
    readonly insideUnit: string;
    readonly low: readonly (number | null)[];
    readonly high: readonly (number | null)[];
  }[];
};
/** Best of both with intervals, the ridge, loss over the plane (rows follow lambda), the next pull, what to leave, tables by speed. */
export type TwoAnswer = {
  readonly version: number;
  readonly headline: string;
  readonly summary: string;
  readonly bestLeadDeg: SettingInterval;
  readonly bestLambda: SettingInterval;
  readonly ridgeDegPerTenth: Banded;
  readonly limitWatched: boolean;
  readonly repeatabilityPercent: Banded;
  readonly next: {
    readonly action: 'pull' | 'repeat' | 'back' | 'stop';
    readonly at: { readonly leadDeg: number; readonly lambda: number } | null;
    readonly worthPercent: number | null;
    readonly why: string;
  };
  readonly uses: readonly {
    readonly name: string;
    readonly leadDeg: number | null;
    readonly lambda: number | null;
    readonly givesUpPercent: number | null;
    readonly chancePastBest: number | null;
    readonly why: string;
  }[];
  readonly ridge: {
    readonly lambda: readonly number[];
    readonly leadDeg: readonly number[];
    readonly lowDeg: readonly number[];
    readonly highDeg: readonly number[];
  };
  readonly map: {
    readonly leadDeg: readonly number[];
    readonly lambda: readonly number[];
    readonly lossPercent: readonly (readonly number[])[];
    readonly halfPercent: readonly (readonly number[])[];
    readonly known: readonly (readonly boolean[])[];
    readonly open: readonly (readonly boolean[])[];
  };
  readonly dots: readonly {
    readonly leadDeg: number;
    readonly lambda: number;
    readonly id: string;
    readonly meanPowerW: number | null;
    readonly state: 'clean' | 'limit' | 'not watched' | 'left out';
  }[];
  readonly tables: readonly {
    readonly use: string;
    readonly rows:
      | readonly {
          readonly speedRpm: number;
          readonly leadDeg: number;
          readonly lambda: number;
          readonly bestLeadDeg: SettingInterval;
          readonly bestLambda: SettingInterval;
        }[]
      | null;
    readonly why: string;
  }[];
  readonly warnings: readonly string[];
};
/** All that lead and lambda at once are computed from; also for the browser. */
export type TwoInput = {
  readonly pulls: readonly {
    readonly leadDeg: number;
    readonly lambda: number;
    readonly id: string;
    readonly lambdaSd: number;
    readonly day: number;
    readonly setBy?: string | null;
    readonly exhaustPeakK?: number | null;
    readonly bsfcKgPerJ?: number | null;
    readonly order: number;
    readonly torque: SplineFit | null;
    readonly peakPowerW: number | null;
    readonly peakTorqueNm: number | null;
    readonly excludedBecause: string | null;
    readonly watched: 'ear' | 'plug' | 'sensor' | 'not' | null;
    readonly knockHeard: boolean | number;
    readonly aborted: boolean;
    readonly knock: {
      readonly speedRpm: readonly number[];
      readonly level: readonly (number | null)[];
    } | null;
    readonly airTemperatureK: number | null;
    readonly configuration: string | null;
  }[];
  readonly bandRpm: readonly [number, number];
  readonly uses: readonly {
    readonly name: string;
    readonly holdbackDeg: number;
    readonly holdbackLambda: number;
    readonly chancePastBest: number;
  }[];
  readonly aspiration: 'natural' | 'boosted' | 'nitrous';
  readonly stepDeg: number;
  readonly stepLambda: number;
  readonly worthPercent: number;
  readonly repeatabilityPercent: number | null;
  readonly exhaustLimitK: number | null;
  readonly extraHoldbackDeg: number;
  readonly table: {
    readonly everyRpm: number;
    readonly steepestDeg: number;
    readonly steepestLambda: number;
  };
};
export type TwoReading = {
  readonly dayId: string;
  readonly standard: AirStandard;
  readonly fuel: string /** One a load that was held; empty: nothing to compute from yet, and whyNone says. */;
  readonly loads: readonly {
    /** null: full throttle. */ readonly loadPercent: number | null;
    readonly input: TwoInput;
    readonly answer: TwoAnswer;
  }[];
  readonly whyNone: string | null;
};
/** What was understood of one run file. */
export type Understood = {
  readonly fileName: string /** Key of the file shape for PUT …/mappings/{shape}. */;
  readonly shape: string;
  readonly kind: 'time series' | 'speed table';
  readonly rows: number;
  readonly channels: readonly {
    readonly header: string;
    readonly quantity: string;
    readonly unit: string | null;
    readonly basis: TorqueBasis | null;
    readonly bank: number | null;
    readonly cylinder: number | null;
    readonly derivedFrom: string | null;
  }[];
  readonly spans: readonly PullSpan[];
  readonly questions: readonly Question[];
  readonly warnings: readonly string[];
  readonly answers: RememberedOptions;
};
/** Builds brought to one air and one setting, for a browser that answers by itself. */
export type UseMembers = {
  readonly standard: AirStandard;
  readonly sides: readonly CompareSide[] /** Which pulls were taken, in a sentence. */;
  readonly taken: string;
  readonly dayToDay: DayToDay;
  readonly warnings: readonly string[];
  readonly input: CompareInput;
};
export type UseMembersWanted = {
  /** Builds, or anything else that can be compared; one is enough for a vehicle. */ readonly sides: readonly SideWanted[];
  readonly bandRpm?: BandRpm;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
};
/** A use read from a logged drive; nothing is stored. */
export type UseOfLog = {
  readonly name: string /** An object of the format use/1, as typed: quantities are texts with their unit (`"speed": "5500 rpm"`). See docs/use.md. */;
  readonly written: Readonly<Record<string, unknown>>;
  readonly notes: readonly string[];
};
export type UsePatch = {
  readonly name?: string /** An object of the format use/1, as typed: quantities are texts with their unit (`"speed": "5500 rpm"`). See docs/use.md. */;
  readonly written?: Readonly<Record<string, unknown>>;
};
export type UseRules = {
  readonly name: string;
  readonly meaning: string;
  readonly holdbackDeg: number /** Least holdback to the rich side [lambda]; null: no rule for mixture; missing: the shipped one. */;
  readonly holdbackLambda?: number | null;
  readonly speedsRpm: BandRpm | null;
  readonly chancePastBest: number;
  readonly chancePastLimit: number;
};
export type UseWanted = {
  /** Builds, or anything else that can be compared; one is enough for a vehicle. */ readonly sides: readonly SideWanted[];
  readonly bandRpm?: BandRpm;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean /** All that can be chosen, one of them by name, a kept one, or one typed here; left out: the vehicle’s own quarter mile, or all. */;
  readonly use?:
    | 'all'
    | { readonly chosen: string }
    | { readonly keptId: string }
    | {
        /** An object of the format use/1, as typed: quantities are texts with their unit (`"speed": "5500 rpm"`). See docs/use.md. */ readonly written: Readonly<
          Record<string, unknown>
        >;
      };
  readonly vehicle?:
    | { readonly keptId: string }
    | {
        /** An object of the format vehicle/1, as typed: quantities are texts with their unit (`"mass": "3500 lb"`). See docs/use.md. */ readonly written: Readonly<
          Record<string, unknown>
        >;
      } /** Engine speed about which a use is dragged. */;
  readonly aboveRpm?: number /** The time that counts: `quarterMile` unless said, `0-60mph`, `1km` … */;
  readonly goal?: string;
};
/** Builds under uses and in a vehicle; intervals are 95 %. See docs/command.md. */
export type UsesAnswer = {
  readonly format: 'use-answer/1';
  readonly builds: readonly string[];
  readonly standard: string;
  readonly uses: readonly {
    readonly use: string;
    readonly from: 'chosen' | 'typed' | 'log' | 'vehicle';
    readonly reason: string;
    readonly refused: string | null;
    readonly coverage: number | null;
    readonly builds: readonly { readonly name: string; readonly meanPowerW: Banded }[];
    readonly pairs: readonly {
      readonly a: string;
      readonly b: string;
      readonly gainPercent: Banded;
      readonly finding: string;
    }[];
  }[];
  readonly vehicle: {
    readonly name: string;
    readonly builds: readonly {
      readonly name: string;
      readonly figures: readonly {
        readonly id: string;
        readonly name: string;
        readonly unit: 's' | 'm/s';
        readonly value: number | null;
        readonly low: number | null;
        readonly high: number | null;
      }[];
    }[];
    readonly pairs: readonly {
      readonly a: string;
      readonly b: string;
      readonly differences: readonly {
        readonly id: string;
        readonly name: string;
        readonly unit: 's' | 'm/s';
        readonly value: number | null;
        readonly low: number | null;
        readonly high: number | null;
        readonly chanceBetter: number | null;
      }[];
      readonly finding: string;
    }[];
    readonly assumed: readonly string[];
  } | null /** A paragraph for the owner. */;
  readonly finding: string;
  readonly warnings: readonly string[];
};
export type VehiclePatch = {
  readonly name?: string /** An object of the format vehicle/1, as typed: quantities are texts with their unit (`"mass": "3500 lb"`). See docs/use.md. */;
  readonly written?: Readonly<Record<string, unknown>>;
};
export type Verified = {
  readonly file: string;
  readonly verdict:
    | 'follows'
    | 'changed'
    | 'does not follow'
    | 'other version'
    | 'cannot be computed';
  readonly sentence: string /** What was changed since it was made. */;
  readonly problems: readonly {
    readonly where: string;
    readonly sentence: string;
  }[] /** What could not be held against the figures here, and why. */;
  readonly unheld: readonly { readonly where: string; readonly sentence: string }[];
  readonly differences: readonly {
    readonly where: string /** The same in words. */;
    readonly place: string;
    readonly says?: unknown;
    readonly follows?: unknown;
  }[];
  readonly held: number /** The most by which figures that agree differ in their last digits, as a part of them. */;
  readonly rounding: number;
  readonly engine: string;
  readonly build: string;
  readonly madeAt: string;
  readonly madeWith: string;
  readonly signedBy: ShopKey | null /** Signed with the key of this very shop. */;
  readonly isOurs: boolean;
};
/** Leak-down or cranking pressure over time. Changes are from the first date to the last; intervals are 95 % over all that is asked of one measure. */
export type WearTold = {
  readonly measure: 'leakDown' | 'crankingPressure';
  readonly readings: readonly {
    readonly date: string /** By cylinder: a share, or Pa. */;
    readonly values: readonly (number | null)[];
    readonly error: number | null;
    readonly from: 'sheet' | 'reading';
    readonly id: string /** It was read since the last refresh. */;
    readonly counts: boolean;
  }[];
  readonly answer: {
    readonly word: 'moved' | 'cannot be told from chance' | 'not known yet';
    readonly fromDate: string | null;
    readonly toDate: string | null;
    readonly dates: number;
    readonly cylinders: number;
    readonly moved: readonly {
      readonly cylinder: number;
      readonly against: { readonly value: number; readonly low: number; readonly high: number };
    }[];
    readonly together: {
      readonly value: number;
      readonly low: number;
      readonly high: number;
      readonly moved: boolean;
    } | null;
    readonly newest: {
      readonly date: string;
      readonly worstCylinder: number;
      readonly worst: number;
      readonly mean: number;
      readonly spread: number | null;
    } | null;
  };
  readonly sentences: readonly string[];
};
/** One line of the list of windows of a build sheet. */
export type WindowRule = {
  readonly name: string /** null: all without a line of their own. */;
  readonly uses: readonly string[] | null;
  readonly when: Readonly<Record<string, string>>;
  readonly low: number | null;
  readonly high: number | null;
  readonly stopBelow: number | null;
  readonly stopAbove: number | null;
  readonly perM: boolean;
  readonly source: string;
  readonly addresses?: readonly string[];
};

/** Every route by method and path: what it takes and what it answers. */
export interface Routes {
  /** A whole, consistent copy of the database, made while it stays in use. */
  readonly 'GET /backup': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** One build. */
  readonly 'GET /builds/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Build;
  };
  /** Change a build; fields left out stay. */
  readonly 'PATCH /builds/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: BuildPatch;
    readonly answer: Build;
  };
  /** Remove a build with all under it; POST /undo brings it back. */
  readonly 'DELETE /builds/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All of its days. */
  readonly 'GET /builds/{id}/days': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly TestDay[];
  };
  /** A new test day. */
  readonly 'POST /builds/{id}/days': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewDay;
    readonly answer: TestDay;
  };
  /** Photos and files of a build, in the order in which they were put there. */
  readonly 'GET /builds/{id}/files': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly BuildFile[];
  };
  /** Put a photo or file to a build; the body is its bytes. */
  readonly 'POST /builds/{id}/files': {
    readonly params: { readonly id: string };
    readonly query: { readonly name: string; readonly section?: string; readonly caption?: string };
    readonly body: Blob | Uint8Array;
    readonly answer: BuildFile;
  };
  /** What a hand-over of this build would find today, in words; nothing is frozen or kept. */
  readonly 'GET /builds/{id}/findings': {
    readonly params: { readonly id: string };
    readonly query: { readonly standard?: AirStandard; readonly units?: 'us' | 'metric' };
    readonly body: undefined;
    readonly answer: Findings;
  };
  /** Hand-overs of a build, the oldest first. */
  readonly 'GET /builds/{id}/handovers': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly HandOverKept[];
  };
  /** Freeze what the record says of a build into a hand-over. */
  readonly 'POST /builds/{id}/handovers': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: HandOverWish;
    readonly answer: HandOverKept;
  };
  /** The next build of the engine, begun as a copy; measurements of changed sections are left to be filled in. */
  readonly 'POST /builds/{id}/next': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: { readonly name: string; readonly changed?: readonly string[] };
    readonly answer: Build;
  };
  /** The sheet of a build and its version. */
  readonly 'GET /builds/{id}/sheet': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: KeptSheet;
  };
  /** Keep the sheet of a build; refused where another was kept since the version it was made from. */
  readonly 'PUT /builds/{id}/sheet': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: { readonly version: number; readonly sheet: Sheet };
    readonly answer: KeptSheet;
  };
  /** What follows from the sheet, judged by the windows of the shop. */
  readonly 'GET /builds/{id}/sheet/answer': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: SheetAnswer;
  };
  /** The sheet as a file: a build file, or a table for spreadsheets. */
  readonly 'GET /builds/{id}/sheet/file': {
    readonly params: { readonly id: string };
    readonly query: { readonly as: 'json' | 'csv' | 'xlsx' };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** What a table or build file would fill in and change; nothing is kept. */
  readonly 'POST /builds/{id}/sheet/read': {
    readonly params: { readonly id: string };
    readonly query: { readonly name: string; readonly cylinders?: number };
    readonly body: Blob | Uint8Array;
    readonly answer: SheetReading;
  };
  /** Read what a spreadsheet holds of a calibration; nothing is kept. */
  readonly 'POST /calibrations/readings': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: PastedReadings;
    readonly answer: ReadReadings;
  };
  /** One calibration with what follows from it. */
  readonly 'GET /calibrations/{id}': {
    readonly params: { readonly id: string };
    readonly query: { readonly on?: string };
    readonly body: undefined;
    readonly answer: Calibration;
  };
  /** Change a calibration; fields left out stay, curves follow. */
  readonly 'PATCH /calibrations/{id}': {
    readonly params: { readonly id: string };
    readonly query: { readonly on?: string };
    readonly body: CalibrationPatch;
    readonly answer: Calibration;
  };
  /** Remove a calibration; POST /undo brings it back. */
  readonly 'DELETE /calibrations/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All of its cells. */
  readonly 'GET /cells': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Cell[];
  };
  /** A new cell. */
  readonly 'POST /cells': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: NewCell;
    readonly answer: Cell;
  };
  /** One cell. */
  readonly 'GET /cells/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Cell;
  };
  /** Change a cell; fields left out stay. */
  readonly 'PATCH /cells/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: CellPatch;
    readonly answer: Cell;
  };
  /** Remove a cell with all under it; POST /undo brings it back. */
  readonly 'DELETE /cells/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All calibrations of a cell, what follows from each, and how they stand on a day. */
  readonly 'GET /cells/{id}/calibrations': {
    readonly params: { readonly id: string };
    readonly query: { readonly on?: string };
    readonly body: undefined;
    readonly answer: CalibrationPage;
  };
  /** Keep a calibration; the curves of later days follow at once. */
  readonly 'POST /cells/{id}/calibrations': {
    readonly params: { readonly id: string };
    readonly query: { readonly on?: string };
    readonly body: NewCalibration;
    readonly answer: Calibration;
  };
  /** What would be understood of a run file; nothing is stored. */
  readonly 'POST /cells/{id}/look': {
    readonly params: { readonly id: string };
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: Understood;
  };
  /** What is remembered of the file shapes of this cell. */
  readonly 'GET /cells/{id}/mappings': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Mapping[];
  };
  /** What is remembered of one file shape. */
  readonly 'GET /cells/{id}/mappings/{shape}': {
    readonly params: { readonly id: string; readonly shape: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Mapping;
  };
  /** Remember the answers for one file shape; curves follow at once. */
  readonly 'PUT /cells/{id}/mappings/{shape}': {
    readonly params: { readonly id: string; readonly shape: string };
    readonly query: undefined;
    readonly body: MappingBody;
    readonly answer: Mapping;
  };
  /** Two or more sides compared over the speeds that they share; nothing is stored. */
  readonly 'POST /compare': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: CompareWanted;
    readonly answer: ComparisonAnswer;
  };
  /** The pulls of each side with their curves, brought together but not compared. */
  readonly 'POST /compare/members': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: CompareWanted;
    readonly answer: CompareMembers;
  };
  /** Keep a comparison with what it says now; it stands on the page of its first engine. */
  readonly 'POST /comparisons': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: NewComparison;
    readonly answer: Comparison;
  };
  /** One kept comparison. */
  readonly 'GET /comparisons/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Comparison;
  };
  /** Change a kept comparison; fields left out stay. */
  readonly 'PATCH /comparisons/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: ComparisonPatch;
    readonly answer: Comparison;
  };
  /** Remove a kept comparison with all under it; POST /undo brings it back. */
  readonly 'DELETE /comparisons/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** One test day. */
  readonly 'GET /days/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: TestDay;
  };
  /** Change a test day; fields left out stay. */
  readonly 'PATCH /days/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: DayPatch;
    readonly answer: TestDay;
  };
  /** Remove a test day with all under it; POST /undo brings it back. */
  readonly 'DELETE /days/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** Lead and lambda of a day at once: input and answer as they stand. */
  readonly 'GET /days/{id}/both': {
    readonly params: { readonly id: string };
    readonly query: { readonly standard?: AirStandard };
    readonly body: undefined;
    readonly answer: TwoReading;
  };
  /** Lead and lambda by speed for one use, with units in its heads: CSV, a workbook or Parquet. */
  readonly 'GET /days/{id}/both/table': {
    readonly params: { readonly id: string };
    readonly query: {
      readonly standard?: AirStandard;
      readonly use: string;
      readonly as?: 'csv' | 'xlsx' | 'parquet';
    };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** The curves of all pulls of a day in a standard air. */
  readonly 'GET /days/{id}/curves': {
    readonly params: { readonly id: string };
    readonly query: { readonly standard?: AirStandard };
    readonly body: undefined;
    readonly answer: readonly PullCurve[];
  };
  /** All of its ladders. */
  readonly 'GET /days/{id}/ladders': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Ladder[];
  };
  /** A new ladder. */
  readonly 'POST /days/{id}/ladders': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewLadder;
    readonly answer: Ladder;
  };
  /** All that the screen of one test day shows but its curves. */
  readonly 'GET /days/{id}/page': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: DayPage;
  };
  /** All of its part tests. */
  readonly 'GET /days/{id}/part-tests': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly PartTest[];
  };
  /** A new part test. */
  readonly 'POST /days/{id}/part-tests': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewPartTest;
    readonly answer: PartTest;
  };
  /** How many pulls of each would be needed, and in which order; nothing is stored. */
  readonly 'POST /days/{id}/part-tests/plan': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PartWanted;
    readonly answer: PartPreview;
  };
  /** The newest test plan of a day with who ticked what. */
  readonly 'GET /days/{id}/plan': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: KeptPlan;
  };
  /** Make the test plan of a day from the sheet of its build; an older one stays in the record. */
  readonly 'POST /days/{id}/plan': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: KeptPlan;
  };
  /** All of its pulls. */
  readonly 'GET /days/{id}/pulls': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Pull[];
  };
  /** A new pull. */
  readonly 'POST /days/{id}/pulls': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewPull;
    readonly answer: Pull;
  };
  /** Change many pulls of a day in one step (a pasted table). */
  readonly 'PATCH /days/{id}/pulls': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PullPatches;
    readonly answer: readonly Pull[];
  };
  /** Post one run file as it came; its pulls join the day. */
  readonly 'POST /days/{id}/recordings': {
    readonly params: { readonly id: string };
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: Imported;
  };
  /** How far pulls of one setting differ on the cell of a day. */
  readonly 'GET /days/{id}/repeatability': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Repeatability;
  };
  /** The pulls of a day, or their curves, with the unit of every column: CSV, a workbook or Parquet. */
  readonly 'GET /days/{id}/tables/{table}': {
    readonly params: { readonly id: string; readonly table: 'pulls' | 'curves' };
    readonly query: { readonly as?: 'csv' | 'xlsx' | 'parquet'; readonly standard?: AirStandard };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** One decision. */
  readonly 'GET /decisions/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Decision;
  };
  /** Change a decision; fields left out stay. */
  readonly 'PATCH /decisions/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: DecisionPatch;
    readonly answer: Decision;
  };
  /** Remove a decision with all under it; POST /undo brings it back. */
  readonly 'DELETE /decisions/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All of its engines. */
  readonly 'GET /engines': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Engine[];
  };
  /** A new engine. */
  readonly 'POST /engines': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: NewEngine;
    readonly answer: Engine;
  };
  /** One engine. */
  readonly 'GET /engines/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Engine;
  };
  /** Change a engine; fields left out stay. */
  readonly 'PATCH /engines/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: EnginePatch;
    readonly answer: Engine;
  };
  /** Remove a engine with all under it; POST /undo brings it back. */
  readonly 'DELETE /engines/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All of its builds. */
  readonly 'GET /engines/{id}/builds': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Build[];
  };
  /** A new build. */
  readonly 'POST /engines/{id}/builds': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewBuild;
    readonly answer: Build;
  };
  /** All of its kept comparisons. */
  readonly 'GET /engines/{id}/comparisons': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Comparison[];
  };
  /** All that the screen of one engine shows. */
  readonly 'GET /engines/{id}/page': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: EnginePage;
  };
  /** What an engine has run, its condition and power over time, and what is due. */
  readonly 'GET /engines/{id}/service': {
    readonly params: { readonly id: string };
    readonly query: { readonly on?: string; readonly units?: 'us' | 'metric' };
    readonly body: undefined;
    readonly answer: ServiceRecord;
  };
  /** All of its services. */
  readonly 'GET /engines/{id}/service-events': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly ServiceEvent[];
  };
  /** A new service of an engine. */
  readonly 'POST /engines/{id}/service-events': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewServiceEvent;
    readonly answer: ServiceEvent;
  };
  /** All of its service readings. */
  readonly 'GET /engines/{id}/service-readings': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly ServiceReading[];
  };
  /** A new service reading. */
  readonly 'POST /engines/{id}/service-readings': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewServiceReading;
    readonly answer: ServiceReading;
  };
  /** All of its uses. */
  readonly 'GET /engines/{id}/uses': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly KeptUse[];
  };
  /** A new use. */
  readonly 'POST /engines/{id}/uses': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewUse;
    readonly answer: KeptUse;
  };
  /** All of its vehicles. */
  readonly 'GET /engines/{id}/vehicles': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly KeptVehicle[];
  };
  /** A new vehicle. */
  readonly 'POST /engines/{id}/vehicles': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewVehicle;
    readonly answer: KeptVehicle;
  };
  /** Every change of the record, newest first. */
  readonly 'GET /events': {
    readonly params: undefined;
    readonly query: { readonly before?: number; readonly limit?: number };
    readonly body: undefined;
    readonly answer: readonly RecordEvent[];
  };
  /** One event with the rows it touched, before and after. */
  readonly 'GET /events/{event}': {
    readonly params: { readonly event: number };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: RecordEvent;
  };
  /** Bring back one undone event. */
  readonly 'POST /events/{event}/redo': {
    readonly params: { readonly event: number };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: RecordEvent;
  };
  /** Take back one event. */
  readonly 'POST /events/{event}/undo': {
    readonly params: { readonly event: number };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: RecordEvent;
  };
  /** The whole shop, or one engine with all under it, as a zip for another machine. */
  readonly 'GET /export': {
    readonly params: undefined;
    readonly query: { readonly engine?: string };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** Change the caption of a photo or file, or move it to another section. */
  readonly 'PATCH /files/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: { readonly caption?: string; readonly section?: string | null };
    readonly answer: BuildFile;
  };
  /** Take a photo or file off its build; POST /undo brings it back. */
  readonly 'DELETE /files/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** The photo or file as it came, byte for byte. */
  readonly 'GET /files/{id}/bytes': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** A hand-over and every figure of it. */
  readonly 'GET /handovers/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: { readonly kept: HandOverKept; readonly document: HandOver };
  };
  /** Remove a hand-over; POST /undo brings it back. */
  readonly 'DELETE /handovers/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** The bundle: one zip with everything, signed, that needs no Pullbook to be read. */
  readonly 'GET /handovers/{id}/bundle': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** What the first page of the report says, as blocks of text and one picture. */
  readonly 'GET /handovers/{id}/findings': {
    readonly params: { readonly id: string };
    readonly query: { readonly language?: 'en' | 'de'; readonly units?: 'us' | 'metric' };
    readonly body: undefined;
    readonly answer: Findings;
  };
  /** The page for the owner: one HTML file whose pictures answer to the cursor. */
  readonly 'GET /handovers/{id}/page': {
    readonly params: { readonly id: string };
    readonly query: { readonly language?: 'en' | 'de' };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** The result as a picture to be shown (SVG), with the mark of the shop. */
  readonly 'GET /handovers/{id}/picture': {
    readonly params: { readonly id: string };
    readonly query: {
      readonly shape?: 'screen' | 'large' | 'square' | 'story';
      readonly language?: 'en' | 'de';
      readonly units?: 'us' | 'metric';
    };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** The curve in the time of its pull, that of the build before beside it. */
  readonly 'GET /handovers/{id}/replay': {
    readonly params: { readonly id: string };
    readonly query: { readonly language?: 'en' | 'de'; readonly units?: 'us' | 'metric' };
    readonly body: undefined;
    readonly answer: ReplayWanted;
  };
  /** The report as a PDF, with the bundle in it. */
  readonly 'GET /handovers/{id}/report': {
    readonly params: { readonly id: string };
    readonly query: { readonly language?: 'en' | 'de'; readonly size?: 'letter' | 'a4' };
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** Whether the server answers, and its version. */
  readonly 'GET /health': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Health;
  };
  /** One ladder. */
  readonly 'GET /ladders/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Ladder;
  };
  /** Change a ladder; fields left out stay. */
  readonly 'PATCH /ladders/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: LadderPatch;
    readonly answer: Ladder;
  };
  /** Remove a ladder with all under it; POST /undo brings it back. */
  readonly 'DELETE /ladders/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** All of its decisions. */
  readonly 'GET /ladders/{id}/decisions': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly Decision[];
  };
  /** A new decision. */
  readonly 'POST /ladders/{id}/decisions': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: NewDecision;
    readonly answer: Decision;
  };
  /** Input and answer of a ladder as it stands. */
  readonly 'GET /ladders/{id}/reading': {
    readonly params: { readonly id: string };
    readonly query: { readonly standard?: AirStandard };
    readonly body: undefined;
    readonly answer: LadderReading;
  };
  /** One part test. */
  readonly 'GET /part-tests/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: PartTest;
  };
  /** Change a part test; fields left out stay. */
  readonly 'PATCH /part-tests/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PartTestPatch;
    readonly answer: PartTest;
  };
  /** Remove a part test with all under it; POST /undo brings it back. */
  readonly 'DELETE /part-tests/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** Say which side pulls of the day are of. */
  readonly 'POST /part-tests/{id}/pulls': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PartPulls;
    readonly answer: PartReading;
  };
  /** A part test after the pulls made: whether to go on, and which pull is next. */
  readonly 'GET /part-tests/{id}/reading': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: PartReading;
  };
  /** All parts of the shop that have a serial. */
  readonly 'GET /parts': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: readonly PartSerial[];
  };
  /** Where a part has been, what was measured of it, and the pulls it has seen. */
  readonly 'GET /parts/history': {
    readonly params: undefined;
    readonly query: { readonly serial: string };
    readonly body: undefined;
    readonly answer: PartHistory;
  };
  /** Change the plan of a day; what was made stays beside it, and POST /undo takes it back. */
  readonly 'POST /plans/{id}/edits': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PlanEdit;
    readonly answer: KeptPlan;
  };
  /** Tick an item of a plan, or take the tick back. */
  readonly 'POST /plans/{id}/ticks': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: { readonly itemId: string; readonly ticked: boolean };
    readonly answer: KeptPlan;
  };
  /** One pull. */
  readonly 'GET /pulls/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Pull;
  };
  /** Change a pull; fields left out stay. */
  readonly 'PATCH /pulls/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: PullPatch;
    readonly answer: Pull;
  };
  /** Remove a pull with all under it; POST /undo brings it back. */
  readonly 'DELETE /pulls/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** The curve of one pull in a standard air. */
  readonly 'GET /pulls/{id}/curve': {
    readonly params: { readonly id: string };
    readonly query: { readonly standard?: AirStandard };
    readonly body: undefined;
    readonly answer: PullCurve;
  };
  /** A pull in its own time, another of the shop beside it where one is named. */
  readonly 'GET /pulls/{id}/replay': {
    readonly params: { readonly id: string };
    readonly query: {
      readonly beside?: string;
      readonly standard?: AirStandard;
      readonly language?: 'en' | 'de';
      readonly units?: 'us' | 'metric';
    };
    readonly body: undefined;
    readonly answer: ReplayWanted;
  };
  /** Channels of the recording behind a pull, thinned for drawing. */
  readonly 'GET /pulls/{id}/trace': {
    readonly params: { readonly id: string };
    readonly query: {
      readonly points?: number;
      readonly whole?: 'true' | 'false';
      readonly fromRow?: number | null;
      readonly toRow?: number | null;
    };
    readonly body: undefined;
    readonly answer: Trace;
  };
  /** What is stored of one file. */
  readonly 'GET /recordings/{sha256}': {
    readonly params: { readonly sha256: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: StoredRecording;
  };
  /** The file as it came, byte for byte. */
  readonly 'GET /recordings/{sha256}/bytes': {
    readonly params: { readonly sha256: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Blob;
  };
  /** What is understood of a stored file with the answers remembered for a cell. */
  readonly 'GET /recordings/{sha256}/understood': {
    readonly params: { readonly sha256: string };
    readonly query: { readonly cellId?: string };
    readonly body: undefined;
    readonly answer: Understood;
  };
  /** Bring back the event last undone. */
  readonly 'POST /redo': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: RecordEvent;
  };
  /** Everything of the shop that has these words: engines, builds, parts and serials, days, ladders, decisions, hand-overs, services, plans with their ticks, part tests, comparisons, uses, vehicles, calibrations, notes, files, pulls; with peaks (`power 700-800`, `300 to 320 kW`, `torque over 500 lb-ft`) and days (`2026-05`, `2026-01..2026-05`, `May to July 2026`, `since 2026-05`). */
  readonly 'GET /search': {
    readonly params: undefined;
    readonly query: {
      readonly q: string;
      readonly units?: 'us' | 'metric';
      readonly limit?: number;
    };
    readonly body: undefined;
    readonly answer: Finding;
  };
  /** One service of an engine. */
  readonly 'GET /service-events/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: ServiceEvent;
  };
  /** Change a service of an engine; fields left out stay. */
  readonly 'PATCH /service-events/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: ServiceEventPatch;
    readonly answer: ServiceEvent;
  };
  /** Remove a service of an engine with all under it; POST /undo brings it back. */
  readonly 'DELETE /service-events/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** One service reading. */
  readonly 'GET /service-readings/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: ServiceReading;
  };
  /** Change a service reading; fields left out stay. */
  readonly 'PATCH /service-readings/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: ServiceReadingPatch;
    readonly answer: ServiceReading;
  };
  /** Remove a service reading with all under it; POST /undo brings it back. */
  readonly 'DELETE /service-readings/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** The shop and its settings. */
  readonly 'GET /shop': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: Shop;
  };
  /** Change settings of the shop; fields left out stay. */
  readonly 'PATCH /shop': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: ShopPatch;
    readonly answer: Shop;
  };
  /** The public half of the key that the shop signs with; made at its first use. */
  readonly 'GET /shop/key': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: ShopKey;
  };
  /** All that the first screen shows. */
  readonly 'GET /shop/summary': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: ShopSummary;
  };
  /** Take such a zip in, in one change; POST /undo takes it back. */
  readonly 'POST /take': {
    readonly params: undefined;
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: ShopFileTaken;
  };
  /** What such a zip would bring, and what stands here otherwise. */
  readonly 'POST /take/look': {
    readonly params: undefined;
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: ShopFileLook;
  };
  /** Take back the newest event that stands. */
  readonly 'POST /undo': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: RecordEvent;
  };
  /** Builds under a use and in a vehicle; nothing is stored. */
  readonly 'POST /use': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: UseWanted;
    readonly answer: UsesAnswer;
  };
  /** The pulls of each build with their curves, brought together but not answered for. */
  readonly 'POST /use/members': {
    readonly params: undefined;
    readonly query: undefined;
    readonly body: UseMembersWanted;
    readonly answer: UseMembers;
  };
  /** Read a logged drive into a use; the body is its bytes, nothing is stored. */
  readonly 'POST /uses/from-log': {
    readonly params: undefined;
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: UseOfLog;
  };
  /** One use. */
  readonly 'GET /uses/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: KeptUse;
  };
  /** Change a use; fields left out stay. */
  readonly 'PATCH /uses/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: UsePatch;
    readonly answer: KeptUse;
  };
  /** Remove a use with all under it; POST /undo brings it back. */
  readonly 'DELETE /uses/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** One vehicle. */
  readonly 'GET /vehicles/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: KeptVehicle;
  };
  /** Change a vehicle; fields left out stay. */
  readonly 'PATCH /vehicles/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: VehiclePatch;
    readonly answer: KeptVehicle;
  };
  /** Remove a vehicle with all under it; POST /undo brings it back. */
  readonly 'DELETE /vehicles/{id}': {
    readonly params: { readonly id: string };
    readonly query: undefined;
    readonly body: undefined;
    readonly answer: undefined;
  };
  /** Hold a bundle against the recordings in it; nothing is stored. */
  readonly 'POST /verify': {
    readonly params: undefined;
    readonly query: { readonly name: string };
    readonly body: Blob | Uint8Array;
    readonly answer: Verified;
  };
}

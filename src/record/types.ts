/**
 * The entities of a shop's record, as every later room sees them. Plain data, ids opaque strings,
 * numbers in inside units with the unit in the name. `null` always means: not known or not said.
 */
import type { WindowRule } from '../build/compute/windows.ts';
import type { Attachment, Layout, SectionData } from '../build/sheet/types.ts';
import type { RememberedOptions } from '../intake/types.ts';
import type { SettingName } from '../ladder/kinds.ts';
import type { NextMove, SettingInterval, UseAnswer, UseRule, Watched } from '../ladder/types.ts';
import type { AirStandard, PullSpan, TorqueBasis } from '../pull/recording.ts';
import type { Aspiration } from '../pull/types.ts';
import type { Measured } from '../trade/calibration/measured.ts';
import type { UnitSystem } from '../units/types.ts';
import type { Comparison, PartTest } from './compared.ts';
import type { ServiceEvent, ServiceReading } from './service.ts';
import type { KeptUse, KeptVehicle } from './uses.ts';

export type Id = string;
/** `2026-05-17`. */
export type IsoDate = string;
/** `2026-05-17T14:03:22.120Z`. */
export type IsoTime = string;
/** Two speeds [rev/min], low before high. */
export type BandRpm = readonly [number, number];

/** What a use of the engine asks of the setting left in it. */
export interface UseRules {
  readonly name: string;
  /** What the use means, in words a customer knows. */
  readonly meaning: string;
  /** Least holdback below the lowest of best, highest clean rung and limit [crank degrees for lead]. */
  readonly holdbackDeg: number;
  /** The same for mixture, in lambda to the rich side; null: no rule; not said: the shipped one of that name. */
  readonly holdbackLambda?: number | null;
  /** Speeds at full throttle that the use visits; null: the ladder's band. */
  readonly speedsRpm: BandRpm | null;
  readonly chancePastBest: number;
  readonly chancePastLimit: number;
}

/** The one shop of a database, with what it wants everywhere unless a day or ladder says otherwise. */
export interface Shop {
  readonly name: string;
  /** The demo that comes along: nobody and nothing in it is real. */
  readonly invented: boolean;
  /** In one line, for its papers. */
  readonly address: string;
  /** Its mark: a PNG or SVG picture as a data URL. */
  readonly mark: string | null;
  readonly units: UnitSystem;
  readonly standard: AirStandard;
  /** Least gain of mean power a rung that is worth having [%]. */
  readonly worthPercent: number;
  /** Step in which leads are given out [crank degrees]. */
  readonly stepDeg: number;
  /** Pull-to-pull sd of mean power [%] when the shop states it. */
  readonly repeatabilityPercent: number | null;
  readonly holdbackDegPer10K: number;
  readonly holdbackDegPerOctane: number;
  readonly uses: readonly UseRules[];
  /** The shop's own windows of what a sheet measures; they stand before the shipped ones. */
  readonly windows: readonly WindowRule[];
}

export interface Cell {
  readonly id: Id;
  readonly name: string;
  readonly notes: string;
  readonly inertiaKgM2: number | null;
  readonly sensorLagS: number | null;
  /** Brake turns per crank turn. */
  readonly ratio: number;
  /** What the torque column holds where the header does not say. */
  readonly torqueIs: TorqueBasis;
  /** Assumed where no calibration with dead weights on or before the day is in the record. */
  readonly calibrationRelSd: number;
  /** Whether torque is corrected by the newest calibration on or before its day; without it what it reads wrong is in the band. */
  readonly applyCalibration: boolean;
}

/** One calibration or check of a cell, as it was read off; what follows from it is computed. */
export interface Calibration {
  readonly id: Id;
  readonly cellId: Id;
  readonly doneOn: IsoDate;
  readonly who: string;
  /** Whole months until it is due again; null: it does not fall due. */
  readonly intervalMonths: number | null;
  readonly notes: string;
  readonly measured: Measured;
}

/** What stands once on a build's sheet; its sections are rows of their own. */
export interface SheetHead {
  readonly id: Id;
  readonly buildId: Id;
  readonly name: string | null;
  readonly layout: Layout;
  readonly use: string | null;
  /** Empty: photos and files are a build's own (`BuildFile`). Older events still name it. */
  readonly attachments: readonly Attachment[];
}
export interface SheetSection {
  readonly id: Id;
  readonly sheetId: Id;
  readonly section: string;
  readonly data: SectionData;
}

/** A photo or file put to a build, or to one section of its sheet. */
export interface BuildFile {
  readonly id: Id;
  readonly buildId: Id;
  readonly sha256: string;
  readonly fileName: string;
  /** Section of the sheet that it belongs to; null: the build as a whole. */
  readonly section: string | null;
  readonly caption: string;
  readonly who: string;
  readonly putAt: IsoTime;
}

/** The bytes of a photo or file. They never change and are never destroyed. */
export interface StoredFile {
  readonly sha256: string;
  readonly fileName: string;
  readonly sizeBytes: number;
  readonly storedBytes: number;
  /** By its content, not by its name. */
  readonly mediaType: string;
  readonly storedAt: IsoTime;
}

/** The plan of a test day, frozen as it was made. */
export interface DayPlan {
  readonly id: Id;
  readonly dayId: Id;
  readonly madeAt: IsoTime;
  readonly who: string;
  /** Of the computation that made it. */
  readonly version: number;
  readonly plan: unknown;
}
export interface Tick {
  readonly id: Id;
  readonly planId: Id;
  readonly itemId: string;
  readonly who: string;
  readonly tickedAt: IsoTime;
}

/** A hand-over as it was frozen: what was told, and what it was computed from, by their SHA-256. */
export interface HandOverKept {
  readonly id: Id;
  readonly buildId: Id;
  readonly madeAt: IsoTime;
  readonly madeBy: string;
  /** Version of the program that made it. */
  readonly pullbook: string;
  /** What was asked for, as `report` has it. */
  readonly choice: unknown;
  readonly documentSha256: string;
  readonly partSha256: string;
}

/** The answers remembered for one cell and one shape of file (same headers, same order). */
export interface Mapping {
  readonly id: Id;
  readonly cellId: Id;
  /** Fingerprint of the file shape, as intake makes it. */
  readonly shape: string;
  /** Given to intake again with every file of this shape. */
  readonly answers: RememberedOptions;
}

export interface Engine {
  readonly id: Id;
  readonly name: string;
  /** The shop's own serial of this physical engine. */
  readonly serial: string;
  readonly owner: string;
  readonly notes: string;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly strokeM: number | null;
  readonly compressionRatio: number | null;
  readonly cycle: 2 | 4;
  readonly aspiration: Aspiration;
  readonly fuel: string;
  /** When the shop refreshes it, whichever comes first; null in each: it states none. Running time [s]. */
  readonly refreshAfterS: number | null;
  readonly refreshAfterPulls: number | null;
  /** Time at full throttle [s]. */
  readonly refreshAfterThrottleS: number | null;
  readonly refreshAfterMonths: number | null;
}

/** One state of the engine's parts. What it leaves null is as the engine says. */
export interface Build {
  readonly id: Id;
  readonly engineId: Id;
  readonly name: string;
  readonly notes: string;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly strokeM: number | null;
  readonly compressionRatio: number | null;
}

/** How the engine stood on the cell. A pull's own configuration overrides only the fields it names. */
export interface Configuration {
  readonly exhaust?: string;
  readonly airCleaner?: string;
  readonly accessories?: string;
  readonly oil?: string;
  readonly plugs?: string;
  readonly baseTimingDeg?: number;
  /** How lead was set and checked (`light, at 3000 rpm`). */
  readonly leadSetBy?: string;
  readonly distributorCurve?: string;
  readonly other?: string;
}

export interface TestDay {
  readonly id: Id;
  readonly buildId: Id;
  readonly cellId: Id;
  readonly name: string;
  readonly date: IsoDate | null;
  readonly notes: string;
  /** Null: the engine's. */
  readonly fuel: string | null;
  readonly octane: number | null;
  readonly fuelBatch: string;
  readonly inletTemperatureK: number | null;
  /** The worst the owner will give it; null: no worse than the day's. */
  readonly worstInletTemperatureK: number | null;
  readonly worstOctane: number | null;
  /** Air of the day, used where the recording has no channel for it. */
  readonly airPressureAbsPa: number | null;
  readonly airTemperatureK: number | null;
  readonly airHumidity: number | null;
  readonly configuration: Configuration;
  /** Null: the shop's. */
  readonly standard: AirStandard | null;
  readonly bandRpm: BandRpm | null;
  /** A use by name; null: all of the shop's are answered. */
  readonly use: string | null;
  readonly lambdaTarget: number | null;
  /**
   * All that turned with the crank that day, this engine, coupling and brake, as seen at the crank [kg m2]. Null: nobody
   * has said it of this engine, and the cell's figure stands in.
   */
  readonly inertiaKgM2: number | null;
  /** The shop says of this day that its pulls are of an unchanged engine, made to learn how days differ. */
  readonly isReference: boolean;
}

/** A file as it came. Its bytes never change and are never destroyed. */
export interface StoredRecording {
  readonly sha256: string;
  readonly fileName: string;
  readonly sizeBytes: number;
  readonly storedBytes: number;
  readonly kind: 'time series' | 'speed table';
  readonly rows: number;
  readonly shape: string;
  readonly importedAt: IsoTime;
}

/** One pull: a span of a recording, or typed peaks alone, with what the operator set and saw. */
export interface Pull {
  readonly id: Id;
  readonly dayId: Id;
  /** Null for typed peaks. */
  readonly recordingSha256: string | null;
  readonly fileName: string | null;
  readonly span: PullSpan | null;
  /** Order in which the day's pulls were made, from 0. */
  readonly order: number;
  readonly madeAt: IsoTime | null;
  readonly leadDeg: number | null;
  readonly lambdaTarget: number | null;
  /** As read at this pull and typed; null: what the recording says, where it has a channel. */
  readonly lambdaMeasured: number | null;
  /** Sd of that reading; null: nobody said. */
  readonly lambdaErrorSd: number | null;
  /** Jets by position, in words (`primary 68, secondary 76`); pulls of one set of jets are one rung. */
  readonly jets: string | null;
  /** Held load [%]; null: full throttle. */
  readonly loadPercent: number | null;
  readonly note: string;
  readonly excludedBecause: string | null;
  readonly watched: Watched | null;
  /** true: heard somewhere; a number: heard at that speed [rev/min]; false: not heard. */
  readonly knockHeard: boolean | number;
  readonly specksOnPlug: boolean;
  readonly aborted: boolean;
  /** Name of a part test; pulls of one group are one ladder. */
  readonly group: string | null;
  readonly configuration: Configuration;
  readonly peakPowerW: number | null;
  readonly peakPowerSpeedRpm: number | null;
  readonly peakTorqueNm: number | null;
  readonly peakTorqueSpeedRpm: number | null;
  /** What the typed peaks are; null where there are none. */
  readonly peaksAre: TorqueBasis | null;
}

/** Pulls of one day (and one group) that step one setting. */
export interface Ladder {
  readonly id: Id;
  readonly dayId: Id;
  readonly name: string;
  /** The kind of setting that it steps. */
  readonly setting: SettingName;
  /** Null: the pulls of the day that are in no group. */
  readonly group: string | null;
  /** Only pulls where the other setting stood here; null: whatever it was. */
  readonly heldLeadDeg: number | null;
  readonly heldLambda: number | null;
  /** Null in each of these: the day's, then the shop's. */
  readonly bandRpm: BandRpm | null;
  readonly standard: AirStandard | null;
  readonly use: string | null;
  /** Step in which settings are given out, in the setting's unit. */
  readonly step: number | null;
  readonly worthPercent: number | null;
  readonly repeatabilityPercent: number | null;
}

/** The setting somebody decided to leave in the engine, in the unit of its ladder's kind of setting. */
export interface Decision {
  readonly id: Id;
  readonly ladderId: Id;
  readonly use: string;
  readonly setting: number | null;
  readonly who: string;
  readonly decidedAt: IsoTime;
  readonly why: string;
  /** Null where Pullbook had no answer to give. */
  readonly advice: Advice | null;
}

/** What Pullbook advised when somebody decided, frozen: later pulls, rules and versions leave it as it was. */
export interface Advice {
  /** The setting advised for the use that was decided on; null: none yet, and `why` says why. */
  readonly value: number | null;
  readonly why: string;
  /** Null in decisions that are older than this was kept. */
  readonly evidence: AdviceEvidence | null;
}

/** All that the advice rested on and said, so that it can be held against what the same pulls say later. */
export interface AdviceEvidence {
  /** Versions of the computations that made it. */
  readonly curveVersion: number;
  readonly ladderVersion: number;
  readonly standard: AirStandard;
  readonly bandRpm: BandRpm;
  /** Step in which settings were given out. */
  readonly step: number;
  /** The pulls that counted. */
  readonly pullIds: readonly Id[];
  readonly headline: string;
  readonly best: SettingInterval;
  readonly knee: SettingInterval;
  readonly limit: SettingInterval | null;
  readonly limitWatched: boolean;
  readonly next: NextMove;
  /** Every use with the rule it was judged by. */
  readonly uses: readonly { readonly rule: UseRule; readonly answer: UseAnswer }[];
  readonly warnings: readonly string[];
}

export const ENTITIES = [
  'shop',
  'cell',
  'mapping',
  'engine',
  'build',
  'day',
  'pull',
  'ladder',
  'decision',
  'sheet',
  'sheetSection',
  'buildFile',
  'plan',
  'tick',
  'calibration',
  'comparison',
  'partTest',
  'vehicle',
  'engineUse',
  'handOver',
  'serviceEvent',
  'serviceReading',
] as const;
export type EntityName = (typeof ENTITIES)[number];

export interface EntityTypes {
  readonly shop: Shop;
  readonly cell: Cell;
  readonly mapping: Mapping;
  readonly engine: Engine;
  readonly build: Build;
  readonly day: TestDay;
  readonly pull: Pull;
  readonly ladder: Ladder;
  readonly decision: Decision;
  readonly sheet: SheetHead;
  readonly sheetSection: SheetSection;
  readonly buildFile: BuildFile;
  readonly plan: DayPlan;
  readonly tick: Tick;
  readonly calibration: Calibration;
  readonly comparison: Comparison;
  readonly partTest: PartTest;
  readonly vehicle: KeptVehicle;
  readonly engineUse: KeptUse;
  readonly handOver: HandOverKept;
  readonly serviceEvent: ServiceEvent;
  readonly serviceReading: ServiceReading;
}

/** One row that an event touched: `before` null when it was made, `after` null when it was removed; an update names only the fields that changed. */
export interface Touched {
  readonly entity: EntityName;
  readonly id: Id;
  readonly before: Readonly<Record<string, unknown>> | null;
  readonly after: Readonly<Record<string, unknown>> | null;
}

/** One change of the record, made in one transaction, that can be undone as a whole. */
export interface RecordEvent {
  /** Counts up from 1 in the order of commits. */
  readonly id: number;
  readonly at: IsoTime;
  readonly who: string;
  readonly kind: 'change' | 'import' | 'undo' | 'redo';
  /** One sentence (`imported pull-03.csv: 1 pull`). */
  readonly summary: string;
  /** For undo and redo: the event it took back or brought back. */
  readonly of: number | null;
  readonly undone: boolean;
  /** Rows touched; left out of lists, present when one event is read. */
  readonly touched?: readonly Touched[];
}

/** First screen: every engine with its builds and days, counts and what stands decided. */
export interface ShopSummary {
  readonly shop: Shop;
  readonly engineCount: number;
  readonly dayCount: number;
  readonly pullCount: number;
  readonly engines: readonly EngineSummary[];
  /** The newest days of the shop, newest first, at most 12. */
  readonly latestDays: readonly DaySummary[];
}
export interface EngineSummary {
  readonly id: Id;
  readonly name: string;
  readonly serial: string;
  readonly owner: string;
  readonly aspiration: Aspiration;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly builds: readonly {
    readonly id: Id;
    readonly name: string;
    readonly dayCount: number;
    readonly pullCount: number;
    readonly lastDate: IsoDate | null;
  }[];
}
export interface DaySummary {
  readonly id: Id;
  readonly name: string;
  readonly date: IsoDate | null;
  readonly engineId: Id;
  readonly engineName: string;
  readonly buildId: Id;
  readonly buildName: string;
  readonly pullCount: number;
  readonly lowLeadDeg: number | null;
  readonly highLeadDeg: number | null;
  readonly ladders: readonly Pick<Ladder, 'id' | 'name' | 'setting'>[];
  /** What stands decided, by kind of setting and use. */
  readonly decisions: readonly {
    readonly kind: SettingName;
    readonly use: string;
    readonly setting: number | null;
  }[];
}

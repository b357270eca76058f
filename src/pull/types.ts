import type { SplineFit } from '../numerics/spline.ts';
import type { CellCalibration } from './calibration.ts';
import type { AirStandard, PullSpan, TorqueBasis } from './recording.ts';

/** What is known of the cell that made a recording. */
export interface CellSetup {
  /** All that turns with the crank (engine, coupling, brake) as seen at the crank; null: not known. */
  readonly inertiaKgM2: number | null;
  /** The figure stands with the cell, and nobody has said it with this engine on it: the curve says so. */
  readonly inertiaAssumed?: boolean;
  /**
   * First-order time constant of the torque sensor; null: not known. It is then read from the jumps of the
   * throttle in the recording where they show it, and said; where they do not, nothing is taken out.
   */
  readonly sensorLagS: number | null;
  /** Brake turns per crank turn. */
  readonly ratio: number;
  /** What the torque column holds where its header does not say. */
  readonly torqueIs: TorqueBasis;
  /** Relative standard uncertainty of the cell's torque calibration, common to the day, where no calibration is known. */
  readonly calibrationRelSd: number;
  /** The newest on the day of the pull; it stands before `calibrationRelSd`. */
  readonly calibration?: CellCalibration | null;
}

export type Aspiration = 'natural' | 'boosted' | 'nitrous';

export interface EngineSetup {
  readonly name: string;
  readonly cylinders: number | null;
  readonly displacementM3: number | null;
  readonly strokeM: number | null;
  readonly compressionRatio: number | null;
  /** Strokes of the working cycle. */
  readonly cycle: 2 | 4;
  readonly aspiration: Aspiration;
  readonly fuel: string;
}

/** In which air a curve is wanted. A fit answers any wish; only the fit reads the recording. */
export interface AirWish {
  readonly standard: AirStandard;
  /** Correct a boosted or nitrous engine all the same; without it such an engine shows observed figures. */
  readonly correctBoosted?: boolean;
}

/** What the fit of a pull depends on: all but the air in which it is shown. */
export interface FitOptions {
  readonly cell: CellSetup;
  readonly engine: EngineSetup;
  /** Air to use where the recording has no channel for it. */
  readonly air?: {
    readonly pressureAbsPa?: number;
    readonly temperatureK?: number;
    readonly humidity?: number;
  };
  readonly lambdaTarget?: number;
  /** Speeds that the pull should cover. */
  readonly bandRpm?: readonly [number, number];
  /**
   * Where oil, water and inlet air should stand when a pull begins [K]; where not given, the shipped windows.
   */
  readonly startWindowsK?: {
    readonly oilTemperatureK?: readonly [number, number];
    readonly waterTemperatureK?: readonly [number, number];
    readonly airTemperatureK?: readonly [number, number];
  };
  /** Relative sd from pull to pull in absolute bands, where the shop knows its own. */
  readonly repeatabilityRelSd?: number;
}

export type CurveOptions = FitOptions & AirWish;

/** A number with its 95 % interval. */
export interface Banded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
export interface Peak extends Banded {
  readonly unit: string;
  readonly speedRpm: number;
  /**
   * The highest of what was swept may stand at this end of it: the engine's own peak can lie beyond, at least
   * as high, and `high` does not bound that.
   */
  readonly atEdge?: 'low' | 'high';
}

/** Something seen in one pull, in a plain sentence. `where` when it belongs to one place in the sweep. */
export interface Mark {
  readonly kind:
    | 'blip'
    | 'sweep rate'
    | 'coverage'
    | 'temperature'
    | 'lambda'
    | 'correction factor'
    | 'stuck channel'
    | 'clipped channel'
    | 'drifting channel'
    | 'oil pressure'
    | 'exhaust temperature'
    | 'zero'
    | 'throttle'
    | 'air'
    | 'basis'
    | 'inertia'
    | 'boost'
    | 'time since last pull'
    | 'calibration'
    | 'other';
  readonly severity: 'note' | 'look again' | 'stop';
  readonly sentence: string;
  readonly fromRpm?: number;
  readonly toRpm?: number;
  /** Size of a blip against the curve [N·m]. */
  readonly sizeNm?: number;
}

/** A derived curve on the grid of its pull, null where the channels do not allow it. */
export interface DerivedCurves {
  readonly bmepPa: readonly number[] | null;
  readonly bsfcKgPerJ: readonly number[] | null;
  readonly volumetricEfficiency: readonly number[] | null;
  readonly pistonSpeedMPerS: readonly number[] | null;
}

/** What one pull says about the engine in standard air. Plain data; crosses to the browser as JSON. */
export interface Curve {
  readonly version: number;
  readonly span: PullSpan;
  readonly standard: AirStandard;
  /** Mean factor over the pull that brought observed torque to the standard; 1 where none was applied. */
  readonly correctionFactor: number;
  /** The factor each standard would have given, so that switching costs nothing. */
  readonly factors: Readonly<Record<AirStandard, number | null>>;
  readonly basis: TorqueBasis;
  /**
   * Torque [N·m] against speed [rev/min]; the covariance is of noise and wander within the pull and excludes
   * what is common to the pull, the cell and the day.
   */
  readonly spline: SplineFit;
  /** Scale of the residuals [N·m] and their correlation at one sample apart. */
  readonly residualSdNm: number;
  readonly residualCorrelation: number;
  readonly effectiveDof: number;
  /**
   * Relative sd of what is common to the whole pull: repeatability and calibration. In bands and peaks, not
   * in the spline.
   */
  readonly commonRelSd: number;
  /** The same in N·m at any torque: the constant part of the cell's calibration, at the crank. */
  readonly commonSdNm: number;
  /**
   * Of these two the part of the cell's calibration: the same in every pull made on one cell under one calibration, so it
   * leaves their differences alone. `doneOn` null: the cell's stated figure stands in.
   */
  readonly calibration: {
    readonly doneOn: string | null;
    readonly applied: boolean;
    readonly relSd: number;
    readonly constantSdNm: number;
  };
  /** Lag that was taken out of the torque [s], and where it comes from. */
  readonly lagS: number;
  readonly lagFrom: 'cell' | 'throttle' | 'none';
  readonly speedRpm: readonly number[];
  readonly torqueNm: readonly number[];
  /** 95 % pointwise and absolute: noise within the pull, pull-to-pull repeatability, the cell's calibration. */
  readonly lowNm: readonly number[];
  readonly highNm: readonly number[];
  readonly powerW: readonly number[];
  readonly peakTorque: Peak;
  readonly peakPower: Peak;
  readonly derived: DerivedCurves;
  /**
   * Channels that later rooms judge by, as means over bins of speed (null where a bin is empty). Lambda: the
   * leanest bank; knock: the worst sensor; exhaust: the hottest cylinder.
   */
  readonly bySpeed: {
    readonly speedRpm: readonly number[];
    readonly lambda: readonly (number | null)[] | null;
    readonly knock: readonly (number | null)[] | null;
    readonly lead: readonly (number | null)[] | null;
    readonly exhaustTemperatureK?: readonly (number | null)[] | null;
  };
  readonly conditions: {
    readonly airTemperatureK: number | null;
    readonly pressureAbsPa: number | null;
    readonly humidity: number | null;
    readonly oilTemperatureK: number | null;
    readonly waterTemperatureK: number | null;
    readonly sweepRateRpmPerS: number | null;
  };
  readonly marks: readonly Mark[];
}

/** The air that went into the engine during one pull, and what each standard makes of it. */
export interface PullAir {
  readonly temperatureK: number | null;
  readonly pressureAbsPa: number | null;
  readonly humidity: number | null;
  /** Nothing said the humidity, so a usual one was taken. */
  readonly humidityAssumed: boolean;
  /** Null: the recording does not allow it. `none` is always 1. */
  readonly factors: Readonly<Record<AirStandard, number | null>>;
  /** Density of the moist air before the inlet [kg/m³]. */
  readonly densityKgPerM3: number | null;
  readonly marks: readonly Mark[];
}

/** A blip with its times as the recording has them; its size in the air of the column. */
export interface TimedBlip {
  readonly fromS: number;
  readonly toS: number;
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly sizeNm: number;
}

/**
 * One pull fitted once, its torque in the air of its column. Every standard is a scaling of it (`curveIn`).
 * Plain data, to be kept under the recording and the options that it was made with.
 */
export interface PullFit {
  readonly version: number;
  readonly asRecorded: Omit<
    Curve,
    'standard' | 'correctionFactor' | 'factors' | 'basis' | 'marks' | 'version'
  >;
  /** What the torque is, inertia put back or not. */
  readonly basis: TorqueBasis;
  readonly air: PullAir;
  readonly aspiration: Aspiration;
  readonly blips: readonly TimedBlip[];
  /** What was seen in pairing torque with speed, and by the checks of the pull. */
  readonly pointMarks: readonly Mark[];
  readonly checkMarks: readonly Mark[];
}

import { AIR_STANDARDS, type AirStandard } from '../trade/index.ts';

/** What intake makes of a run file and every later room reads: named channels in inside units. */

/** The quantities a channel can be recognised as. */
export const QUANTITIES = [
  'time',
  'speed',
  'torque',
  'power',
  'lambda',
  'afr',
  'fuelFlow',
  'airFlow',
  'oilPressure',
  'oilTemperature',
  'waterTemperature',
  'airTemperature',
  'barometer',
  'humidity',
  'manifoldPressure',
  'exhaustTemperature',
  'lead',
  'throttle',
  'knock',
  'other',
] as const;
export type Quantity = (typeof QUANTITIES)[number];

export { AIR_STANDARDS, type AirStandard };

/**
 * Which torque (or power) a column holds. `unknown` is never corrected and says so.
 * `inertia: 'out'`: the torque that accelerated the rotating parts is not in the figure (the brake's own reading);
 * `'in'`: the logger has already put it back.
 */
export interface TorqueBasis {
  readonly air: 'observed' | AirStandard | 'unknown';
  readonly inertia: 'in' | 'out' | 'unknown';
}

export interface Channel {
  /** The header as the file has it, unit included. Shown as text, never run. */
  readonly header: string;
  readonly quantity: Quantity;
  /** Symbol of the unit found in the file (`lb-ft`), or null where the file states none. */
  readonly unit: string | null;
  /**
   * Values in inside units, one a row, NaN where missing: s, rev/min, N·m, W, 1 (lambda, afr, humidity and throttle
   * as fractions), kg/s, Pa, K, crank degrees; `knock` and `other` as the file has them.
   */
  readonly values: Float64Array;
  readonly pressureReference?: 'absolute' | 'gauge';
  /** For torque and power. */
  readonly basis?: TorqueBasis;
  readonly bank?: number;
  readonly cylinder?: number;
  /** Said where the channel was computed from others (`torque from power and speed`). */
  readonly derivedFrom?: string;
}

export interface Recording {
  /** `time series`: rows follow time. `speed table`: rows are already binned by speed. */
  readonly kind: 'time series' | 'speed table';
  readonly rows: number;
  readonly channels: readonly Channel[];
  /** 1-based line in the file of each row, for messages; empty where rows have no lines (Parquet). */
  readonly lineOfRow: Uint32Array;
  readonly warnings: readonly string[];
}

/** One pull inside a recording: rows firstRow..lastRow (0-based, inclusive). */
export interface PullSpan {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly direction: 'rising' | 'falling' | 'held steps' | 'table';
  readonly fromRpm: number;
  readonly toRpm: number;
}

import type { Dimension, Unit } from './types.ts';

/** A unit and the ways people and loggers spell it (case, spaces, dots and dashes do not matter). */
export interface UnitRow extends Unit {
  readonly spellings: readonly string[];
}

/* Definitions. Everything below is derived from these, nothing is rounded. */
export const LB_KG = 0.45359237; // international pound, 1959
export const FT_M = 0.3048; // international foot, 1959
export const IN_M = FT_M / 12;
export const G0 = 9.80665; // standard gravity, 3rd CGPM 1901
export const GAL_US_M3 = 231 * IN_M ** 3; // US liquid gallon, 231 cubic inches
export const GAL_IMP_M3 = 4.54609e-3; // imperial gallon, UK Units of Measurement Regulations 1995
export const LBF_N = LB_KG * G0;
export const MERCURY_KG_M3 = 13595.1; // conventional density of mercury (0 °C)
export const WATER_KG_M3 = 1000; // conventional density of water (4 °C)
export const HP_W = 550 * FT_M * LBF_N; // mechanical horsepower, 550 ft·lbf/s
export const PS_W = 75 * G0; // metric horsepower, 75 kgf·m/s

export function unit(
  dimension: Dimension,
  symbol: string,
  factor: number,
  source: string,
  spellings: readonly string[] = [],
  offset = 0,
): UnitRow {
  return { symbol, dimension, factor, offset, source, spellings };
}

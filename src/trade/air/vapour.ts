import { NonPhysicalError } from '../../errors.ts';
import { saturationPressurePa } from './saturation.ts';

/** Ratio of the molar masses of water and dry air, 18.015268 / 28.966 (ASHRAE Fundamentals 2017, ch. 1). */
const WATER_TO_AIR_MOLAR_RATIO = 0.621945;
/** Grains in a pound, exact. */
const GRAINS_PER_LB = 7000;

/** Psychrometer coefficients [1/K]. Default: WMO. The others: psychrometry handbooks, from memory. */
const PSYCHROMETER_COEFFICIENTS = {
  standard: 6.21e-4,
  ventilated: 6.6e-4,
  'natural draught': 8e-4,
} as const;

/**
 * Partial pressure of water vapour [Pa] from relative humidity.
 * @param relativeHumidity  as a fraction, 0 to 1 (a sensor's 1.05 in fog is taken as it is, more is refused)
 * @throws NonPhysicalError  humidity below 0 or above 1.05
 */
export function vapourPressureFromHumidityPa(
  temperatureK: number,
  relativeHumidity: number,
): number {
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1.05))
    throw new NonPhysicalError(
      `invalid relative humidity: ${relativeHumidity}; expected a fraction from 0 to 1`,
      { found: String(relativeHumidity), expected: '0 to 1' },
    );
  return relativeHumidity * saturationPressurePa(temperatureK);
}

/**
 * Partial pressure of water vapour [Pa] from a wet-bulb thermometer: e = e_sat(tw) − A p (t − tw).
 * @source  WMO psychrometer equation; check 958 hPa, 25/12 °C, A 6.21e-4 → 627.52 Pa (MetPy's documentation)
 * @validity  wet bulb above freezing: an iced bulb has another coefficient
 * @throws NonPhysicalError  wet bulb above dry bulb, below freezing, or so dry that the vapour pressure is negative
 */
export function vapourPressureFromWetBulbPa(air: {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
  readonly wetBulbK: number;
  readonly coefficientPerK?: number;
}): number {
  const { pressureAbsPa, temperatureK, wetBulbK } = air;
  const coefficient = air.coefficientPerK ?? PSYCHROMETER_COEFFICIENTS.standard;
  if (wetBulbK > temperatureK || wetBulbK < 273.15)
    throw new NonPhysicalError(
      `invalid wet bulb: ${wetBulbK} K; expected 273.15 K up to the dry bulb, ${temperatureK} K`,
      { found: `${wetBulbK} K`, expected: `273.15 to ${temperatureK} K` },
    );
  const vapourPressurePa =
    saturationPressurePa(wetBulbK) - coefficient * pressureAbsPa * (temperatureK - wetBulbK);
  if (vapourPressurePa < 0)
    throw new NonPhysicalError(
      `wet bulb ${wetBulbK} K and dry bulb ${temperatureK} K give less than no vapour; expected a wet bulb nearer the dry one`,
      { found: `${wetBulbK} K` },
    );
  return vapourPressurePa;
}

/** Partial pressure of water vapour [Pa] from the dew point [K]: saturation there. */
export function vapourPressureFromDewPointPa(dewPointK: number): number {
  return saturationPressurePa(dewPointK);
}

/** Mass of water per mass of dry air [kg/kg]: W = 0.621945 pv / (p − pv). */
export function humidityRatio(pressureAbsPa: number, vapourPressurePa: number): number {
  if (!(vapourPressurePa >= 0 && vapourPressurePa < pressureAbsPa))
    throw new NonPhysicalError(
      `invalid vapour pressure: ${vapourPressurePa} Pa; expected 0 up to the total pressure, ${pressureAbsPa} Pa`,
      { found: `${vapourPressurePa} Pa`, expected: `0 to ${pressureAbsPa} Pa` },
    );
  return (WATER_TO_AIR_MOLAR_RATIO * vapourPressurePa) / (pressureAbsPa - vapourPressurePa);
}

/** Partial pressure of water vapour [Pa] from mass of water per mass of dry air [kg/kg]. */
export function vapourPressureFromHumidityRatioPa(pressureAbsPa: number, ratio: number): number {
  if (!(ratio >= 0))
    throw new NonPhysicalError(`invalid humidity ratio: ${ratio} kg/kg; expected 0 or more`);
  return (pressureAbsPa * ratio) / (WATER_TO_AIR_MOLAR_RATIO + ratio);
}

/** Grains of water per pound of dry air, the older American figure, from kg/kg. */
export function grainsPerPound(ratio: number): number {
  return ratio * GRAINS_PER_LB;
}

/** Mass of water per mass of dry air [kg/kg] from grains per pound. */
export function humidityRatioFromGrains(grains: number): number {
  return grains / GRAINS_PER_LB;
}

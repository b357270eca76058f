/**
 * The air of the simulated cell and what it truly does to torque. Written apart from src/trade on purpose,
 * with another vapour-pressure formula, so that the product's correction is checked and not echoed.
 */
export interface Air {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
}

/** Saturation vapour pressure over water [Pa]. Buck 1981, without the enhancement factor. */
function saturationPa(temperatureK: number): number {
  const t = temperatureK - 273.15;
  return 611.21 * Math.exp((17.502 * t) / (240.97 + t));
}

/**
 * Torque in standard air over torque in this air [1]: SAE J1349 June 1990 form,
 * 1.180·(990/pd[hPa])·((t[°C]+273)/298)^0.5 − 0.180.
 */
export function trueAirFactor(air: Air): number {
  const dryPa = air.pressureAbsPa - air.humidity * saturationPa(air.temperatureK);
  return 1.18 * (99000 / dryPa) * Math.sqrt((air.temperatureK - 0.15) / 298) - 0.18;
}

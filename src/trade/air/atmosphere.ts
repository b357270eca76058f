/* US Standard Atmosphere 1976 / ISO 2533, troposphere (constants from memory, checked against ASHRAE's table 1). */
const SEA_LEVEL_K = 288.15;
const SEA_LEVEL_PA = 101325;
const SEA_LEVEL_KG_PER_M3 = 1.225;
const LAPSE_K_PER_M = 0.0065;
const PRESSURE_EXPONENT = 5.25588;

/** Pressure [Pa] and temperature [K] of the standard atmosphere at an altitude [m], from −5000 to 11 000 m. */
export function standardAtmosphere(altitudeM: number): {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
} {
  const temperatureK = SEA_LEVEL_K - LAPSE_K_PER_M * altitudeM;
  return {
    temperatureK,
    pressureAbsPa: SEA_LEVEL_PA * (temperatureK / SEA_LEVEL_K) ** PRESSURE_EXPONENT,
  };
}

/**
 * Altitude [m] at which the standard atmosphere has this density [kg/m³]. For talk and carburetion; power is corrected
 * by a standard's factor, not by this.
 */
export function densityAltitudeM(densityKgPerM3: number): number {
  return (
    (SEA_LEVEL_K / LAPSE_K_PER_M) *
    (1 - (densityKgPerM3 / SEA_LEVEL_KG_PER_M3) ** (1 / (PRESSURE_EXPONENT - 1)))
  );
}

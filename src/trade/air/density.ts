import { NonPhysicalError } from '../../errors.ts';

/** Gas constants [J/(kg K)] of dry air and of water vapour. */
const GAS_CONSTANT_DRY_AIR = 287.05;
const GAS_CONSTANT_VAPOUR = 461.495;

export interface MoistAir {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
  readonly vapourPressurePa: number;
}

/** Density of moist air [kg/m³] as a mixture of ideal gases: pd/(287.05 T) + pv/(461.495 T). */
export function moistAirDensityKgPerM3(air: MoistAir): number {
  const { pressureAbsPa, temperatureK, vapourPressurePa } = air;
  if (!(vapourPressurePa >= 0 && vapourPressurePa < pressureAbsPa && temperatureK > 0))
    throw new NonPhysicalError(
      `invalid air: ${pressureAbsPa} Pa with ${vapourPressurePa} Pa of vapour at ${temperatureK} K; expected 0 ≤ vapour < total and a temperature above 0 K`,
    );
  return (
    (pressureAbsPa - vapourPressurePa) / (GAS_CONSTANT_DRY_AIR * temperatureK) +
    vapourPressurePa / (GAS_CONSTANT_VAPOUR * temperatureK)
  );
}

/**
 * Density of moist air [kg/m³] by the CIPM-2007 equation, the metrologist's one.
 * @param relativeHumidity  fraction, over water
 * @source    Picard, Davis, Gläser & Fujii, Metrologia 45 (2008) 149–155, eq. 1 and appendix
 * @validity  60 to 110 kPa and 15 to 27 °C for its relative uncertainty of 2.2e-5 (from memory); outside them still good
 *            to a few parts in ten thousand
 */
export function moistAirDensityCipm2007KgPerM3(
  pressureAbsPa: number,
  temperatureK: number,
  relativeHumidity: number,
  carbonDioxideFraction = 0.0004,
): number {
  const T = temperatureK;
  const t = T - 273.15;
  const p = pressureAbsPa;
  const saturation = Math.exp(
    1.2378847e-5 * T ** 2 - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T,
  );
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t ** 2;
  const xv = (relativeHumidity * enhancement * saturation) / p;
  const Z =
    1 -
    (p / T) *
      (1.58123e-6 -
        2.9331e-8 * t +
        1.1043e-10 * t ** 2 +
        (5.707e-6 - 2.051e-8 * t) * xv +
        (1.9898e-4 - 2.376e-6 * t) * xv ** 2) +
    (p / T) ** 2 * (1.83e-11 - 0.765e-8 * xv ** 2);
  const dryKgPerMol = (28.96546 + 12.011 * (carbonDioxideFraction - 0.0004)) * 1e-3;
  const waterKgPerMol = 18.01528e-3;
  return ((p * dryKgPerMol) / (Z * 8.314472 * T)) * (1 - xv * (1 - waterKgPerMol / dryKgPerMol));
}

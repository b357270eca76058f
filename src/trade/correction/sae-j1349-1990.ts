import { InputError } from '../../errors.ts';
import { type AirState, airCorrection, dryPressurePa } from './contract.ts';

/** Mechanical efficiency that the standard assumes where friction is not measured. */
export const J1349_MECHANICAL_EFFICIENCY = 0.85;

/** Density ratio by which the standard scales indicated power: (990 hPa / pd) √((t + 273) / 298), t in °C. */
function indicatedRatio(air: AirState): number {
  // The standard prints t + 273, not 273.15; 298 is 25 + 273, so that the reference state gives exactly 1.
  return (99_000 / dryPressurePa(air)) * Math.sqrt((air.temperatureK - 0.15) / 298);
}

/**
 * SAE J1349 in the form of June 1990, spark ignition, natural aspiration: CF = 1.18 k − 0.18.
 * k scales indicated power, friction is taken unchanged: 1/0.85 and 0.15/0.85, rounded to 1.18 and 0.18 in the standard.
 * Later editions keep the reference state; their tighter limits on the factor could not be confirmed.
 */
export const saeJ1349 = airCorrection({
  standard: 'SAE J1349',
  edition: 'June 1990',
  referenceState: '25 °C (77 °F), 99 kPa dry',
  reference: { pressureAbsPa: 100_000, temperatureK: 298.15, vapourPressurePa: 1000 },
  source:
    'SAE J1349 (June 1990), formula as restated publicly; limits from memory, the same band stands in UN ECE R85',
  validity: {
    factor: [0.93, 1.07],
    temperatureK: [288.15, 308.15],
    dryPressurePa: [90_000, 105_000],
  },
  factor: (air) => 1.18 * indicatedRatio(air) - 0.18,
});

/**
 * The same with the mechanical efficiency unrounded, or with the engine's own: CF = k/η − (1 − η)/η.
 * @param mechanicalEfficiency  brake over indicated power, above 0 up to 1
 */
export function j1349FactorExact(
  air: AirState,
  mechanicalEfficiency = J1349_MECHANICAL_EFFICIENCY,
): number {
  if (!(mechanicalEfficiency > 0 && mechanicalEfficiency <= 1))
    throw new InputError(
      `invalid mechanical efficiency: ${mechanicalEfficiency}; expected above 0, up to 1`,
    );
  return (indicatedRatio(air) - (1 - mechanicalEfficiency)) / mechanicalEfficiency;
}

/** Corrected power [W] where friction power was measured: k (P + Pf) − Pf. */
export function j1349PowerWithFrictionW(
  air: AirState,
  observedPowerW: number,
  frictionPowerW: number,
): number {
  return indicatedRatio(air) * (observedPowerW + frictionPowerW) - frictionPowerW;
}

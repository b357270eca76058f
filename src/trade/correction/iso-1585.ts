import { airCorrection, dryPressurePa } from './contract.ts';

/**
 * ISO 1585 / UN ECE R85, spark ignition: α = (99 kPa / ps)^1.2 (T / 298 K)^0.6 on brake power, ps dry.
 * Test air 288 to 308 K.
 */
export const iso1585 = airCorrection({
  standard: 'ISO 1585',
  edition: '1992, as in UN ECE R85 Annex 5 §5.4.1',
  referenceState: '25 °C (298 K), 99 kPa dry',
  reference: { pressureAbsPa: 100_000, temperatureK: 298, vapourPressurePa: 1000 },
  source: 'ISO 1585 clause 6 and UN ECE R85 Annex 5 §5.4.1, from memory',
  validity: { factor: [0.93, 1.07], temperatureK: [288, 308], dryPressurePa: null },
  factor: (air) => (99_000 / dryPressurePa(air)) ** 1.2 * (air.temperatureK / 298) ** 0.6,
});

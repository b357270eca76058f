import { airCorrection, dryPressurePa } from './contract.ts';

/**
 * DIN 70020, obsolete, for comparison with old figures: CF = (1013 / p[mbar]) √((t[°C] + 273) / 293), p total, not dry.
 */
export const din70020 = airCorrection({
  standard: 'DIN 70020',
  edition: 'as used until 1993',
  referenceState: '20 °C, 1013 mbar total',
  reference: { pressureAbsPa: 101_300, temperatureK: 293.15, vapourPressurePa: 0 },
  source: 'DIN 70020 part 6, as restated publicly; no limits stated there',
  validity: { factor: null, temperatureK: null, dryPressurePa: null },
  factor: (air) => {
    dryPressurePa(air); // refuses air that cannot be; the humidity itself plays no part here
    return (101_300 / air.pressureAbsPa) * Math.sqrt((air.temperatureK - 0.15) / 293);
  },
});

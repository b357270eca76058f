import { airCorrection, dryPressurePa } from './contract.ts';

/** Observed: nothing is brought anywhere. */
export const observed = airCorrection({
  standard: 'none',
  edition: '',
  referenceState: 'the air of the day',
  reference: { pressureAbsPa: 101_325, temperatureK: 288.15, vapourPressurePa: 0 },
  source: 'identity',
  validity: { factor: null, temperatureK: null, dryPressurePa: null },
  factor: (air) => {
    dryPressurePa(air);
    return 1;
  },
});

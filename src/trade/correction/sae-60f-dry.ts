import { findUnit, fromInside, toInside } from '../../units/index.ts';
import { airCorrection, dryPressurePa } from './contract.ts';

const inHg = findUnit('inHg', 'pressure')!;
const fahrenheit = findUnit('°F', 'temperature')!;

/**
 * The older American "standard" of 60 °F and 29.92 inHg dry that much of the trade still quotes:
 * CF = (29.92 / pd[inHg]) √((t[°F] + 460) / 520), straight on brake figures. Reads 4 to 5 % above SAE J1349.
 * The passenger-car codes J816b and J245 used 85 °F and 29.00 inHg: the state is the name, not the document.
 */
export const sae60fDry = airCorrection({
  standard: 'SAE 60F dry',
  edition: 'the trade’s use, after SAE J607/J816',
  referenceState: '60 °F (15.6 °C), 29.92 inHg dry',
  reference: {
    pressureAbsPa: toInside(29.92, inHg),
    temperatureK: toInside(60, fahrenheit),
    vapourPressurePa: 0,
  },
  source:
    'reference state from public restatements, form from memory (SAE J607, J816); no limits stated',
  validity: { factor: null, temperatureK: null, dryPressurePa: null },
  factor: (air) =>
    (29.92 / fromInside(dryPressurePa(air), inHg)) *
    Math.sqrt((fromInside(air.temperatureK, fahrenheit) + 460) / 520),
});

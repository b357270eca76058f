import type { AirCorrection, AirStandard } from './contract.ts';
import { din70020 } from './din-70020.ts';
import { iso1585 } from './iso-1585.ts';
import { observed } from './none.ts';
import { sae60fDry } from './sae-60f-dry.ts';
import { saeJ1349 } from './sae-j1349-1990.ts';

export * from './contract.ts';
export { din70020 } from './din-70020.ts';
export { iso1585 } from './iso-1585.ts';
export { observed } from './none.ts';
export { sae60fDry } from './sae-60f-dry.ts';
export {
  J1349_MECHANICAL_EFFICIENCY,
  j1349FactorExact,
  j1349PowerWithFrictionW,
  saeJ1349,
} from './sae-j1349-1990.ts';

/** Every standard by its name. */
export const AIR_CORRECTIONS: Readonly<Record<AirStandard, AirCorrection>> = {
  'SAE J1349': saeJ1349,
  'SAE 60F dry': sae60fDry,
  'ISO 1585': iso1585,
  'DIN 70020': din70020,
  none: observed,
};

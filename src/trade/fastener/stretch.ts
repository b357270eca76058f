import { count, notNegative, positive } from '../possible.ts';
import type { Preload } from './torque.ts';

/** Young's modulus of bolt steels [Pa] (Shigley Table 8-8: 30.0 Mpsi, 207 GPa). */
export const STEEL_MODULUS_PA = 207e9;

/** A bolt as lengths of one section each: shank, waist, free thread (stress area), whatever is pulled. */
export interface Bolt {
  readonly sections: readonly { readonly lengthM: number; readonly areaM2: number }[];
  readonly modulusPa?: number;
}

/**
 * Stiffness [N/m] of a bolt between its bearing faces: springs in series, 1 / Σ (L / A E).
 * Head and engaged thread give a little too; a stretch measured over the whole bolt is read best with the maker's rate.
 */
export function boltStiffnessNPerM({ sections, modulusPa = STEEL_MODULUS_PA }: Bolt): number {
  count('number of bolt sections', sections.length);
  const giveMPerN = sections.reduce(
    (sum, { lengthM, areaM2 }) =>
      sum + positive('section length', lengthM, 'm') / positive('section area', areaM2, 'm²'),
    0,
  );
  return positive('modulus', modulusPa, 'Pa') / giveMPerN;
}

/**
 * Preload [N] from a measured stretch: F = k ΔL. Friction plays no part; the span is what the gauge leaves open.
 * @param stretchUncertaintyM  half the span of the reading, gauge and repetition [m]
 */
export function preloadFromStretch(
  stretchM: number,
  stiffnessNPerM: number,
  stretchUncertaintyM = 0,
): Preload {
  const stiffness = positive('bolt stiffness', stiffnessNPerM, 'N/m');
  const stretch = notNegative('stretch', stretchM, 'm');
  const open = notNegative('uncertainty of the stretch', stretchUncertaintyM, 'm');
  return {
    lowN: stiffness * Math.max(0, stretch - open),
    preloadN: stiffness * stretch,
    highN: stiffness * (stretch + open),
  };
}

/** Stretch [m] that a preload [N] makes. */
export function stretchFromPreloadM(preloadN: number, stiffnessNPerM: number): number {
  return notNegative('preload', preloadN, 'N') / positive('bolt stiffness', stiffnessNPerM, 'N/m');
}

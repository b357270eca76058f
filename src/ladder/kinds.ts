import type { SettingKind } from './types.ts';

/**
 * Spark lead [degrees before top centre].
 *
 * Curvature: published engine data give 1.6e-4 to 4e-4 per square degree (Crossley and Cook 1991 by way of the open
 * Modelica throttle example; a textbook's normalised curve, from memory), large two-valve engines up to 1.5e-3 in
 * test-cell practice (no source).
 * Lean: the same shapes lose 0 to 1.6 % of their curvature a degree on the retarded side; the prior, 0.009 ± 0.010
 * per degree, was settled within that on simulated days.
 * Start: a first setting is chosen careful, some 3 to 11 degrees short of the best (common practice, no source).
 */
export const SPARK_LEAD: SettingKind = {
  name: 'lead',
  unit: 'deg',
  safeDirection: 'lower',
  defaultStep: 1,
  defaultRung: 2,
  shape: 'cubic',
  curvaturePrior: [1.6e-4, 2e-3],
  leanPrior: [0.009, 0.01],
  startShortPrior: [7, 2],
  word: 'lead',
  more: 'more lead',
  less: 'less lead',
};

/**
 * Lambda at full throttle: richer is the safe side, so the ladder climbs to the lean side.
 *
 * Shape, curvature and lean: shape.ts. At given air the ideal fuel–air cycle has curvature 1.45 and lean 3.5 per unit,
 * the published regression of Crossley and Cook (1991) 1.3 and 0, a textbook's figure by way of a quadratic in 1/lambda
 * 2.1 and −2.3: steeper on the lean side by physics, not in every published fit; the prior is wide enough for all three.
 */
export const LAMBDA: SettingKind = {
  name: 'lambda',
  unit: '',
  safeDirection: 'lower',
  defaultStep: 0.01,
  defaultRung: 0.02,
  shape: 'linex',
  curvaturePrior: [0.8, 4],
  leanPrior: [1.5, 2],
  startShortPrior: [0.06, 0.04],
  word: 'lambda',
  more: 'leaner',
  less: 'richer',
};

/** Every kind of setting that a ladder of the record can step, by its name. */
export const SETTING_KINDS = { lead: SPARK_LEAD, lambda: LAMBDA } as const;
export type SettingName = keyof typeof SETTING_KINDS;
export const SETTING_NAMES = Object.keys(SETTING_KINDS) as readonly SettingName[];

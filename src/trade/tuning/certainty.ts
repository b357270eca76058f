/**
 * How far a tuned length may be off and still be what the model says: ± this share. Engelman (ASME 73-WA/DGP-2) credits
 * the organ-pipe rules before his with "perhaps twenty per cent plus or minus".
 */
export const TUNING_UNCERTAINTY_SHARE = 0.2;

/** To stand beside every tuned length or speed. */
export const TUNING_CAUTION =
  'A starting length, good to about ±20 %: valve timing, pipe taper, bends and gas temperature move the peak. Make it adjustable and let the dyno choose.';

/** A length or speed with the range it may lie in. */
export interface Tuned {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly caution: string;
}

/** The value with ± TUNING_UNCERTAINTY_SHARE about it. */
export function withCertainty(value: number): Tuned {
  return {
    value,
    low: value * (1 - TUNING_UNCERTAINTY_SHARE),
    high: value * (1 + TUNING_UNCERTAINTY_SHARE),
    caution: TUNING_CAUTION,
  };
}

/** Zeros of the derivatives of the Bessel functions for the first modes of a round chamber (Abramowitz & Stegun 9.5). */
const CHAMBER_MODES = [
  ['1,0', 1.84118],
  ['2,0', 3.05424],
  ['0,1', 3.83171],
  ['3,0', 4.20119],
  ['4,0', 5.31755],
  ['1,1', 5.33144],
] as const;

/** Speed of sound [m/s] in burned gas: √(γ R T). */
export function burnedGasSoundMPerS(
  temperatureK: number,
  heatRatio = 1.28,
  gasConstantJPerKgK = 287.05,
): number {
  return Math.sqrt(heatRatio * gasConstantJPerKgK * temperatureK);
}

/**
 * Frequencies [Hz] at which a round chamber of this bore rings: f = ρ c / (π B).
 * @source  Draper 1935 (NACA TR 493); used to measure gas temperature in NACA ARR E6A07
 */
export function knockFrequenciesHz(
  boreM: number,
  soundMPerS: number,
): readonly { readonly mode: string; readonly frequencyHz: number }[] {
  return CHAMBER_MODES.map(([mode, zero]) => ({
    mode,
    frequencyHz: (zero * soundMPerS) / (Math.PI * boreM),
  }));
}

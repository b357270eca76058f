import { InputError, NonPhysicalError } from '../../errors.ts';

/** Range of temperatures that the ASHRAE correlations state [K]: ice −100…0.01 °C, water 0.01…200 °C. */
const SATURATION_RANGE_K = [173.15, 473.15] as const;
/** Triple point of water [K]. */
export const TRIPLE_POINT_K = 273.16;

/**
 * Saturation pressure of water vapour [Pa] over ice below the triple point and over water above it.
 *
 * Formula: ln p = C8/T + C9 + C10 T + C11 T² + C12 T³ + C13 ln T (water), C1…C7 (ice), p in Pa, T in K.
 * @param temperatureK  temperature [K]
 * @source    Hyland & Wexler 1983, as printed in ASHRAE Handbook Fundamentals ch. 1, eq. 5 and 6 (digits from memory,
 *            checked against psychrolib in reference/psychrolib.test.ts)
 * @validity  SATURATION_RANGE_K
 * @throws InputError  not a number; NonPhysicalError  outside the range
 */
export function saturationPressurePa(temperatureK: number): number {
  return inRange(temperatureK) <= TRIPLE_POINT_K ? overIce(temperatureK) : overWater(temperatureK);
}

/**
 * As saturationPressurePa, but over (supercooled) water below freezing too: the convention of meteorological humidity
 * sensors. Below 0 °C the correlation is used outside the range its source states.
 */
export function saturationPressureOverWaterPa(temperatureK: number): number {
  return overWater(inRange(temperatureK));
}

/** Over water after Buck 1981 [Pa]: 611.21 exp(17.502 t / (240.97 + t)), t in °C; without the enhancement factor. */
export function saturationPressureBuck1981Pa(temperatureK: number): number {
  const t = inRange(temperatureK) - 273.15;
  return 611.21 * Math.exp((17.502 * t) / (240.97 + t));
}

/** Over water after Magnus with Sonntag's 1990 constants [Pa]: 611.2 exp(17.62 t / (243.12 + t)), t in °C. */
export function saturationPressureMagnusPa(temperatureK: number): number {
  const t = inRange(temperatureK) - 273.15;
  return 611.2 * Math.exp((17.62 * t) / (243.12 + t));
}

function overWater(T: number): number {
  return Math.exp(
    -5.8002206e3 / T +
      1.3914993 -
      4.8640239e-2 * T +
      4.1764768e-5 * T ** 2 -
      1.4452093e-8 * T ** 3 +
      6.5459673 * Math.log(T),
  );
}

function overIce(T: number): number {
  return Math.exp(
    -5.6745359e3 / T +
      6.3925247 -
      9.677843e-3 * T +
      6.2215701e-7 * T ** 2 +
      2.0747825e-9 * T ** 3 -
      9.484024e-13 * T ** 4 +
      4.1635019 * Math.log(T),
  );
}

function inRange(temperatureK: number): number {
  const [low, high] = SATURATION_RANGE_K;
  if (!Number.isFinite(temperatureK))
    throw new InputError(`invalid air temperature: ${temperatureK} K; expected a number`);
  if (temperatureK < low || temperatureK > high)
    throw new NonPhysicalError(
      `invalid air temperature: ${temperatureK} K; expected ${low} to ${high} K`,
      { found: `${temperatureK} K`, expected: `${low} to ${high} K` },
    );
  return temperatureK;
}

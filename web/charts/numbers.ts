import { type DisplayKind, displayDecimals, displayUnit } from '../../src/units/display.ts';
import { fromInside } from '../../src/units/quantity.ts';
import type { UnitSystem } from '../../src/units/types.ts';

export { kept } from '../shell/words.ts';

/** Between a number and its unit: narrow, and never broken across lines. */
const THIN = '\u202f';
const MINUS = '\u2212';
/** What is not known. */
export const UNKNOWN = '–';

/** `12.3`, `−0.4`; an en dash where there is no number. Negative zero reads as zero. */
export function plain(value: number | null | undefined, decimals = 1): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? `${MINUS}${digits}` : digits;
}

/** As plain, with a plus sign before gains. */
export function signed(value: number | null | undefined, decimals = 1): string {
  const text = plain(value, decimals);
  return value !== null && value !== undefined && Number(value.toFixed(decimals)) > 0
    ? `+${text}`
    : text;
}

export const percent = (value: number | null | undefined, decimals = 1): string =>
  withUnit(plain(value, decimals), '%');
export const signedPercent = (value: number | null | undefined, decimals = 1): string =>
  withUnit(signed(value, decimals), '%');

/** A chance from 0 to 1 in words: `2 %`, `under 1 %`, `over 99 %`. */
export function chance(share: number | null | undefined): string {
  if (share === null || share === undefined || !Number.isFinite(share)) return UNKNOWN;
  if (share < 0.001) return `under 0.1${THIN}%`;
  if (share < 0.0995) return `${(share * 100).toFixed(1)}${THIN}%`;
  if (share > 0.99) return `over 99${THIN}%`;
  return `${Math.round(share * 100)}${THIN}%`;
}

/** A speed in a sentence: `5 200`. Axes and tables write it plain. */
export const speed = (value: number | null | undefined): string =>
  plain(value, 0).replace(/(\d)(?=(\d{3})+$)/g, `$1${THIN}`);

export const rpm = (value: number | null | undefined): string => withUnit(speed(value), 'rpm');

/** Decimals to which a setting of this unit is known: a tenth of a degree, a thousandth of a bare number such as lambda. */
export const settingDecimals = (unit: string): number => (unit === 'deg' ? 1 : 3);

/** `28°` for degrees, `0.87` for lambda; as many decimals as asked, without trailing noughts. */
export function setting(
  value: number | null | undefined,
  unit: string,
  decimals = settingDecimals(unit),
): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
  const text = plain(value, decimals)
    // A bare number such as lambda keeps its hundredths: 0.80.
    .replace(unit === '' ? /(\.\d\d\d*?)0+$/ : /(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
  return unit === 'deg' ? `${text}°` : unit === '' ? text : withUnit(text, unit);
}

/** As setting, but always with its decimals: for estimates, whose last digit says how well they are known. */
export function estimate(
  value: number | null | undefined,
  unit: string,
  decimals = settingDecimals(unit),
): string {
  const text = plain(value, decimals);
  if (text === UNKNOWN) return text;
  return unit === 'deg' ? `${text}°` : unit === '' ? text : withUnit(text, unit);
}

const rounds = (value: number, decimals: number) => Number(value.toFixed(decimals)) === 0;

/**
 * `28.4 to 29.4`; an end that is not closed is said in words. An interval that just excludes zero gets one more
 * decimal, so that it is seen to.
 */
export function interval(low: number | null, high: number | null, decimals = 1): string {
  if (low === null && high === null) return 'not known yet';
  if (high === null) return `${plain(low, decimals)} or more`;
  if (low === null) return `${plain(high, decimals)} or less`;
  const hidden = (low > 0 && rounds(low, decimals)) || (high < 0 && rounds(high, decimals));
  const shown = hidden ? decimals + 1 : decimals;
  return `${plain(low, shown)} to ${plain(high, shown)}`;
}

export function withUnit(text: string, unit: string): string {
  return text === UNKNOWN || unit === '' ? text : `${text}${THIN}${unit}`;
}

/** Decimals that leave three figures to a number of this size: `29.3`, `412`. */
export const threeFigures = (value: number): number =>
  Math.abs(value) < 9.95 ? 2 : Math.abs(value) < 99.5 ? 1 : 0;

/** Decimals that a value with this interval is worth: none where it is known within two, one within a fifth of that. */
export const decimalsFor = (low: number, high: number): number => {
  const half = Math.abs(high - low) / 2;
  return half >= 2 ? 0 : half >= 0.2 ? 1 : 2;
};

/** How inside values become figures on an axis: unit, factor and usual decimals of a kind. */
export interface Outside {
  readonly symbol: string;
  readonly decimals: number;
  of(insideValue: number): number;
}

export function outside(kind: DisplayKind, system: UnitSystem): Outside {
  const unit = displayUnit(kind, system);
  return {
    symbol: unit.symbol,
    decimals: displayDecimals(kind, system),
    of: (value) => fromInside(value, unit),
  };
}

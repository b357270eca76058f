import { CHARTS_IN_ENGLISH, type ChartWords, said } from '../../src/chartWords.ts';
import { type DisplayKind, displayDecimals, displayUnit } from '../../src/units/display.ts';
import { fromInside } from '../../src/units/quantity.ts';
import type { UnitSystem } from '../../src/units/types.ts';

export { kept } from '../shell/words.ts';

/** Between a number and its unit: narrow, and never broken across lines. */
const THIN = '\u202f';
const MINUS = '\u2212';
/** What is not known. */
export const UNKNOWN = '–';

/** Figures as one language writes them. */
export interface Figures {
  /** `12.3`, `−0.4`; an en dash where there is no number. Negative zero reads as zero. */
  plain(value: number | null | undefined, decimals?: number): string;
  /** As plain, with a plus sign before gains. */
  signed(value: number | null | undefined, decimals?: number): string;
  percent(value: number | null | undefined, decimals?: number): string;
  signedPercent(value: number | null | undefined, decimals?: number): string;
  /** A speed in a sentence: `5 200`. Axes and tables write it plain. */
  speed(value: number | null | undefined): string;
  rpm(value: number | null | undefined): string;
  /** `28°` for degrees, `0.87` for lambda; as many decimals as asked, without trailing noughts. */
  setting(value: number | null | undefined, unit: string, decimals?: number): string;
  /** As setting, but always with its decimals: for estimates, whose last digit says how well they are known. */
  estimate(value: number | null | undefined, unit: string, decimals?: number): string;
  /**
   * `28.4 to 29.4`; an end that is not closed is said in words. An interval that just excludes zero gets one more
   * decimal, so that it is seen to.
   */
  interval(low: number | null, high: number | null, decimals?: number): string;
}

export function figuresIn(words: ChartWords): Figures {
  const plain: Figures['plain'] = (value, decimals = 1) => {
    if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
    const digits = Math.abs(value).toFixed(decimals);
    const text = words.decimalComma ? digits.replace('.', ',') : digits;
    return value < 0 && Number(digits) !== 0 ? `${MINUS}${text}` : text;
  };
  const signed: Figures['signed'] = (value, decimals = 1) => {
    const text = plain(value, decimals);
    return value !== null && value !== undefined && Number(value.toFixed(decimals)) > 0
      ? `+${text}`
      : text;
  };
  const speed: Figures['speed'] = (value) =>
    plain(value, 0).replace(/(\d)(?=(\d{3})+$)/g, `$1${THIN}`);
  return {
    plain,
    signed,
    percent: (value, decimals) => withUnit(plain(value, decimals), '%'),
    signedPercent: (value, decimals) => withUnit(signed(value, decimals), '%'),
    speed,
    rpm: (value) => withUnit(speed(value), words.rpm),
    setting(value, unit, decimals = settingDecimals(unit)) {
      if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
      const text = plain(value, decimals)
        // A bare number such as lambda keeps its hundredths: 0.80.
        .replace(unit === '' ? /([.,]\d\d\d*?)0+$/ : /([.,]\d*?)0+$/, '$1')
        .replace(/[.,]$/, '');
      return inUnit(text, unit);
    },
    estimate: (value, unit, decimals = settingDecimals(unit)) =>
      inUnit(plain(value, decimals), unit),
    interval(low, high, decimals = 1) {
      if (low === null && high === null) return words.notKnownYet;
      if (high === null) return said(words.orMore, { value: plain(low, decimals) });
      if (low === null) return said(words.orLess, { value: plain(high, decimals) });
      const hidden = (low > 0 && rounds(low, decimals)) || (high < 0 && rounds(high, decimals));
      const shown = hidden ? decimals + 1 : decimals;
      return said(words.range, { low: plain(low, shown), high: plain(high, shown) });
    },
  };
}

const inUnit = (text: string, unit: string): string =>
  unit === 'deg' && text !== UNKNOWN ? `${text}°` : withUnit(text, unit);

const rounds = (value: number, decimals: number) => Number(value.toFixed(decimals)) === 0;

/** As the screens write them. */
export const { plain, signed, percent, signedPercent, speed, rpm, setting, estimate, interval } =
  figuresIn(CHARTS_IN_ENGLISH);

/** A chance from 0 to 1 in words: `2 %`, `under 1 %`, `over 99 %`. */
export function chance(share: number | null | undefined): string {
  if (share === null || share === undefined || !Number.isFinite(share)) return UNKNOWN;
  if (share < 0.001) return `under 0.1${THIN}%`;
  if (share < 0.0995) return `${(share * 100).toFixed(1)}${THIN}%`;
  if (share > 0.99) return `over 99${THIN}%`;
  return `${Math.round(share * 100)}${THIN}%`;
}

/** Decimals to which a setting of this unit is known: a tenth of a degree, a thousandth of a bare number such as lambda. */
export function settingDecimals(unit: string): number {
  return unit === 'deg' ? 1 : 3;
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

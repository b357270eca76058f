import type { SettingKind } from './types.ts';

/** A setting as a person reads it: `36°`, `28.8°`, `0.88`. */
export function settingText(value: number, kind: SettingKind): string {
  const places = kind.defaultStep >= 0.5 ? 1 : Math.ceil(-Math.log10(kind.defaultStep)) + 1;
  const rounded = Number(value.toFixed(places));
  const text = kind.defaultStep >= 0.5 ? String(rounded) : rounded.toFixed(places - 1);
  if (kind.unit === 'deg') return `${text}°`;
  return kind.unit === '' ? text : `${text} ${kind.unit}`;
}

/** A distance between settings: `2°`, `0.04`. */
export const distanceText = (value: number, kind: SettingKind): string =>
  settingText(Math.abs(value), kind);

/** A percentage that somebody chose, as it was chosen: `0.75 %`, not rounded to what a measured one deserves. */
export function chosenPercentText(value: number): string {
  return `${String(Number(value.toFixed(2))).replace('-', '−')} %`;
}

/** A measured percentage with one place, two where it is small. */
export function percentText(value: number): string {
  const places = Math.abs(value) < 0.095 ? 2 : 1;
  return `${value.toFixed(places).replace('-', '−')} %`;
}

/** A chance in words that do not pretend: `less than 1 %`, `12 %`. */
export function chanceText(value: number): string {
  if (value < 0.01) return 'less than 1 %';
  if (value > 0.99) return 'more than 99 %';
  return `${Math.round(100 * value)} %`;
}

/** A recommendation where nothing watched for a limit: it says so, in the same sentence. */
export const unwatched = (why: string): string => `${why.replace(/\.$/, '')}; limit not watched.`;

import { type DisplayKind, formatQuantity } from './display.ts';
import { findUnit } from './find.ts';
import { differenceToInside, toInside } from './quantity.ts';
import type { UnitSystem } from './types.ts';

const NUMBER = String.raw`[-−]?\d+(?:\.\d+)?`;
/** One or two figures with their unit; the words beside tell a difference of temperature from a temperature. */
const FIGURES = new RegExp(
  `(moved by )?(${NUMBER})(?: to (${NUMBER}))? (N·m|kW|°C|kPa|hPa|km/h)(?! for each)(?=( above| below)?)`,
  'g',
);

/**
 * A sentence of the computing rooms, which speak in N·m, kW, °C, kPa, hPa, km/h and rev/min, in the units of a system. Words stay,
 * and so do figures without one of these units.
 */
export function inUnitsOf(sentence: string, system: UnitSystem): string {
  const plain = sentence.replaceAll(' rev/min', ' rpm');
  if (system === 'metric') return plain;
  return plain.replace(
    FIGURES,
    (_, moved: string | undefined, first: string, second: string | undefined, unit, side) => {
      const kind = KINDS[unit as keyof typeof KINDS](sentence);
      const said = (text: string) =>
        stated(text, unit, kind, moved !== undefined || side !== undefined);
      const figures = second === undefined ? [first] : [first, second];
      return `${moved ?? ''}${figures.map((text) => said(text).text).join(' to ')} ${said(first).unit}`;
    },
  );
}

/** What a figure of each unit is; a barometer is read in other units than an oil gauge. */
const KINDS = {
  N·m: () => 'torque',
  kW: () => 'power',
  '°C': () => 'temperature',
  hPa: () => 'barometer',
  'km/h': () => 'roadSpeed',
  kPa: (sentence) => (sentence.startsWith('Dry air') ? 'barometer' : 'oilPressure'),
} as const satisfies Readonly<Record<string, (sentence: string) => DisplayKind>>;

function stated(text: string, unit: string, kind: DisplayKind, difference: boolean) {
  const value = Number(text.replace('−', '-'));
  const from = findUnit(unit)!;
  return formatQuantity(
    difference ? differenceToInside(value, from) : toInside(value, from),
    kind,
    'us',
    // As exactly as the sentence said it; an inch of mercury is too coarse for a barometer's tenth of a kPa.
    { difference, ...(kind === 'barometer' ? {} : { decimals: text.split('.')[1]?.length ?? 0 }) },
  );
}

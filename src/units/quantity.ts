import { InputError } from '../errors.ts';
import { findUnit } from './find.ts';
import type { Dimension, Unit } from './types.ts';

/** Value in inside units (SI; rev/min; crank degrees). */
export function toInside(value: number, unit: Unit): number {
  return value * unit.factor + unit.offset;
}

/** Value in the given unit. */
export function fromInside(insideValue: number, unit: Unit): number {
  return (insideValue - unit.offset) / unit.factor;
}

/** A difference in inside units: as toInside, but the zero point plays no part (10 °F apart → 5.56 K). */
export function differenceToInside(difference: number, unit: Unit): number {
  return difference * unit.factor;
}

/** What a quantity of each dimension looks like, for messages. */
const EXAMPLES: Readonly<Record<Dimension, string>> = {
  time: 'a time such as "0.15 s"',
  rotationalSpeed: 'a speed such as "5300 rpm"',
  torque: 'a torque such as "310 lb-ft"',
  power: 'a power such as "412 hp"',
  pressure: 'a pressure such as "29.92 inHg"',
  temperature: 'a temperature such as "77 °F"',
  massFlow: 'a mass flow such as "190 lb/h"',
  volumeFlow: 'a volume flow such as "60 L/h"',
  fraction: 'a ratio such as "45 %"',
  angle: 'an angle such as "22 deg"',
  inertia: 'a moment of inertia such as "0.770 kg m^2"',
  volume: 'a volume such as "5.445 L"',
  length: 'a length such as "88.4 mm"',
  area: 'an area such as "2.1 in^2"',
  mass: 'a mass such as "612 g"',
  density: 'a density such as "0.745 kg/L"',
  specificConsumption: 'a specific consumption such as "0.45 lb/hp-h"',
  specificEnergy: 'a heating value such as "43.4 MJ/kg"',
  speed: 'a speed such as "17.7 m/s"',
  acceleration: 'an acceleration such as "26700 m/s^2"',
  force: 'a force such as "140 lbf"',
  stiffness: 'a spring rate such as "380 lb/in"',
  unbalance: 'an unbalance such as "0.5 oz-in"',
  count: 'a number of counts',
};

/** What a quantity looks like, for messages: `a power such as "412 hp"`. */
export const exampleOf = (dimension: Dimension): string => EXAMPLES[dimension];

export interface ParseQuantityOptions {
  /** Unit of a bare number. Without it a bare number is refused. */
  readonly assume?: Unit;
  /** What the quantity is for, put in front of the message (`cell.inertia`). */
  readonly name?: string;
  /** Gauge pressures are refused unless this says that the caller knows what to do with them. */
  readonly allowGauge?: boolean;
}

/** Sign, digits with their marks, groups of three set off by spaces, exponent; then the unit. */
const NUMBER =
  /^([+\-−]?\s*(?:\d[\d.,'’]*(?:[ \u00a0\u2009\u202f]\d{3}(?![\d/]))*(?:[.,]\d+)?|[.,]\d+)(?:[eE][+\-−]?\d+)?)\s*(.*)$/s;

/**
 * The number at the head of a text and the unit behind it, unread: `{ number: "0,770", unit: "kg m^2" }`.
 * @returns null where the text does not begin with a number
 */
export function splitQuantity(text: string): { number: string; unit: string } | null {
  const match = NUMBER.exec(text.trim());
  return match === null ? null : { number: match[1]!.trim(), unit: match[2]!.trim() };
}

/**
 * A text such as `0.770 kg m^2` as a number in inside units.
 * A decimal comma is taken where it can mean nothing else (`0,770`, `5,3`, `1.234,5`); `5,300` is refused.
 * @throws InputError  saying what stands there and what was expected
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  options: ParseQuantityOptions = {},
): number {
  const expected = EXAMPLES[dimension];
  const before = options.name === undefined ? '' : `${options.name}: `;
  const refuse = (why: string): never => {
    throw new InputError(`${before}${why}; expected ${expected}`, { found: text, expected });
  };
  const split = splitQuantity(text);
  if (split === null) return refuse(`"${text}" does not begin with a number`);
  const value = readNumber(split.number);
  if (value === undefined)
    return refuse(`"${split.number}" cannot be read as one number without doubt`);
  const unitText = split.unit;
  if (unitText === '') {
    if (options.assume === undefined) return refuse(`"${text}" has no unit`);
    return toInside(value, options.assume);
  }
  const unit = findUnit(unitText, dimension);
  if (unit === undefined) {
    const other = findUnit(unitText);
    return refuse(
      other === undefined
        ? `"${unitText}" is not a unit that is known`
        : `"${unitText}" is a unit of ${inWords(other.dimension)}`,
    );
  }
  if (unit.pressureReference === 'gauge' && options.allowGauge !== true)
    return refuse(`"${text}" is a gauge pressure where an absolute one is needed`);
  const inside = toInside(value, unit);
  return Number.isFinite(inside) ? inside : refuse(`"${text}" is beyond any quantity`);
}

/** `rotationalSpeed` → `rotational speed`. */
function inWords(dimension: Dimension): string {
  return dimension.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** A number as people write it, or undefined where two readings are possible or the groups make no sense. */
export function readNumber(text: string): number | undefined {
  const compact = text.replace(/[\s'’\u00a0\u2009\u202f]/g, '').replace('−', '-');
  const [mantissa = '', exponent = ''] = compact.split(/(?=e)/i);
  const points = mantissa.split('.').length - 1;
  const commas = mantissa.split(',').length - 1;
  let plain: string;
  if (points > 0 && commas > 0) {
    const decimal = mantissa.lastIndexOf('.') > mantissa.lastIndexOf(',') ? '.' : ',';
    const group = decimal === '.' ? ',' : '.';
    if (mantissa.split(decimal).length > 2) return undefined;
    const [whole = '', fraction = ''] = mantissa.split(decimal);
    if (!inThousands(whole, group)) return undefined;
    plain = `${whole.replaceAll(group, '')}.${fraction}`;
  } else if (points > 1 || commas > 1) {
    const group = points > 1 ? '.' : ',';
    if (!inThousands(mantissa, group)) return undefined;
    plain = mantissa.replaceAll(group, '');
  } else if (commas === 1) {
    if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(mantissa)) return undefined;
    plain = mantissa.replace(',', '.');
  } else plain = mantissa;
  const value = Number(plain + exponent);
  return Number.isFinite(value) ? value : undefined;
}

function inThousands(digits: string, group: string): boolean {
  const [first = '', ...rest] = digits.replace(/^[+-]/, '').split(group);
  return /^\d{1,3}$/.test(first) && rest.every((part) => /^\d{3}$/.test(part));
}

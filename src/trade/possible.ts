import { NonPhysicalError } from '../errors.ts';

/**
 * Gates for quantities: each hands its value on, or refuses what cannot be true of any engine, by name.
 * The unit is what stands in the message.
 */

function refuse(quantity: string, value: number, unit: string, expected: string): never {
  const found = unit === '' ? String(value) : `${value} ${unit}`;
  throw new NonPhysicalError(`invalid ${quantity}: ${found}; expected ${expected}`, {
    found,
    expected,
  });
}

/** Any number, but a number. */
export function finite(quantity: string, value: number, unit: string): number {
  return Number.isFinite(value) ? value : refuse(quantity, value, unit, 'a number');
}

export function positive(quantity: string, value: number, unit: string): number {
  return Number.isFinite(value) && value > 0 ? value : refuse(quantity, value, unit, 'more than 0');
}

export function notNegative(quantity: string, value: number, unit: string): number {
  return Number.isFinite(value) && value >= 0 ? value : refuse(quantity, value, unit, '0 or more');
}

/** From low to high, both included. */
export function within(
  quantity: string,
  value: number,
  unit: string,
  [low, high]: readonly [low: number, high: number],
): number {
  return value >= low && value <= high
    ? value
    : refuse(quantity, value, unit, `${low} to ${high}${unit === '' ? '' : ` ${unit}`}`);
}

/** A count: a whole number from `least` on. */
export function count(quantity: string, value: number, least = 1): number {
  return Number.isInteger(value) && value >= least
    ? value
    : refuse(quantity, value, '', `a whole number from ${least} on`);
}

/** The same with a sentence of one's own for what is expected. */
export function possible(
  quantity: string,
  value: number,
  unit: string,
  is: boolean,
  expected: string,
): number {
  return Number.isFinite(value) && is ? value : refuse(quantity, value, unit, expected);
}

import { findUnit } from '../../units/find.ts';
import { toInside } from '../../units/quantity.ts';
import type { Unit } from '../../units/types.ts';
import type { FieldSpec } from '../sections/field.ts';

/** Loads are written in pounds and kilograms by everyone who has a spring tester. */
const LOADS: Readonly<Record<string, string>> = {
  lb: 'lbf',
  lbs: 'lbf',
  '#': 'lbf',
  pounds: 'lbf',
  kg: 'kgf',
};

/**
 * Units found already, by dimension and spelling: a sheet asks for the same few at every keystroke, and comparing
 * spellings is what takes the time. Bounded, for texts of a hostile file would fill it.
 */
const known = new Map<string, Unit | undefined>();
const MOST_KNOWN = 500;

/** The unit that a text names for this field, or undefined. */
export function unitOfField(field: FieldSpec, text: string): Unit | undefined {
  const spelling = `${field.dimension} ${text}`;
  if (known.has(spelling)) return known.get(spelling);
  const found = spelled(field, text);
  if (known.size < MOST_KNOWN && text.length < 40) known.set(spelling, found);
  return found;
}

function spelled(field: FieldSpec, text: string): Unit | undefined {
  const found = findUnit(text, field.dimension);
  if (found !== undefined || field.dimension !== 'force') return found;
  const load = LOADS[text.trim().toLowerCase()];
  return load === undefined ? undefined : findUnit(load, 'force');
}

/** A typed number of this field in inside units. A plain number is inside already. */
export function insideOf(field: FieldSpec, value: number, unit: string | undefined): number {
  if (field.kind !== 'quantity' || unit === undefined) return value;
  const found = unitOfField(field, unit);
  return found === undefined ? Number.NaN : toInside(value, found);
}

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

/** The unit that a text names for this field, or undefined. */
export function unitOfField(field: FieldSpec, text: string): Unit | undefined {
  const found = findUnit(text, field.dimension);
  if (found !== undefined || field.dimension !== 'force') return found;
  const load = LOADS[text.trim().toLowerCase()];
  return load === undefined ? undefined : findUnit(load, 'force');
}

/** A typed number of this field in inside units. A plain number is inside already. */
export function insideOf(field: FieldSpec, value: number, unit: string | undefined): number {
  if (field.kind !== 'quantity' || unit === undefined) return value;
  const known = unitOfField(field, unit);
  return known === undefined ? Number.NaN : toInside(value, known);
}

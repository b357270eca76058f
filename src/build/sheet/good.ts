import { exampleOf, fromInside } from '../../units/index.ts';
import type { FieldSpec } from '../sections/field.ts';
import { oneOf } from './shape.ts';
import { insideOf, unitOfField } from './units.ts';

/** Whether a value is one that this field takes; a number within what is possible at all. */
export function isGood(field: FieldSpec, value: unknown, unit: unknown): boolean {
  switch (field.kind) {
    case 'text':
      return typeof value === 'string';
    case 'date':
      return typeof value === 'string' && isDate(value);
    case 'yesNo':
      return typeof value === 'boolean';
    case 'choice':
      return typeof value === 'string' && field.choices!.some((one) => one.value === value);
    default: {
      if (typeof value !== 'number' || !Number.isFinite(value)) return false;
      // A missing or unknown unit is reported as such, not as a value out of range.
      if (field.kind === 'quantity' && typeof unit !== 'string') return true;
      const inside = insideOf(field, value, typeof unit === 'string' ? unit : undefined);
      if (Number.isNaN(inside)) return true;
      return inside >= (field.low ?? -Infinity) && inside <= (field.high ?? Infinity);
    }
  }
}

/** `2026-02-30` is no date. */
export function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

/** What this field takes, in words; bounds in the unit that was typed. */
export function expectedValue(field: FieldSpec, unit?: unknown): string {
  switch (field.kind) {
    case 'text':
      return 'a text';
    case 'date':
      return 'a date such as "2026-05-17"';
    case 'yesNo':
      return 'true or false';
    case 'choice':
      return `one of ${oneOf(field.choices!.map((one) => one.value))}`;
    case 'number':
      return `a number${bounds(field, field.low, field.high, '')}`;
    case 'quantity': {
      const known = typeof unit === 'string' ? unitOfField(field, unit) : undefined;
      if (known === undefined) return exampleOf(field.dimension!);
      const [low, high] = [field.low, field.high].map((bound) =>
        bound === undefined ? undefined : fromInside(bound, known),
      );
      return `a number${bounds(field, low, high, ` ${known.symbol}`)}`;
    }
  }
}

function bounds(
  field: FieldSpec,
  low: number | undefined,
  high: number | undefined,
  unit: string,
): string {
  const text = (value: number) => `${Number(value.toPrecision(3))}${unit}`;
  if (low !== undefined && high !== undefined)
    return ` from ${text(low)} to ${text(high)}${field.kind === 'quantity' ? ' (is it another unit?)' : ''}`;
  if (low !== undefined) return ` from ${text(low)}`;
  return high === undefined ? '' : ` up to ${text(high)}`;
}

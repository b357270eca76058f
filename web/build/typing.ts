import { type FieldSpec, insideOf, unitOfField } from '../../src/build/index.ts';
import { expectedValue, isGood } from '../../src/build/sheet/good.ts';
import { readTyped } from '../../src/build/sheet/typed.ts';
import {
  displayUnit,
  formatQuantity,
  readNumber,
  UNITS,
  type UnitSystem,
} from '../../src/units/index.ts';

/** What a text in a cell means: a number with what was typed beside it, nothing, or why it means nothing. */
export type Typing =
  | { readonly value: number; readonly unit?: string; readonly plusMinus?: number }
  | { readonly wrong: string }
  | null;

/** Reads what a person typed into the cell of a number. A unit typed along wins over the one beside the cell. */
export function readCell(field: FieldSpec, text: string, unit: string | undefined): Typing {
  const words = text.trim();
  if (words === '') return null;
  if (field.kind === 'number') {
    const value = readNumber(words);
    if (value === undefined) return wrong(field, words, 'a number');
    return isGood(field, value, undefined) ? { value } : wrong(field, words, expectedValue(field));
  }
  const typed = readTyped(field, words, unit);
  if ('wrong' in typed) return wrong(field, words, typed.wrong);
  if (typed.unit !== undefined && unitOfField(field, typed.unit) === undefined)
    return wrong(field, words, `a unit such as in ${expectedValue(field)}`);
  return isGood(field, typed.value, typed.unit)
    ? typed
    : wrong(field, words, expectedValue(field, typed.unit));
}

const wrong = (field: FieldSpec, words: string, expected: string): Typing => ({
  wrong: `${field.label}: found “${words}”; expected ${expected}.`,
});

/** The unit that a new value of this field is typed in. */
export const usualUnit = (field: FieldSpec, system: UnitSystem): string | undefined =>
  field.kind === 'quantity' && field.shown !== undefined
    ? displayUnit(field.shown, system).symbol
    : undefined;

/** Units to choose from: those of both systems first, then all others of the dimension; the one in use always among them. */
export function unitChoices(field: FieldSpec, inUse: string | undefined): readonly string[] {
  if (field.kind !== 'quantity') return [];
  const usual = (['us', 'metric'] as const).flatMap((system) => usualUnit(field, system) ?? []);
  const others = UNITS.filter((unit) => unit.dimension === field.dimension).map(
    (unit) => unit.symbol,
  );
  return [...new Set([...usual, ...(inUse === undefined ? [] : [inUse]), ...others])];
}

/** The value in the person's own unit, where it was typed in another; else null. */
export function otherwise(
  field: FieldSpec,
  value: number,
  unit: string | undefined,
  system: UnitSystem,
): string | null {
  if (unit === undefined || field.shown === undefined) return null;
  const typed = unitOfField(field, unit);
  const own = displayUnit(field.shown, system);
  if (typed === undefined || typed.symbol === own.symbol) return null;
  const { text, unit: symbol } = formatQuantity(insideOf(field, value, unit), field.shown, system);
  return `= ${text} ${symbol}`;
}

/** Smallest, largest and spread of what was measured, in the unit that was typed; null below two values. */
export function statistics(
  each: readonly (number | null)[],
): { readonly smallest: number; readonly largest: number; readonly spread: number } | null {
  const known = each.filter((one): one is number => one !== null);
  if (known.length < 2) return null;
  const smallest = Math.min(...known);
  const largest = Math.max(...known);
  return { smallest, largest, spread: tidy(largest - smallest) };
}

/** Without the crumbs of binary fractions: 0.0003 and not 0.00029999999999996696. */
export const tidy = (value: number): number => Number(value.toPrecision(9));

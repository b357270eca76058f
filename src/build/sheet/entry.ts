import { exampleOf } from '../../units/index.ts';
import type { FieldSpec } from '../sections/field.ts';
import { expectedValue, isDate, isGood } from './good.ts';
import { isPlain, type Problems, pathTo, unknownKeys } from './shape.ts';
import { readTyped } from './typed.ts';
import type { EachEntry, Entry } from './types.ts';
import { unitOfField } from './units.ts';

const PROVENANCE = ['by', 'with', 'on', 'note'] as const;
const ENTRY_KEYS = ['value', 'unit', 'plusMinus', ...PROVENANCE];
const EACH_KEYS = ['each', 'unit', 'plusMinus', ...PROVENANCE];

/**
 * One entry of the sheet.
 * @param count  how many places the field is measured at; null where it stands once
 * @returns null where it was wrong, which has then been reported
 */
export function readEntry(
  field: FieldSpec,
  given: unknown,
  path: string,
  count: number | null,
  problems: Problems,
): Entry | EachEntry | null {
  if (Array.isArray(given) || given === null || given === undefined) {
    problems.add(path, given, expectedOf(field, count));
    return null;
  }
  return isPlain(given)
    ? readWhole(field, given, path, count, problems)
    : readShort(field, given, path, problems);
}

/** A value alone: `10.5`, `"4.030 ± 0.0002 in"`. What is wrong with it stands at its own path, where it was written. */
function readShort(
  field: FieldSpec,
  given: unknown,
  path: string,
  problems: Problems,
): Entry | null {
  if (field.kind === 'quantity') {
    if (typeof given !== 'string') {
      problems.add(
        path,
        given,
        typeof given === 'number'
          ? `a text of number and unit, as in ${exampleOf(field.dimension!)}`
          : expectedValue(field),
      );
      return null;
    }
    const typed = readTyped(field, given);
    const expected =
      'wrong' in typed
        ? `${typed.wrong}, as in ${exampleOf(field.dimension!)}`
        : typed.unit === undefined || unitOfField(field, typed.unit) === undefined
          ? `a unit behind the number, as in ${exampleOf(field.dimension!)}`
          : isGood(field, typed.value, typed.unit)
            ? null
            : expectedValue(field, typed.unit);
    if (expected === null) return typed as Entry;
    problems.add(path, given, expected);
    return null;
  }
  if (isGood(field, given, undefined)) return { value: given as Entry['value'] };
  problems.add(path, given, expectedValue(field));
  return null;
}

/** An object with `value` or `each`, unit, tolerance, and who measured it. */
function readWhole(
  field: FieldSpec,
  whole: Readonly<Record<string, unknown>>,
  path: string,
  count: number | null,
  problems: Problems,
): Entry | EachEntry | null {
  const isList = Object.hasOwn(whole, 'each');
  const before = counted(problems);
  unknownKeys(whole, isList ? EACH_KEYS : ENTRY_KEYS, path, before);
  if (isList) checkEach(field, whole, path, count, before);
  else if (!isGood(field, whole.value, whole.unit))
    before.add(
      Object.hasOwn(whole, 'value') ? `${path}.value` : path,
      Object.hasOwn(whole, 'value') ? whole.value : whole,
      Object.hasOwn(whole, 'value')
        ? expectedValue(field, whole.unit)
        : `"value", ${expectedOf(field, count)}`,
    );
  checkUnit(field, whole.unit, `${path}.unit`, before);
  checkTolerance(field, whole.plusMinus, `${path}.plusMinus`, before);
  checkProvenance(whole, path, before);
  return before.count() > 0 ? null : (whole as unknown as Entry | EachEntry);
}

function checkEach(
  field: FieldSpec,
  whole: Readonly<Record<string, unknown>>,
  path: string,
  count: number | null,
  problems: Problems,
): void {
  const each = whole.each;
  if (count === null) problems.add(`${path}.each`, each, `"value": this field stands once`);
  else if (!Array.isArray(each) || each.length !== count)
    problems.add(
      `${path}.each`,
      Array.isArray(each) ? `a list of ${each.length}` : each,
      `a list of ${count}, null where not measured`,
    );
  else
    each.forEach((one, i) => {
      if (one !== null && !isGood(field, one, whole.unit))
        problems.add(`${path}.each[${i}]`, one, `${expectedValue(field, whole.unit)}, or null`);
    });
}

function checkUnit(field: FieldSpec, unit: unknown, path: string, problems: Problems): void {
  if (field.kind !== 'quantity') {
    if (unit !== undefined) problems.add(path, unit, 'no unit: this field has none');
  } else if (typeof unit !== 'string' || unitOfField(field, unit) === undefined)
    problems.add(path, unit, `a unit, as in ${exampleOf(field.dimension!)}`);
}

function checkTolerance(field: FieldSpec, given: unknown, path: string, problems: Problems): void {
  if (given === undefined) return;
  if (field.kind !== 'quantity' && field.kind !== 'number')
    problems.add(path, given, 'no plus/minus: this field is no number');
  else if (!(typeof given === 'number' && Number.isFinite(given) && given >= 0))
    problems.add(path, given, 'a number that is not negative');
}

/** Who measured, with what, on which day, and a note. */
export function checkProvenance(
  whole: Readonly<Record<string, unknown>>,
  path: string,
  problems: Problems,
): void {
  for (const key of PROVENANCE)
    if (whole[key] !== undefined && typeof whole[key] !== 'string')
      problems.add(pathTo(path, key), whole[key], 'a text');
  if (typeof whole.on === 'string' && !isDate(whole.on))
    problems.add(`${path}.on`, whole.on, 'a date such as "2026-05-17"');
}

const expectedOf = (field: FieldSpec, count: number | null): string =>
  count === null
    ? expectedValue(field)
    : `"each", a list of ${count} (null where not measured), or one value for all: ${expectedValue(field)}`;

/** Passes reports on and counts them, so that a wrong entry is left out. */
function counted(problems: Problems): Problems & { count(): number } {
  let count = 0;
  return {
    add: (path, found, expected) => {
      count += 1;
      problems.add(path, found, expected);
    },
    count: () => count,
  };
}

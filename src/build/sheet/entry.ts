import { exampleOf } from '../../units/index.ts';
import { readNumber } from '../../units/quantity.ts';
import type { FieldSpec } from '../sections/field.ts';
import { isPlain, oneOf, type Problems, unknownKeys } from './shape.ts';
import type { EachEntry, Entry } from './types.ts';
import { insideOf, unitOfField } from './units.ts';

const PROVENANCE = ['by', 'with', 'on', 'note'] as const;
const ENTRY_KEYS = ['value', 'unit', 'plusMinus', ...PROVENANCE];
const EACH_KEYS = ['each', 'unit', 'plusMinus', ...PROVENANCE];
/** `4.030 ± 0.0002 in`, `4.030 in ± 0.0002 in`, `4.030 in`. */
const QUANTITY =
  /^\s*([^\s±a-zA-Z°%"]+)\s*([^±\d]*?)\s*(?:(?:±|\+\/-)\s*([\d.,eE-]+)\s*(.*?))?\s*$/;

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
  const whole = typeof given === 'object' && given !== null ? given : shorthand(field, given);
  if (!isPlain(whole)) {
    problems.add(path, given, expectedOf(field, count));
    return null;
  }
  const isList = 'each' in whole;
  unknownKeys(whole, isList ? EACH_KEYS : ENTRY_KEYS, path, problems);
  const before = counted(problems);
  if (isList) {
    const each = whole.each;
    if (count === null || !Array.isArray(each) || each.length !== count)
      before.add(`${path}.each`, each, expectedOf(field, count));
    else
      each.forEach((one, i) => {
        if (one !== null && !isGood(field, one, whole.unit))
          before.add(`${path}.each[${i}]`, one, `${expectedValue(field)} or null`);
      });
  } else if (!isGood(field, whole.value, whole.unit))
    before.add(
      'value' in whole && typeof given === 'object' ? `${path}.value` : path,
      typeof given === 'object' ? whole.value : given,
      expectedValue(field),
    );
  checkUnit(field, whole.unit, `${path}.unit`, before);
  const tolerance = whole.plusMinus;
  if (tolerance !== undefined && !(typeof tolerance === 'number' && tolerance >= 0))
    before.add(`${path}.plusMinus`, tolerance, 'a number that is not negative');
  for (const key of PROVENANCE)
    if (whole[key] !== undefined && typeof whole[key] !== 'string')
      before.add(`${path}.${key}`, whole[key], 'a text');
  return before.count() > 0 ? null : (whole as unknown as Entry | EachEntry);
}

/** `"4.030 in"` as `{ value: 4.03, unit: "in" }`; what is no such text is handed back as a value to be judged. */
function shorthand(field: FieldSpec, given: unknown): unknown {
  if (field.kind !== 'quantity' || typeof given !== 'string') return { value: given };
  const match = QUANTITY.exec(given);
  const value = match === null ? undefined : readNumber(match[1]!);
  if (match === null || value === undefined) return { value: given };
  const unit = (match[2] ?? '').trim() || (match[4] ?? '').trim();
  const plusMinus = match[3] === undefined ? undefined : readNumber(match[3]);
  return {
    value,
    ...(unit === '' ? {} : { unit }),
    ...(plusMinus === undefined ? {} : { plusMinus }),
  };
}

function checkUnit(field: FieldSpec, unit: unknown, path: string, problems: Problems): void {
  if (field.kind !== 'quantity') {
    if (unit !== undefined) problems.add(path, unit, 'no unit: this field has none');
  } else if (typeof unit !== 'string' || unitOfField(field, unit) === undefined)
    problems.add(path, unit, `a unit, as in ${exampleOf(field.dimension!)}`);
}

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
      const inside = insideOf(field, value, typeof unit === 'string' ? unit : undefined);
      // A missing or unknown unit is reported as such, not as a value out of range.
      if (field.kind === 'quantity' && typeof unit !== 'string') return true;
      if (Number.isNaN(inside)) return true;
      return inside >= (field.low ?? -Infinity) && inside <= (field.high ?? Infinity);
    }
  }
}

/** `2026-02-30` is no date. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

export function expectedValue(field: FieldSpec): string {
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
      return field.low === undefined
        ? 'a number'
        : `a number from ${field.low} to ${field.high ?? 'any'}`;
    case 'quantity':
      return `${exampleOf(field.dimension!)}, within what an engine can have`;
  }
}

const expectedOf = (field: FieldSpec, count: number | null): string =>
  count === null
    ? expectedValue(field)
    : `"each", a list of ${count} (null where not measured), or one value for all`;

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

import { differenceToInside, readNumber, splitQuantity } from '../../units/quantity.ts';
import type { FieldSpec } from '../sections/field.ts';
import { unitOfField } from './units.ts';

/** A quantity as it was typed in one text. */
export interface Typed {
  readonly value: number;
  readonly unit?: string;
  readonly plusMinus?: number;
}

/** `±`, `+/-`, `+-`, `-/+`, `+ / −`, `plus or minus`, `plus/minus`. */
const PLUS_MINUS = /\s*(?:±|\+\s*\/?\s*[-−–]|[-−–]\s*\/\s*\+|\bplus\s*(?:\/|-|or)?\s*minus\b)\s*/i;
/** Longer texts are no quantities. */
const LONGEST = 100;

/**
 * `4.030 in`, `4.030 ± 0.0002 in`, `4,03 in +/- 0.2 thou`, `64 cc ± 1 %`, with a decimal comma where it can mean
 * nothing else. A tolerance in another unit is turned into that of the value; one in per cent is of the value.
 * @param unit  the unit where the text has none (a spreadsheet's own column of units)
 * @returns what was typed, or why it cannot be read
 */
export function readTyped(
  field: FieldSpec,
  text: string,
  unit?: string,
): Typed | { readonly wrong: string } {
  if (text.length > LONGEST) return { wrong: 'a number with its unit, in one line' };
  const [left = '', right, ...more] = text.trim().split(PLUS_MINUS);
  if (more.length > 0) return { wrong: 'one plus/minus, the same both ways' };
  const number = numberIn(left);
  if (typeof number !== 'object') return { wrong: number };
  if (right === undefined) return number.unit === '' ? { ...bare(number), ...given(unit) } : number;
  const tolerance = numberIn(right);
  if (typeof tolerance !== 'object') return { wrong: `after the plus/minus ${tolerance}` };
  if (tolerance.value < 0) return { wrong: 'a plus/minus that is not negative' };
  const own = number.unit || (tolerance.unit === '%' && !isFraction(field) ? '' : tolerance.unit);
  const unitText = own || unit;
  const plusMinus = inUnitOf(field, tolerance, number.value, unitText);
  if (plusMinus === null) return { wrong: 'a plus/minus in a unit of the same kind' };
  return { value: number.value, ...given(unitText), plusMinus };
}

const bare = ({ value }: Typed) => ({ value });
const given = (unit: string | undefined) => (unit === undefined || unit === '' ? {} : { unit });
const isFraction = (field: FieldSpec) => field.dimension === 'fraction' || field.kind === 'number';

/** Number and unit of one half, or what would have to stand there. */
function numberIn(text: string): { value: number; unit: string } | string {
  const split = splitQuantity(text);
  if (split === null) return 'a number, then its unit';
  const value = readNumber(split.number);
  if (value !== undefined) return { value, unit: split.unit };
  return /^[+-]?\d{1,3},\d{3}$/.test(split.number)
    ? `a number that can be read one way only: ${split.number.replace(',', '.')} or ${split.number.replace(',', '')}`
    : 'a number that can be read one way only';
}

/** A tolerance in the unit of its value; null where the two units do not go together. */
function inUnitOf(
  field: FieldSpec,
  tolerance: { value: number; unit: string },
  value: number,
  unit: string | undefined,
): number | null {
  if (tolerance.unit === '' || tolerance.unit === unit) return tolerance.value;
  if (tolerance.unit === '%' && !isFraction(field))
    return (Math.abs(value) * tolerance.value) / 100;
  const from = unitOfField(field, tolerance.unit);
  const to = unit === undefined ? undefined : unitOfField(field, unit);
  if (from === undefined || to === undefined) return null;
  // Twelve digits: 0.2 thou is 0.0002 in and not 0.00020000000000000001.
  return Number((differenceToInside(tolerance.value, from) / to.factor).toPrecision(12));
}

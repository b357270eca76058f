import { sentenceOf } from '../../src/errors.ts';
import {
  type Dimension,
  type DisplayKind,
  displayUnit,
  formatQuantity,
  parseQuantity,
  readNumber,
  type UnitSystem,
} from '../../src/units/index.ts';

/** One field of a form, told as data: how it is shown, what may stand in it, and what it means inside. */
export interface Field {
  readonly key: string;
  readonly label: string;
  readonly hint?: string;
  readonly kind:
    | 'text'
    | 'long'
    | 'table'
    | 'number'
    | 'quantity'
    | 'percent'
    | 'choice'
    | 'yesNo'
    | 'date'
    | 'band';
  /** For quantities: how they are shown, and what they measure. */
  readonly shown?: DisplayKind;
  readonly dimension?: Dimension;
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  /** Of a table, whose value is text: a line a row, a tab between cells. */
  readonly columns?: readonly string[];
  /** What a table can be filled with at a press. */
  readonly offer?: { readonly label: string; readonly text: string };
  /** Asked only where another field says this. */
  readonly only?: { readonly key: string; readonly is: string };
  readonly required?: boolean;
  /** For text that is null, not empty, where nothing is said. */
  readonly nullable?: boolean;
  readonly low?: number;
  readonly high?: number;
}

export type Values = Readonly<Record<string, unknown>>;

/** The value as a person of this unit system sees and edits it. */
export function textOf(field: Field, value: unknown, system: UnitSystem): string {
  if (value === null || value === undefined) return '';
  if (field.kind === 'yesNo') return value === true ? 'yes' : 'no';
  if (field.kind === 'quantity' && typeof value === 'number')
    return trimmed(formatQuantity(value, field.shown!, system, { decimals: 4 }).text);
  if (field.kind === 'percent' && typeof value === 'number')
    return trimmed((value * 100).toFixed(4));
  if (field.kind === 'band' && Array.isArray(value)) return `${value[0]} to ${value[1]}`;
  return String(value);
}

/** `12.5000` → `12.5`. */
function trimmed(text: string): string {
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Unit shown behind the field, if any. */
export function unitOf(field: Field, system: UnitSystem): string | undefined {
  if (field.kind === 'percent') return '%';
  if (field.kind === 'band') return 'rpm';
  if (field.kind === 'date') return 'year-month-day';
  return field.kind === 'quantity' ? displayUnit(field.shown!, system).symbol : undefined;
}

export type Read = { readonly value: unknown } | { readonly trouble: string };

/** What the text means inside, or one sentence why it means nothing. */
export function readField(field: Field, text: string, system: UnitSystem): Read {
  const words = text.trim();
  if (words === '') {
    if (field.required) return { trouble: `${field.label} is needed.` };
    const empty = ['text', 'long', 'table'].includes(field.kind) && !field.nullable;
    return { value: empty ? '' : null };
  }
  switch (field.kind) {
    case 'yesNo':
      return { value: words === 'yes' };
    case 'number':
      return within(field, readNumber(words), words);
    case 'percent': {
      const percent = readNumber(words.replace(/\s*%$/, ''));
      return within(field, percent === undefined ? undefined : percent / 100, words);
    }
    case 'quantity':
      try {
        const assume = displayUnit(field.shown!, system);
        return within(field, parseQuantity(words, field.dimension!, { assume }), words);
      } catch (error) {
        return { trouble: sentenceOf(error) };
      }
    case 'band': {
      const found = words.match(/\d[\d ]*\d|\d+/g)?.map((part) => Number(part.replaceAll(' ', '')));
      if (found?.length !== 2 || found[0]! >= found[1]!)
        return { trouble: `“${words}” is no band; expected two speeds such as 5000 to 7200.` };
      return { value: found };
    }
    case 'date': {
      const date = readDate(words);
      return date === null
        ? { trouble: `“${words}” is no date; expected year, month and day such as 2026-04-09.` }
        : { value: date };
    }
    case 'choice': {
      const choice = field.choices?.find((one) => one.value === words);
      return choice ? { value: words } : { trouble: `“${words}” is not one of the choices.` };
    }
    default:
      return { value: field.kind === 'long' || field.kind === 'table' ? text : words };
  }
}

/**
 * An ISO date, written the same on every machine whatever its language; null where it is none. The year comes first,
 * since a day and a month the other way round would be taken for each other.
 */
export function readDate(words: string): string | null {
  const found = /^(\d{4})([-./ ])(\d{1,2})\2(\d{1,2})$/.exec(words);
  if (found === null) return null;
  const [year, month, day] = [found[1]!, found[3]!.padStart(2, '0'), found[4]!.padStart(2, '0')];
  const iso = `${year}-${month}-${day}`;
  const date = new Date(`${iso}T00:00:00Z`);
  // The 30th of February reads as a day in March.
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(iso) ? iso : null;
}

function within(field: Field, value: number | undefined, words: string): Read {
  if (value === undefined) return { trouble: `“${words}” is not a number.` };
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = field;
  if (value < low || value > high)
    return { trouble: `${words} cannot be right for ${field.label.toLowerCase()}.` };
  return { value };
}

/**
 * Those fields of a form whose meaning differs from what is stored, or the troubles by key.
 * With `sendUntouched` the values a new thing was offered with go along.
 */
export function readForm(
  fields: readonly Field[],
  texts: Readonly<Record<string, string>>,
  stored: Values,
  system: UnitSystem,
  sendUntouched = false,
): { readonly patch: Values; readonly troubles: Readonly<Record<string, string>> } {
  const patch: Record<string, unknown> = {};
  const troubles: Record<string, string> = {};
  for (const field of fields) {
    const text = texts[field.key] ?? '';
    // Untouched text keeps its full digits: what is shown is rounded.
    const touched = text !== textOf(field, stored[field.key], system);
    if (!touched && !sendUntouched && !(field.required && text === '')) continue;
    if (!touched && stored[field.key] !== undefined) {
      patch[field.key] = stored[field.key];
      continue;
    }
    if (!touched && text === '' && !field.required) continue;
    const read = readField(field, text, system);
    if ('trouble' in read) troubles[field.key] = read.trouble;
    else patch[field.key] = read.value;
  }
  return { patch, troubles };
}

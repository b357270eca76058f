import { nearest } from './near.ts';

/** Small questions asked of parsed JSON while a sheet is read. */

/** Where the readers leave what they find wrong; they go on, so that one look shows all slips. */
export interface Problems {
  add(path: string, found: unknown, expected: string): void;
}

export type Plain = Readonly<Record<string, unknown>>;

/** Whether it is an object with own keys, as JSON makes them. */
export const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const LONGEST_TEXT = 60;
/** Of an object with more unknown keys than this the rest tells nobody anything. */
const MOST_KEYS = 50;

/** What stands there, short enough to read; of lists and objects only as much as fits, however deep they go. */
export function textOf(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = written(value, LONGEST_TEXT);
  return text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 3)}...` : text;
}

function written(value: unknown, room: number): string {
  if (typeof value === 'string') return JSON.stringify(value.slice(0, room + 1));
  if (typeof value !== 'object' || value === null) return String(value);
  if (room <= 0) return '...';
  const isList = Array.isArray(value);
  let text = isList ? '[' : '{';
  for (const key of isList ? value.keys() : Object.keys(value)) {
    if (text.length > room) break;
    if (text.length > 1) text += ', ';
    if (!isList) text += `${JSON.stringify(String(key).slice(0, room))}: `;
    text += written((value as Record<string | number, unknown>)[key], room - text.length);
  }
  return text + (isList ? ']' : '}');
}

/** The path of a key: `sections.block`, or `sections["a.b"]` where the key itself would not read as one. */
export function pathTo(path: string, key: string): string {
  if (/^[A-Za-z_$][\w$-]{0,60}$/.test(key)) return path === '' ? key : `${path}.${key}`;
  const short = key.length > LONGEST_TEXT ? `${key.slice(0, LONGEST_TEXT - 3)}...` : key;
  return `${path}[${JSON.stringify(short)}]`;
}

export const oneOf = (names: readonly string[]): string =>
  names.length === 0 ? 'none' : names.join(', ');

/** What may stand there; where something near was written, that alone, for long lists hide what is meant. */
export function orNear(
  what: string,
  text: string,
  names: readonly string[],
  others: readonly (readonly [name: string, spelling: string])[] = [],
): string {
  const near = nearest(text, names, others);
  return near === null ? `${what}: ${oneOf(names)}` : `${what}; perhaps "${near}" is meant`;
}

/** Reports keys that the format does not know: a misspelled one would otherwise be lost in silence. */
export function unknownKeys(
  value: Plain,
  known: readonly string[],
  path: string,
  problems: Problems,
): void {
  const unknown = Object.keys(value).filter((key) => !known.includes(key));
  for (const key of unknown.slice(0, MOST_KEYS))
    problems.add(pathTo(path, key), key, orNear('a key that is known here', key, known));
}

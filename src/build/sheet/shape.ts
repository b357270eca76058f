/** Small questions asked of parsed JSON while a sheet is read. */

/** Where the readers leave what they find wrong; they go on, so that one look shows all slips. */
export interface Problems {
  add(path: string, found: unknown, expected: string): void;
}

export type Plain = Readonly<Record<string, unknown>>;

/** Whether it is an object with own keys, as JSON makes them. */
export const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What stands there, short enough to read. */
export function textOf(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = typeof value === 'string' ? `"${value}"` : (JSON.stringify(value) ?? String(value));
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

export const oneOf = (names: readonly string[]): string =>
  names.length === 0 ? 'none' : names.join(', ');

/** Reports keys that the format does not know: a misspelled one would otherwise be lost in silence. */
export function unknownKeys(
  value: Plain,
  known: readonly string[],
  path: string,
  problems: Problems,
): void {
  for (const key of Object.keys(value))
    if (!known.includes(key))
      problems.add(path === '' ? key : `${path}.${key}`, key, `one of ${oneOf(known)}`);
}

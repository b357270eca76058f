/** One frozen value held against the same value computed again. */

export interface Difference {
  /** `days[0].pulls[2].curve.peakPower.value`. */
  readonly where: string;
  readonly says: unknown;
  readonly follows: unknown;
}

/**
 * Another machine rounds the last digits otherwise, and a search for a maximum carries that to about the root of it.
 * What is changed by less than this is told by the digests of the bundle, not by computing again.
 */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-9;

/** Everything in which two plain values differ, in the order in which they are read. */
export function differences(
  says: unknown,
  follows: unknown,
  most = Number.POSITIVE_INFINITY,
): Difference[] {
  const found: Difference[] = [];
  const walk = (where: string, a: unknown, b: unknown): void => {
    if (found.length >= most || isSame(a, b)) return;
    if (isObject(a) && isObject(b) && Array.isArray(a) === Array.isArray(b)) {
      const names = new Set([...Object.keys(a), ...Object.keys(b)]);
      for (const name of names) {
        const place = Array.isArray(a)
          ? `${where}[${name}]`
          : where === ''
            ? name
            : `${where}.${name}`;
        walk(place, a[name], b[name]);
      }
      return;
    }
    found.push({ where, says: a, follows: b });
  };
  walk('', says, follows);
  return found;
}

function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= RELATIVE * Math.max(Math.abs(a), Math.abs(b)) + ABSOLUTE;
  return a === b || (a ?? null) === (b ?? null);
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

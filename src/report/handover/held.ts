/** One frozen value held against the same value computed again. */
import { parted } from '../../units/export/table.ts';

export interface Difference {
  /** `days[0].pulls[2].curve.peakPower.value`. */
  readonly where: string;
  readonly says: unknown;
  readonly follows: unknown;
}

/**
 * Another machine rounds the last digits otherwise, and a search for a maximum carries that to about the root of it:
 * up to 1.5e-12 was seen between versions of Node and processors (docs/handover.md), so that this is wide by far and
 * yet finer than any figure is printed. What is changed by less is told by the digests of the bundle.
 */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-9;

/** The same for people: `days[0].pulls[2].curve.peakPower.value` is `day 1, pull 3, curve, peak power`. */
export const placeInWords = (where: string): string =>
  where
    .split('.')
    .filter((name) => name !== 'value')
    .map((name) => {
      const [, plain, index] = /^(.*?)(?:\[(\d+)\])?$/.exec(name)!;
      const { stem, unit } = parted(plain!);
      const words = stem.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
      const counted =
        index === undefined ? words : `${words.replace(/s$/, '')} ${Number(index) + 1}`;
      return unit === null ? counted : `${counted} [${unit}]`;
    })
    .join(', ');

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
  // JSON can write what is past the largest number (1e999), and a part of that is no tolerance.
  if (Number.isFinite(a) && Number.isFinite(b))
    return Math.abs(Number(a) - Number(b)) <= slack(Number(a), Number(b));
  return a === b || (a ?? null) === (b ?? null);
}

const slack = (a: number, b: number) => RELATIVE * Math.max(Math.abs(a), Math.abs(b)) + ABSOLUTE;

/** How far two numbers are apart, as a part of the larger; 0 for what are not two numbers. */
export function apart(a: unknown, b: unknown): number {
  if (typeof a !== 'number' || typeof b !== 'number' || a === b) return 0;
  return Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
}

/** The most by which two numbers differ that are taken for the same; 0: none does. */
export function rounding(says: unknown, follows: unknown): number {
  if (isObject(says) && isObject(follows))
    return Object.keys(says).reduce(
      (most, name) => Math.max(most, rounding(says[name], follows[name])),
      0,
    );
  // What is zero but for the last digits has no part to speak of.
  return isSame(says, follows) && Math.abs(Number(says)) > ABSOLUTE ? apart(says, follows) : 0;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

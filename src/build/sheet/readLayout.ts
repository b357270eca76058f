import { layoutOf } from './layout.ts';
import { isPlain, oneOf, type Problems, unknownKeys } from './shape.ts';
import type { Layout } from './types.ts';

const CHOICES = {
  arrangement: ['single', 'inline', 'V', 'flat'],
  crank: ['single-plane', 'cross-plane', 'other'],
  cycle: [2, 4],
  aspiration: ['natural', 'boosted', 'nitrous'],
} as const;
/** Whole numbers, with their least and most. */
const COUNTS = {
  cylinders: [1, 64],
  intakeValvesPerCylinder: [0, 4],
  exhaustValvesPerCylinder: [0, 4],
  mainJournals: [1, 65],
  rodJournals: [1, 64],
} as const;
/** In the order in which they are written. */
const KEYS = Object.keys(layoutOf(1));

/** The layout of a sheet. What it leaves out is as engines of that many cylinders usually are. */
export function readLayout(value: unknown, problems: Problems): Layout | null {
  if (!isPlain(value) || typeof value.cylinders !== 'number') {
    problems.add(
      isPlain(value) ? 'layout.cylinders' : 'layout',
      isPlain(value) ? value.cylinders : value,
      isPlain(value)
        ? 'how many cylinders there are, a whole number'
        : 'an object with at least "cylinders", a whole number',
    );
    return null;
  }
  unknownKeys(value, KEYS, 'layout', problems);
  let fine = true;
  const refuse = (key: string, expected: string) => {
    fine = false;
    problems.add(`layout.${key}`, value[key], expected);
  };
  for (const [key, [low, high]] of Object.entries(COUNTS)) {
    const given = value[key];
    if (given === undefined || (given === null && key.endsWith('Journals'))) continue;
    if (!Number.isInteger(given) || (given as number) < low || (given as number) > high)
      refuse(key, `a whole number from ${low} to ${high}`);
  }
  for (const [key, choices] of Object.entries(CHOICES))
    if (value[key] !== undefined && !(choices as readonly unknown[]).includes(value[key]))
      refuse(key, `one of ${oneOf(choices.map(String))}`);
  const angle = value.bankAngleDeg;
  if (
    angle !== undefined &&
    angle !== null &&
    !(typeof angle === 'number' && angle > 0 && angle <= 180)
  )
    refuse('bankAngleDeg', 'an angle from 0 to 180 degrees, or null');
  const cylinders = value.cylinders;
  if (value.arrangement === 'single' && cylinders > 1)
    refuse('arrangement', `inline, V or flat for ${cylinders} cylinders`);
  if (!fine) return null;
  const usual = usually(cylinders, value.arrangement);
  // Only the keys that the format knows, in the format's order; the others have been reported.
  return Object.fromEntries(
    Object.entries(usual).map(([key, otherwise]) => [
      key,
      value[key] === undefined ? otherwise : value[key],
    ]),
  ) as unknown as Layout;
}

/** As engines of so many cylinders in this arrangement usually are. */
function usually(cylinders: number, arrangement: unknown): Layout {
  const usual = layoutOf(cylinders);
  if (arrangement === undefined || arrangement === usual.arrangement) return usual;
  return {
    ...usual,
    bankAngleDeg: arrangement === 'flat' ? 180 : null,
    crank: arrangement === 'V' && cylinders === 8 ? 'cross-plane' : 'single-plane',
  };
}

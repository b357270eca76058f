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
const KEYS = [...Object.keys(CHOICES), ...Object.keys(COUNTS), 'bankAngleDeg'];

/** The layout of a sheet. What it leaves out is as engines of that many cylinders usually are. */
export function readLayout(value: unknown, problems: Problems): Layout | null {
  if (!isPlain(value) || typeof value.cylinders !== 'number') {
    problems.add(
      isPlain(value) ? 'layout.cylinders' : 'layout',
      isPlain(value) ? value.cylinders : value,
      'an object with at least "cylinders", a whole number',
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
  return fine ? { ...layoutOf(value.cylinders), ...(value as unknown as Partial<Layout>) } : null;
}

import { NonPhysicalError } from '../../errors.ts';
import { positive } from '../possible.ts';

export interface SetMatch {
  readonly lightestKg: number;
  readonly heaviestKg: number;
  readonly spreadKg: number;
  readonly meanKg: number;
  /** Place in the set, from 0. */
  readonly lightestAt: number;
  readonly heaviestAt: number;
  /** What has to come off each part to match the lightest [kg], in the set's order; null where not weighed. */
  readonly takeOffKg: readonly (number | null)[];
}

/** Spread within a set that shops usually accept [kg] (common practice, no source). */
export const USUAL_SPREAD_KG = 0.001;

/**
 * How well parts of a set match: pistons, rod big ends, rod small ends. Parts that were not weighed stay out.
 * @throws NonPhysicalError  nothing weighed, a mass of 0 or less
 */
export function matchSet(part: string, massesKg: readonly (number | null)[]): SetMatch {
  const weighed = massesKg.flatMap((massKg, at) =>
    massKg === null ? [] : [{ massKg: positive(part, massKg, 'kg'), at }],
  );
  const first = weighed[0];
  if (first === undefined)
    throw new NonPhysicalError(
      `invalid set of ${part}: nothing weighed; expected one mass at least`,
    );
  const lightest = weighed.reduce((a, b) => (b.massKg < a.massKg ? b : a), first);
  const heaviest = weighed.reduce((a, b) => (b.massKg > a.massKg ? b : a), first);
  return {
    lightestKg: lightest.massKg,
    heaviestKg: heaviest.massKg,
    spreadKg: heaviest.massKg - lightest.massKg,
    meanKg: weighed.reduce((sum, { massKg }) => sum + massKg, 0) / weighed.length,
    lightestAt: lightest.at,
    heaviestAt: heaviest.at,
    takeOffKg: massesKg.map((massKg) => (massKg === null ? null : massKg - lightest.massKg)),
  };
}

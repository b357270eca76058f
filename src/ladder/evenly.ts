import quantile from '@stdlib/stats-base-dists-normal-quantile';

/** Root of x^9 = x + 1: its powers spread points evenly in up to eight dimensions (Roberts' additive recurrence). */
const ROOT = (() => {
  let x = 1.1;
  for (let i = 0; i < 40; i++) x = (1 + x) ** (1 / 9);
  return x;
})();

/** A fixed, evenly spread fraction in (0, 1): the i-th point, dimension 0 to 7. The same on every machine. */
export function fraction(i: number, dimension: number): number {
  const place = 0.5 + (i + 1) * ROOT ** -(dimension + 1);
  return place - Math.floor(place);
}

const normals = new Map<number, Float64Array>();
const KEPT = 512;

/** The same as a standard normal. */
export function normalFraction(i: number, dimension: number): number {
  let table = normals.get(dimension);
  if (table === undefined) {
    table = Float64Array.from({ length: KEPT }, (_, j) => quantile(fraction(j, dimension), 0, 1));
    normals.set(dimension, table);
  }
  return i < KEPT ? table[i]! : quantile(fraction(i, dimension), 0, 1);
}

import { count, finite, notNegative, positive } from '../possible.ts';

export interface Spread {
  readonly count: number;
  readonly smallest: number;
  readonly largest: number;
  readonly spread: number;
  readonly mean: number;
  /** Standard deviation of a single one; null with one value. */
  readonly sd: number | null;
}

/**
 * The statistics row under a column of measurements, in the column's unit. What was not measured stays out; null where
 * nothing was.
 */
export function spreadOf(quantity: string, values: readonly (number | null)[]): Spread | null {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return null;
  for (const value of known) finite(quantity, value, '');
  const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
  const squares = known.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const [smallest, largest] = [Math.min(...known), Math.max(...known)];
  return {
    count: known.length,
    smallest,
    largest,
    spread: largest - smallest,
    mean,
    sd: known.length < 2 ? null : Math.sqrt(squares / (known.length - 1)),
  };
}

/** One height of a bore or one place of a journal: diameters in two directions square to each other [m]. */
export type CrossM = readonly [alongM: number | null, acrossM: number | null];

export interface Roundness {
  readonly diameter: Spread;
  /** Largest difference between heights in one direction [m]; null until two heights are known in one. */
  readonly taperM: number | null;
  /** Largest difference between the two directions at one height [m]; null until both are known at one. */
  readonly outOfRoundM: number | null;
}

/**
 * Taper and out-of-round of a bore or journal from diameters at several heights in two directions, as the trade counts
 * them: differences of diameters, not of radii. Null where nothing was measured.
 * @throws NonPhysicalError  a diameter of 0 or less
 */
export function roundness(heights: readonly CrossM[]): Roundness | null {
  count('number of heights', heights.length);
  for (const diameterM of heights.flat())
    if (diameterM !== null) positive('diameter', diameterM, 'm');
  const diameter = spreadOf('diameter', heights.flat());
  if (diameter === null) return null;
  const tapers = ([0, 1] as const)
    .map((direction) =>
      spreadOf(
        'diameter',
        heights.map((height) => height[direction]),
      ),
    )
    .flatMap((column) => (column === null || column.count < 2 ? [] : [column.spread]));
  const ovals = heights.flatMap(([along, across]) =>
    along === null || across === null ? [] : [Math.abs(along - across)],
  );
  return { diameter, taperM: greatest(tapers), outOfRoundM: greatest(ovals) };
}

const greatest = (values: readonly number[]) => (values.length === 0 ? null : Math.max(...values));

/** Coverage factor of the span around a clearance (GUM: some 95 %). */
export const CLEARANCE_COVERAGE_FACTOR = 2;

export interface Clearance {
  /** Largest inside part in the smallest hole: the tightest place [m]; below 0 is interference. */
  readonly smallestM: number;
  readonly meanM: number;
  readonly largestM: number;
  /** Standard uncertainty of each, from both gauges [m]. */
  readonly standardUncertaintyM: number;
  /** The tightest place less, the widest more the gauges' share at CLEARANCE_COVERAGE_FACTOR. */
  readonly lowM: number;
  readonly highM: number;
}

/**
 * Clearance on diameter between a hole and what runs in it, both measured at several places.
 * @param hole.standardUncertaintyM   of its gauge and the hand that held it
 * @throws NonPhysicalError  nothing measured of either, a diameter of 0 or less
 */
export function clearanceBetween(
  hole: { readonly diametersM: readonly (number | null)[]; readonly standardUncertaintyM: number },
  inside: {
    readonly diametersM: readonly (number | null)[];
    readonly standardUncertaintyM: number;
  },
): Clearance {
  const [outer, inner] = [
    measured('hole', hole.diametersM),
    measured('part inside', inside.diametersM),
  ];
  const standardUncertaintyM = Math.hypot(
    notNegative('uncertainty of the hole', hole.standardUncertaintyM, 'm'),
    notNegative('uncertainty of the part inside', inside.standardUncertaintyM, 'm'),
  );
  const smallestM = outer.smallest - inner.largest;
  const largestM = outer.largest - inner.smallest;
  return {
    smallestM,
    meanM: outer.mean - inner.mean,
    largestM,
    standardUncertaintyM,
    lowM: smallestM - CLEARANCE_COVERAGE_FACTOR * standardUncertaintyM,
    highM: largestM + CLEARANCE_COVERAGE_FACTOR * standardUncertaintyM,
  };
}

function measured(part: string, diametersM: readonly (number | null)[]): Spread {
  const known = diametersM.filter((diameterM) => diameterM !== null);
  count(`number of diameters of the ${part}`, known.length);
  for (const diameterM of known) positive(`diameter of the ${part}`, diameterM, 'm');
  return spreadOf(`diameter of the ${part}`, known)!;
}

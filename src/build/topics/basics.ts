import { sweptVolumeM3 } from '../../trade/geometry/index.ts';
import {
  type Ask,
  eachOf,
  firstOf,
  meanOf,
  type Need,
  NotMeasured,
  once,
  one,
  type Row,
} from '../compute/ask.ts';
import { countOf } from '../sheet/layout.ts';
import type { Place } from '../sheet/types.ts';

/** Values that the sheet may hold in more than one way; every topic takes them from here. */

type ByPlace = readonly (number | null)[];

const BORE_FIELDS = ['Top', 'Middle', 'Bottom'].flatMap((height) =>
  ['Across', 'Along'].map((direction) => `block.bore${height}${direction}`),
);

/** The bores as measured: mean of the diameters taken in each cylinder [m]. */
const measuredBores: Need<ByPlace> = once((ask) => {
  const taken = BORE_FIELDS.map((path) => ask.eachOrNull(path)).filter((each) => each !== null);
  if (taken.length === 0) throw new NotMeasured(['block.boreNominal']);
  return Array.from({ length: ask.layout.cylinders }, (_, i) => {
    const known = taken.map((each) => each[i] ?? null).filter((value) => value !== null);
    return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
  });
});

/** The same number at each place. */
export const everywhere =
  (place: Place, need: Need<number>): Need<ByPlace> =>
  (ask) =>
    Array<number>(countOf(place, ask.layout)).fill(need(ask));

/** Bore of each cylinder [m]: as measured, else nominal. */
export const boresM: Need<ByPlace> = firstOf(
  measuredBores,
  everywhere('cylinder', one('block.boreNominal')),
);

/** Mean bore [m]. */
export const boreM: Need<number> = once(meanOf(boresM));
export const strokeM: Need<number> = one('crank.stroke');
export const rodLengthM: Need<number> = one('rods.length');

/** How far each piston stands below the deck [m]: as measured, else from the stack of parts. */
export const decksM: Need<ByPlace> = firstOf(
  eachOf('deck.deckClearance'),
  everywhere('cylinder', (ask) => {
    const stack = ask.all({
      block: one('block.height'),
      stroke: strokeM,
      rod: rodLengthM,
      height: one('pistons.compressionHeight'),
    });
    return stack.block - stack.stroke / 2 - stack.rod - stack.height;
  }),
);

/** Swept volume of each cylinder [m³]. */
export const sweptM3: Need<ByPlace> = once((ask) => {
  const { bores, stroke } = ask.all({ bores: boresM, stroke: strokeM });
  return bores.map((bore) => (bore === null ? null : sweptVolumeM3(bore, stroke)));
});

/** Swept volume of one cylinder, mean [m³], and of all together. */
export const cylinderM3: Need<number> = meanOf(sweptM3);
export const displacementM3: Need<number> = (ask) => cylinderM3(ask) * ask.layout.cylinders;

/** Applies a formula place by place; a place where one of the values is not known stays unknown. */
export function byPlace<K extends string>(
  values: Readonly<Record<K, ByPlace>>,
  formula: (at: Readonly<Record<K, number>>, index: number) => number,
): (number | null)[] {
  const lists = Object.entries<ByPlace>(values);
  const length = Math.max(...lists.map(([, list]) => list.length));
  return Array.from({ length }, (_, i) => {
    const at = lists.map(([key, list]) => [key, list[i] ?? null] as const);
    return at.some(([, value]) => value === null)
      ? null
      : formula(Object.fromEntries(at) as Record<K, number>, i);
  });
}

/** A number, 0 where the sheet says nothing: for what most engines do not have (a dome, a pin offset). */
export const orNone =
  (path: string): Need<number> =>
  (ask: Ask) =>
    ask.numberOrNull(path) ?? 0;

/** The named cells of a table's row where all of them are numbers; null where one is missing. */
export function numbersIn<K extends string>(
  row: Row,
  names: readonly K[],
): Readonly<Record<K, number>> | null {
  const cells = names.map((name) => [name, row[name]] as const);
  return cells.every(([, cell]) => typeof cell === 'number')
    ? (Object.fromEntries(cells) as Record<K, number>)
    : null;
}

/** Largest less smallest of values by place, as a part of the largest. */
export const spreadOf =
  (path: string): Need<number> =>
  (ask) => {
    const known = eachOf(path)(ask).filter((value): value is number => value !== null);
    const largest = Math.max(...known);
    return largest > 0 ? (largest - Math.min(...known)) / largest : 0;
  };

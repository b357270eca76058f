import type { Trace } from '../../api/types.gen.ts';

/** A part of a recording: by its rows, and by the places (seconds, or rows) between which it is drawn. */
export interface TraceWindow {
  readonly fromRow: number;
  readonly toRow: number;
  readonly places: readonly [number, number];
}

/** Fewest rows that are still worth a picture. */
const LEAST_ROWS = 10;

type Drawn = Pick<Trace, 'row' | 'timeS' | 'lastRow'>;

const placesOf = (trace: Drawn) => trace.timeS ?? trace.row;

/** The window between two places of what is drawn; null where it holds too few rows to look at. */
export function windowBetween(trace: Drawn, one: number, other: number): TraceWindow | null {
  const [low, high] = one < other ? [one, other] : [other, one];
  const places = placesOf(trace);
  let fromRow = trace.row[0] ?? 0;
  let toRow = trace.lastRow;
  places.forEach((place, at) => {
    if (place !== null && place <= low) fromRow = trace.row[at]!;
  });
  for (const [at, place] of places.entries())
    if (place !== null && place > high) {
      toRow = trace.row[at]! - 1;
      break;
    }
  return toRow - fromRow + 1 < LEAST_ROWS ? null : { fromRow, toRow, places: [low, high] };
}

/** First and last place of what is drawn. */
export function reachOf(trace: Drawn): readonly [number, number] | null {
  const known = placesOf(trace).filter((place) => place !== null);
  return known.length < 2 ? null : [known[0]!, known.at(-1)!];
}

/** The middle half of what is shown. */
export function closer([low, high]: readonly [number, number]): readonly [number, number] {
  const quarter = (high - low) / 4;
  return [low + quarter, high - quarter];
}

/** What is shown, half its width to one side, as far as there is something to show. */
export function moved(
  [low, high]: readonly [number, number],
  side: -1 | 1,
  [first, last]: readonly [number, number],
): readonly [number, number] {
  const by = Math.min(Math.max((side * (high - low)) / 2, first - low), last - high);
  return [low + by, high + by];
}

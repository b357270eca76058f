import { area, line } from 'd3-shape';

const finite = (value: number | null | undefined): value is number =>
  value !== null && value !== undefined && Number.isFinite(value);

/** Path through points given in pixels; broken where a value is missing. */
export function linePath(xs: readonly number[], ys: readonly (number | null)[]): string {
  return (
    line<number>()
      .digits(2)
      .defined((at) => finite(ys[at]))
      .x((at) => xs[at]!)
      .y((at) => ys[at]!)(xs.map((_, at) => at)) ?? ''
  );
}

/** Region between two lines given in pixels. */
export function bandPath(
  xs: readonly number[],
  lows: readonly (number | null)[],
  highs: readonly (number | null)[],
): string {
  return (
    area<number>()
      .digits(2)
      .defined((at) => finite(lows[at]) && finite(highs[at]))
      .x((at) => xs[at]!)
      .y0((at) => lows[at]!)
      .y1((at) => highs[at]!)(xs.map((_, at) => at)) ?? ''
  );
}

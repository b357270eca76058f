import { DRAWS, type GroupCurves } from './curves.ts';
import { GRID } from './shapes.ts';
import type { GroupCurve } from './types.ts';

/** Two-sided 95 % of a normal law. */
const HALF_WIDTHS = 1.96;

/**
 * The groups' mean curves with their own 95 % bands by speed, by group.
 *
 * What moves all groups alike (the offset of a day that they share) is left out, else two curves that are well told
 * apart would be drawn as one smear: of the draws' variances at a speed the least covariance of any two groups is
 * taken off. Of two groups the squares of the bands' half-widths then add up to that of their difference.
 * A group by itself shares with none, and keeps all of its band. A band is for the eye at one speed; whether two groups can be told apart is decided by the pair's simultaneous band.
 */
export function ownBands({ groups, speedRpm }: GroupCurves): GroupCurve[] {
  // Deviations from the middle, by draw and speed.
  const off = groups.map(({ shape, shift, middle }) =>
    shape.draws.map((value, at) => value + shift[Math.floor(at / GRID)]! - middle[at % GRID]!),
  );
  const together = (g: number, h: number) => {
    const [one, other] = [off[g]!, off[h]!];
    const sum = new Float64Array(GRID);
    for (let at = 0; at < one.length; at += GRID)
      for (let m = 0; m < GRID; m++) sum[m]! += one[at + m]! * other[at + m]!;
    return sum.map((value) => value / DRAWS);
  };
  const variance = groups.map((_, g) => together(g, g));
  const shared = new Float64Array(GRID).fill(groups.length > 1 ? Infinity : 0);
  groups.forEach((_, g) => {
    for (let h = 0; h < g; h++)
      [variance[g]!, variance[h]!, together(g, h)].forEach((values) => {
        for (let m = 0; m < GRID; m++) shared[m] = Math.min(shared[m]!, Math.max(0, values[m]!));
      });
  });
  return groups.map(({ middle }, g) => {
    const half = variance[g]!.map(
      (value, m) => HALF_WIDTHS * Math.sqrt(Math.max(0, value - shared[m]!)),
    );
    return {
      speedRpm,
      torqueNm: Array.from(middle, Math.exp),
      lowNm: Array.from(middle, (value, m) => Math.exp(value - half[m]!)),
      highNm: Array.from(middle, (value, m) => Math.exp(value + half[m]!)),
    };
  });
}

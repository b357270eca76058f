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
  const together = covariances(groups);
  const shared = new Float64Array(GRID).fill(groups.length > 1 ? Infinity : 0);
  if (groups.length > 1)
    for (const row of together)
      for (const values of row)
        for (let m = 0; m < GRID; m++) shared[m] = Math.min(shared[m]!, Math.max(0, values[m]!));
  return groups.map(({ middle }, g) => {
    const half = together[g]![g]!.map(
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

/** Covariance of log torque between groups g and h ≤ g, by speed. */
function covariances(groups: GroupCurves['groups']): Float64Array[][] {
  const sums = groups.map((_, g) => Array.from({ length: g + 1 }, () => new Float64Array(GRID)));
  const off = groups.map(() => new Float64Array(GRID));
  for (let i = 0; i < DRAWS; i++) {
    for (let g = 0; g < groups.length; g++) {
      const { shape, shift, middle } = groups[g]!;
      const own = off[g]!;
      for (let m = 0; m < GRID; m++) own[m] = shape.draws[i * GRID + m]! + shift[i]! - middle[m]!;
      for (let h = 0; h <= g; h++) {
        const sum = sums[g]![h]!;
        const other = off[h]!;
        for (let m = 0; m < GRID; m++) sum[m]! += (own[m]! * other[m]!) / DRAWS;
      }
    }
  }
  return sums;
}

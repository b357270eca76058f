import type { GroupCurves } from './curves.ts';
import type { GroupCurve } from './types.ts';

/** Two-sided 95 % of a normal law. */
const HALF_WIDTHS = 1.96;

/**
 * The groups' mean curves with their own 95 % bands by speed, by group.
 *
 * What moves all groups alike (the offset of a day that they share) is left out, else two curves that are well told
 * apart would be drawn as one smear: of the draws' variances at a speed the least covariance of any two groups is
 * taken off. Of two groups the squares of the bands' half-widths then add up to that of their difference.
 * A band is for the eye at one speed; whether two groups can be told apart is decided by the pair's simultaneous band.
 */
export function ownBands(curves: GroupCurves): GroupCurve[] {
  const off = curves.draws.map((draw) =>
    draw.map((curve, g) => curve.map((value, m) => value - curves.middle[g]![m]!)),
  );
  const together = (g: number, h: number, m: number) =>
    off.reduce((sum, draw) => sum + draw[g]![m]! * draw[h]![m]!, 0) / off.length;
  const groups = curves.middle.length;
  const shared = curves.speedRpm.map((_, m) => {
    let least = Infinity;
    for (let g = 0; g < groups; g++)
      for (let h = 0; h <= g; h++) least = Math.min(least, together(g, h, m));
    return Math.max(0, least);
  });
  return curves.middle.map((middle, g) => {
    const half = Array.from(
      middle,
      (_, m) => HALF_WIDTHS * Math.sqrt(Math.max(0, together(g, g, m) - shared[m]!)),
    );
    return {
      speedRpm: curves.speedRpm,
      torqueNm: Array.from(middle, Math.exp),
      lowNm: Array.from(middle, (value, m) => Math.exp(value - half[m]!)),
      highNm: Array.from(middle, (value, m) => Math.exp(value + half[m]!)),
    };
  });
}

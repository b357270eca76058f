import { GRID, propagate, SEGMENTS, splineOperator } from '../../demo/curve-day.ts';
import type { LadderPull } from '../../src/ladder/types.ts';
import type { SplineFit } from '../../src/numerics/spline.ts';

/** What nobody saw of a pull that has a curve. */
export const UNSEEN: Omit<LadderPull, 'id' | 'setting' | 'order' | 'torque'> = {
  peakPowerW: null,
  peakTorqueNm: null,
  excludedBecause: null,
  watched: 'not',
  knockHeard: false,
  aborted: false,
  knock: null,
  airTemperatureK: null,
  configuration: null,
};

/** Curves of a cell by least squares through torque on an even grid of speeds, with white noise of one size. */
export function curvesOver(fromRpm: number, toRpm: number, whiteNm: number) {
  const operator = splineOperator(SEGMENTS, GRID);
  const variance = new Float64Array(GRID * GRID);
  for (let g = 0; g < GRID; g++) variance[g * GRID + g] = whiteNm ** 2;
  const covariance = propagate(operator, variance);
  return (observedNm: ArrayLike<number>): SplineFit => ({
    low: fromRpm,
    high: toRpm,
    segments: SEGMENTS,
    coefficients: Array.from({ length: SEGMENTS + 3 }, (_, j) => {
      let sum = 0;
      for (let g = 0; g < GRID; g++) sum += operator[j * GRID + g]! * observedNm[g]!;
      return sum;
    }),
    covariance,
  });
}

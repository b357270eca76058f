import { factorInPlace, inverseFromFactor, solveFactored } from './cholesky.ts';
import { checkSeries, penalised, withoutParabola } from './penalised.ts';
import { type PenaltyOrder, penaltyMatrix } from './penalty.ts';
import { coefficientCount, type KnotGrid, type SplineCurve } from './spline.ts';
import { designOf, type Series, whiten } from './wander.ts';

/**
 * Of a series, for any weights of its points: the penalised spline of the least of these smoothnesses that bends with
 * `mostDof` parameters or fewer, its noise taken for white; the stiffest where none does. To the last bit the curve that
 * `fitPenalisedSpline` gives for that smoothness alone, without its covariance: what changes neither with smoothness nor
 * with weights is made once.
 * @param smoothness  rising; as in FitPriors
 * @throws InputError as fitPenalisedSpline
 */
export function stiffCurvesOf(
  grid: KnotGrid,
  series: Omit<Series, 'weight'>,
  order: PenaltyOrder,
  smoothness: readonly number[],
  mostDof: number,
): (weight: Float64Array) => SplineCurve {
  const size = coefficientCount(grid);
  const penalty = penaltyMatrix(grid, order);
  const work = new Float64Array(size * size);
  const inverse = new Float64Array(size * size);
  let design: ReturnType<typeof designOf> | null = null;
  return (weight) => {
    const weighed = { ...series, weight };
    checkSeries(weighed, order);
    design ??= designOf(grid, series.x);
    const { remainder, parabola } = withoutParabola(grid, weighed, order);
    const products = whiten(grid, design, { ...weighed, y: remainder }, WHITE);
    const { band, gram, right } = products;
    const factor = (index: number) =>
      factorInPlace(penalised(products, penalty, size, smoothness[index]!, work), size, band);
    const effectiveDof = (index: number): number => {
      factor(index);
      inverseFromFactor(work, size, inverse, band);
      let trace = 0;
      for (let i = 0; i < size; i++) {
        for (let at = i * size + Math.max(0, i - band); at < i * size + i; at++)
          trace += 2 * inverse[at]! * gram[at]!;
        trace += inverse[i * size + i]! * gram[i * size + i]!;
      }
      return trace;
    };
    let [low, high] = [0, smoothness.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (effectiveDof(middle) > mostDof) low = middle + 1;
      else high = middle;
    }
    factor(low);
    const bent = solveFactored(work, size, right, band);
    return { ...grid, coefficients: Array.from(bent, (value, i) => value + parabola[i]!) };
  };
}

const WHITE = { share: 0, memory: 1 } as const;

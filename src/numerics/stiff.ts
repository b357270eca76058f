import { factorInPlace, inverseFromFactor, solveFactored } from './cholesky.ts';
import { checkSeries, penalised, withoutParabola } from './penalised.ts';
import { type PenaltyOrder, penaltyMatrix } from './penalty.ts';
import { coefficientCount, type KnotGrid, type SplineCurve } from './spline.ts';
import { designOf, type Series, whiten } from './wander.ts';

/**
 * The penalised spline of the least of these smoothnesses that bends with `mostDof` parameters or fewer, its noise taken
 * for white; the stiffest where none does. To the last bit the curve that `fitPenalisedSpline` gives for that smoothness
 * alone, without its covariance: what does not change with smoothness is made once.
 * @param smoothness  rising; as in FitPriors
 * @throws InputError as fitPenalisedSpline
 */
export function stiffCurve(
  grid: KnotGrid,
  series: Series,
  order: PenaltyOrder,
  smoothness: readonly number[],
  mostDof: number,
): SplineCurve {
  checkSeries(series, order);
  const size = coefficientCount(grid);
  const penalty = penaltyMatrix(grid, order);
  const { remainder, parabola } = withoutParabola(grid, series, order);
  const noise = { share: 0, memory: 1 };
  const flat = { ...series, y: remainder };
  const products = whiten(grid, designOf(grid, series.x), flat, noise);
  const { band, gram, right } = products;
  const work = new Float64Array(size * size);
  const inverse = new Float64Array(size * size);
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
}

import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { fitComponents, sumsOf } from './component.ts';

const V = [-5, -3, -1, 1, 3, 5];
const WIDE = [10, 10, 10] as const;

/** Pulls of a known (a, β, q) with wander of one sd. */
function pulls(truth: readonly number[], sd: number, seed: number): number[] {
  const next = gaussian(seed);
  return V.map((v) => truth[0]! + truth[1]! * v + truth[2]! * v * v + sd * next());
}

describe('components over speed', () => {
  it('are weighted least squares where the curves are far noisier than any wander (independent: ml-matrix)', () => {
    const c = [0.3, -0.1, 0.2, 0.4, 0.1, 0.9];
    const variance = [1, 2, 1, 0.5, 1, 3];
    const [fit] = fitComponents(sumsOf(V, [{ c, variance, wanderMedian: 1e-6 }]), [
      [1e3, 1e3, 1e3],
    ]);
    const x = new Matrix(V.map((v) => [1, v, v * v]));
    const w = Matrix.diag(variance.map((value) => 1 / value));
    const covariance = inverse(x.transpose().mmul(w).mmul(x));
    const mean = covariance.mmul(x.transpose()).mmul(w).mmul(Matrix.columnVector(c)).to1DArray();
    fit!.mean.forEach((value, i) => {
      expect(value).toBeCloseTo(mean[i]!, 4);
    });
    const [l11, l21, l22, l31, l32, l33] = fit!.factor;
    const factor = new Matrix([
      [l11, 0, 0],
      [l21, l22, 0],
      [l31, l32, l33],
    ]);
    const product = factor.mmul(factor.transpose());
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) expect(product.get(i, j)).toBeCloseTo(covariance.get(i, j), 4);
    }
  });

  it('tell the wander of one cell together: a quiet component among unquiet ones is trusted less', () => {
    const truth = [0, 1e-3, 0];
    const quiet = { c: pulls(truth, 2e-4, 1), variance: V.map(() => 1e-8), wanderMedian: 2e-3 };
    const unquiet = [2, 3, 4, 5].map((seed) => ({
      c: pulls(truth, 8e-3, seed),
      variance: V.map(() => 1e-8),
      wanderMedian: 2e-3,
    }));
    const slopeSd = (components: readonly (typeof quiet)[]) => {
      const [fit] = fitComponents(
        sumsOf(V, components),
        components.map(() => WIDE),
      );
      return Math.hypot(fit!.factor[1], fit!.factor[2]);
    };
    expect(slopeSd([quiet, ...unquiet])).toBeGreaterThan(1.3 * slopeSd([quiet]));
  });
});

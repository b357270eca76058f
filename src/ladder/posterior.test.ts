import { Matrix, pseudoInverse } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { formOf, type ResponsePoint } from './form.ts';
import { SPARK_LEAD } from './kinds.ts';
import { gridPosterior } from './posterior.ts';
import { priorsFor } from './priors.ts';
import { SHAPES } from './shape.ts';

const POINTS: readonly ResponsePoint[] = [
  { u: 24, order: 0, y: 0.981, ySd: 0.001 },
  { u: 26, order: 1, y: 0.996, ySd: 0.002 },
  { u: 30, order: 3, y: 1.012, ySd: 0.001 },
  { u: 28, order: 4, y: 1.007, ySd: 0.0015 },
  { u: 26, order: 6, y: 0.993, ySd: 0.001 },
];

describe('the elimination of level and drift', () => {
  // Identity: the same marginal likelihood by dense matrices, as a textbook writes generalised least squares.
  const [middle, orderMiddle, sigma, driftSd] = [27, 3, 0.004, 0.0012];
  const form = formOf(POINTS, middle, orderMiddle, sigma, driftSd, -1);
  const tau = POINTS.map((p) => p.order - orderMiddle);
  const cov = new Matrix(
    POINTS.map((p, i) =>
      POINTS.map(
        (_, j) => (i === j ? sigma ** 2 + p.ySd ** 2 : 0) + driftSd ** 2 * tau[i]! * tau[j]!,
      ),
    ),
  );
  const w = pseudoInverse(cov);
  const one = Matrix.columnVector(POINTS.map(() => 1));
  const ones = one.transpose().mmul(w).mmul(one).get(0, 0);
  const columns = new Matrix(
    POINTS.map((p) => [p.y, p.u - middle, (p.u - middle) ** 2, (p.u - middle) ** 3]),
  );
  const level = one.transpose().mmul(w).mmul(columns).div(ones);
  const a = Matrix.sub(w, w.mmul(one).mmul(one.transpose()).mmul(w).div(ones));

  it('gives the quadratic form of dense generalised least squares', () => {
    const g = columns.transpose().mmul(a).mmul(columns);
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        const scale = Math.sqrt(g.get(i, i) * g.get(j, j));
        expect(Math.abs(form.g[4 * i + j]! - g.get(i, j)) / scale).toBeLessThan(1e-9);
      }
      expect(form.level[i]).toBeCloseTo(level.get(0, i), 9);
    }
    expect(form.levelSd).toBeCloseTo(Math.sqrt(1 / ones), 12);
  });

  it('gives its determinant', () => {
    const logDet = Math.log(
      // Sylvester: |Λ⁻¹ + D²ττᵀ|, here by the product of eigenvalues through LU of ml-matrix.
      [...Array(POINTS.length).keys()].reduce((product, i) => product * pivots(cov)[i]!, 1),
    );
    expect(form.constant).toBeCloseTo(-0.5 * (logDet + Math.log(ones)), 9);
  });

  it.each(Object.values(SHAPES))(
    'expands the loss into columns of the setting ($name)',
    (shape) => {
      for (const c of [0.011, -0.004, 1e-7]) {
        const [k, b] = [8e-4, 3.2];
        for (const v of [-6, -1, 0, 2.5, 7]) {
          const columns = shape.columns(v, c);
          const sum = shape
            .factors(k, b, c)
            .reduce((total, factor, i) => total + factor * columns[i]!, shape.constant(k, b, c));
          expect(sum).toBeCloseTo(shape.loss(v - b, k, c), 12);
          const step = 1e-5;
          const slope =
            (shape.loss(v - b + step, k, c) - shape.loss(v - b - step, k, c)) / (2 * step);
          expect(shape.slope(v - b, k, c)).toBeCloseTo(slope, 9);
        }
      }
    },
  );
});

/** Pivots of Gaussian elimination: their product is the determinant. */
function pivots(matrix: Matrix): number[] {
  const m = matrix.to2DArray();
  return m.map((row, i) => {
    for (let r = i + 1; r < m.length; r++) {
      const factor = m[r]![i]! / row[i]!;
      for (let c = i; c < m.length; c++) m[r]![c]! -= factor * row[c]!;
    }
    return row[i]!;
  });
}

describe('the posterior of the best', () => {
  const priors = priorsFor(SPARK_LEAD, 24, 30, 0.2);
  const exact = (best: number, k: number, c: number) =>
    [22, 24, 26, 28, 30, 32, 34].map((u, order) => ({
      u,
      order,
      y: 1 - SHAPES.cubic.loss(u - best, k, c),
      ySd: 0.0005,
    }));

  it('is the prior where there are no pulls', () => {
    const posterior = gridPosterior([], priors);
    expect(posterior.bestQuantile(0.5)).toBeCloseTo(priors.best[0], 0);
    expect(posterior.chanceBestBelow(priors.best[0])).toBeCloseTo(0.5, 1);
    // 97.5 % of Student's t with 10 degrees of freedom: 2.228 (any table).
    expect(posterior.bestQuantile(0.975)).toBeCloseTo(priors.best[0] + 2.228 * priors.best[1], 0);
  });

  it('finds an exact response, flat or steep', () => {
    for (const [best, k, c] of [
      [28.3, 1.5e-3, 0.012],
      [29.6, 6e-4, 0.004],
      [27.1, 1e-3, -0.004],
    ] as const) {
      const posterior = gridPosterior(exact(best, k, c), priorsFor(SPARK_LEAD, 22, 34, 0.2));
      expect(Math.abs(posterior.bestQuantile(0.5) - best)).toBeLessThan(0.35);
      expect(posterior.bestQuantile(0.025)).toBeLessThan(best);
      expect(posterior.bestQuantile(0.975)).toBeGreaterThan(best);
    }
  });

  it('moves with the settings and does not care about the scale of power', () => {
    const base = gridPosterior(POINTS, priorsFor(SPARK_LEAD, 24, 30, null));
    const moved = gridPosterior(
      POINTS.map((p) => ({ ...p, u: p.u + 7.5 })),
      priorsFor(SPARK_LEAD, 31.5, 37.5, null),
    );
    for (const p of [0.025, 0.5, 0.975]) {
      expect(moved.bestQuantile(p) - base.bestQuantile(p)).toBeCloseTo(7.5, 6);
    }
  });

  it('says the same by its quantiles, its chances and its draws', () => {
    const posterior = gridPosterior(POINTS, priorsFor(SPARK_LEAD, 24, 30, null));
    for (const p of [0.1, 0.3, 0.5, 0.7, 0.9]) {
      const u = posterior.bestQuantile(p);
      expect(posterior.chanceBestBelow(u)).toBeCloseTo(p, 6);
      const below = posterior.draws.best.filter((best) => best < u).length;
      expect(Math.abs(below / posterior.draws.count - p)).toBeLessThan(0.03);
    }
  });

  it('widens with the cell and with drift that no repeat has told', () => {
    const width = (points: readonly ResponsePoint[], percent: number) => {
      const posterior = gridPosterior(points, priorsFor(SPARK_LEAD, 22, 34, percent));
      return posterior.bestQuantile(0.975) - posterior.bestQuantile(0.025);
    };
    const climb = exact(28, 8e-4, 0.01);
    expect(width(climb, 0.5)).toBeGreaterThan(width(climb, 0.2));
    const repeated = [...climb, { ...climb[1]!, order: 7 }, { ...climb[2]!, order: 8 }];
    const fourMore = [...climb, { ...climb[5]!, order: 7 }, { ...climb[6]!, order: 8 }];
    expect(width(repeated, 0.2)).toBeLessThan(width(fourMore, 0.2));
  });

  it('points at the one pull that is far off', () => {
    const points = exact(28, 8e-4, 0.01).map((p, i) => (i === 2 ? { ...p, y: p.y * 0.96 } : p));
    const { strayChance } = gridPosterior(points, priorsFor(SPARK_LEAD, 22, 34, null));
    expect(strayChance[2]).toBeGreaterThan(0.9);
    expect(Math.max(...strayChance.filter((_, i) => i !== 2))).toBeLessThan(0.05);
  });
});

import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { coefficientCount, valueFunctional } from './spline.ts';
import { designOf, whiten } from './wander.ts';

const grid = { low: 0, high: 10, segments: 7 };
const x = [9.5, 9.1, 8.8, 7.2, 6.9, 5.5, 5.1, 4.4, 3.1, 2.2, 1.9, 0.4, 0.1];
const time = [0, 0.1, 0.15, 0.5, 0.6, 0.7, 1.4, 1.5, 1.6, 1.9, 2, 2.1, 2.5];
const y = [3, 4, 2, 5, 6, 4, 7, 8, 6, 9, 8, 7, 9];
const weight = [1, 1, 0.5, 1, 0, 1, 1, 2, 1, 1, 0, 0, 1];

describe('whitening by the innovations of a filter', () => {
  it.each([
    { share: 0, memory: 1 },
    { share: 0.7, memory: 0.3 },
    { share: 50, memory: 2 },
  ])('gives what the dense matrix gives, uneven times, weights and all: %o', (noise) => {
    const kept = x.map((_, i) => i).filter((i) => weight[i]! > 0);
    const design = new Matrix(kept.map((i) => Array.from(valueFunctional(grid, x[i]!))));
    const ordinate = Matrix.columnVector(kept.map((i) => y[i]!));
    const covariance = new Matrix(
      kept.map((i) =>
        kept.map(
          (j) =>
            noise.share * Math.exp(-Math.abs(time[i]! - time[j]!) / noise.memory) +
            (i === j ? 1 / weight[i]! : 0),
        ),
      ),
    );
    const solved = solve(covariance, design);
    const gram = design.transpose().mmul(solved).to1DArray();
    const right = solved.transpose().mmul(ordinate).to1DArray();
    const square = ordinate.transpose().mmul(solve(covariance, ordinate)).get(0, 0);

    const products = whiten(grid, designOf(grid, x), { time, x, y, weight }, noise);
    expect(products.count).toBe(kept.length);
    expect(products.square).toBeCloseTo(square, 9);
    expect(products.right.length).toBe(coefficientCount(grid));
    right.forEach((value, i) => {
      expect(products.right[i]).toBeCloseTo(value, 7);
    });
    gram.forEach((value, i) => {
      expect(products.gram[i]).toBeCloseTo(value, 7);
    });
  });
});

import { coefficientCount, type KnotGrid } from './spline.ts';

/** Which derivative of the curve the penalty squares and integrates. */
export type PenaltyOrder = 2 | 3;

/**
 * The matrix P with aᵀPa = ∫ S⁽ᵐ⁾(u)² du for a cubic B-spline S with coefficients a, m = 2 or 3, where u
 * counts knot intervals (so that P is the same on every grid); row-major, square, band of 3 to each side.
 *
 * On equal knots S‴ is constant in each interval and equals the third difference of the coefficients, so for
 * m = 3 the integral is exactly the sum of squared third differences. S″ is linear between the second
 * differences d₀ … d_s, so for m = 2 it is Σ (d_i² + d_i d_{i+1} + d_{i+1}²)/3. No polynomial below degree m
 * is penalised.
 * @source derived above; the case m = 2 is checked against R's smooth.spline in reference/spline.test.ts
 */
export function penaltyMatrix(grid: KnotGrid, order: PenaltyOrder): Float64Array {
  const count = coefficientCount(grid);
  const matrix = new Float64Array(count * count);
  const stencil = order === 2 ? [1, -2, 1] : [-1, 3, -3, 1];
  const differences = count - order;
  const add = (rowOne: number, rowTwo: number, weight: number) => {
    for (let i = 0; i <= order; i++) {
      for (let j = 0; j <= order; j++) {
        matrix[(rowOne + i) * count + rowTwo + j]! += weight * stencil[i]! * stencil[j]!;
      }
    }
  };
  if (order === 3) {
    for (let d = 0; d < differences; d++) add(d, d, 1);
    return matrix;
  }
  for (let d = 0; d + 1 < differences; d++) {
    add(d, d, 1 / 3);
    add(d + 1, d + 1, 1 / 3);
    add(d, d + 1, 1 / 6);
    add(d + 1, d, 1 / 6);
  }
  return matrix;
}

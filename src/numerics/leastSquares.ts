import { Matrix, QrDecomposition } from 'ml-matrix';
import { InputError } from '../errors.ts';

interface LeastSquares {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  readonly residualSd: number;
  /** 1 − residual sum / sum about the mean (about zero where the model has no constant column). */
  readonly rSquared: number;
}

/**
 * Ordinary least squares y ≈ Xb by QR, with the standard errors of b. Columns are scaled to unit length first
 * and the solution is refined once on its residual; both help badly scaled polynomials. Rows of X are
 * observations.
 *
 * @source Householder QR of ml-matrix; refinement as in Å. Björck, Numerical Methods for Least Squares
 *   Problems, §2.9 [from memory]; NIST StRD certified regressions in reference/nist.test.ts
 * @throws InputError when rows are fewer than columns, sizes differ, or the columns depend on each other
 */
export function leastSquares(
  x: readonly (readonly number[])[],
  y: readonly number[],
): LeastSquares {
  const rows = x.length;
  const columns = x[0]?.length ?? 0;
  if (rows !== y.length || columns === 0 || x.some((row) => row.length !== columns)) {
    throw new InputError('The table of a regression must have one row for each value.');
  }
  if (rows < columns) {
    throw new InputError(
      `A regression on ${columns} columns needs as many rows; there are ${rows}.`,
    );
  }
  const scales = Array.from({ length: columns }, (_, j) => Math.hypot(...x.map((row) => row[j]!)));
  if (scales.some((scale) => !(scale > 0))) {
    throw new InputError('A column of a regression is all zero or not a number.');
  }
  const scaled = new Matrix(x.map((row) => row.map((value, j) => value / scales[j]!)));
  const qr = new QrDecomposition(scaled);
  const diagonal = qr.upperTriangularMatrix.diagonal().map(Math.abs);
  // Unit columns: a diagonal at rounding's size is a column that the others already span.
  if (Math.min(...diagonal) < Number.EPSILON * rows)
    throw new InputError('The columns of a regression depend on each other.');
  const target = Matrix.columnVector(y as number[]);
  const solution = qr.solve(target);
  const firstResidual = Matrix.sub(target, scaled.mmul(solution));
  solution.add(qr.solve(firstResidual));
  const residual = Matrix.sub(target, scaled.mmul(solution)).to1DArray();
  const sumOfSquares = residual.reduce((sum, r) => sum + r * r, 0);
  const variance = rows > columns ? sumOfSquares / (rows - columns) : 0;
  const upper = qr.upperTriangularMatrix;
  const inverse = new QrDecomposition(upper).solve(Matrix.eye(columns));
  const hasConstant = scales.some((_, j) => x.every((row) => row[j] === x[0]![j]));
  const mean = hasConstant ? y.reduce((sum, value) => sum + value, 0) / rows : 0;
  const about = y.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    coefficients: scales.map((scale, j) => solution.get(j, 0) / scale),
    standardErrors: scales.map(
      (scale, j) => (Math.sqrt(variance) * Math.hypot(...inverse.getRow(j))) / scale,
    ),
    residualSd: Math.sqrt(variance),
    rSquared: 1 - sumOfSquares / about,
  };
}

import { NonPhysicalError } from '../errors.ts';

/**
 * Cholesky factor L of a symmetric positive definite matrix A = L·Lᵀ, where nothing stands farther than `band`
 * from the diagonal (band = size − 1: a full matrix). Row-major, written over the lower half of `matrix`.
 * Returns ln|A|.
 *
 * ml-matrix has no banded factor and allocates per call; the curve's criterion takes some hundreds of these.
 * @throws NonPhysicalError when A is not positive definite
 */
export function factorInPlace(matrix: Float64Array, size: number, band = size - 1): number {
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) {
    const start = Math.max(0, i - band);
    for (let j = start; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = Math.max(start, j - band); k < j; k++) {
        sum -= matrix[i * size + k]! * matrix[j * size + k]!;
      }
      if (j < i) {
        matrix[i * size + j] = sum / matrix[j * size + j]!;
      } else {
        if (!(sum > 0)) {
          throw new NonPhysicalError(
            'The points do not determine the curve: a matrix is singular.',
          );
        }
        matrix[i * size + i] = Math.sqrt(sum);
        logDeterminant += Math.log(sum);
      }
    }
  }
  return logDeterminant;
}

/** Solves L·z = b in place. */
function solveLower(
  factor: Float64Array,
  size: number,
  b: Float64Array,
  band = size - 1,
): Float64Array {
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = Math.max(0, i - band); k < i; k++) sum -= factor[i * size + k]! * b[k]!;
    b[i] = sum / factor[i * size + i]!;
  }
  return b;
}

/** Solves Lᵀ·x = z in place. */
function solveUpper(
  factor: Float64Array,
  size: number,
  z: Float64Array,
  band = size - 1,
): Float64Array {
  for (let i = size - 1; i >= 0; i--) {
    let sum = z[i]!;
    for (let k = Math.min(size - 1, i + band); k > i; k--) sum -= factor[k * size + i]! * z[k]!;
    z[i] = sum / factor[i * size + i]!;
  }
  return z;
}

/** Solves A·x = b, A = L·Lᵀ, in a new vector. */
export function solveFactored(
  factor: Float64Array,
  size: number,
  b: ArrayLike<number>,
  band = size - 1,
): Float64Array {
  const x = new Float64Array(b);
  return solveUpper(factor, size, solveLower(factor, size, x, band), band);
}

/**
 * Lower half of A⁻¹ from its factor, row-major, written to `inverse`; what stands above the diagonal is left
 * as it was.
 */
export function inverseFromFactor(
  factor: Float64Array,
  size: number,
  inverse: Float64Array,
  band = size - 1,
): Float64Array {
  const column = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    // L·z = e_j has nothing above j, and only what stands at j and below is wanted of Lᵀ·x = z.
    for (let i = j; i < size; i++) {
      let sum = i === j ? 1 : 0;
      for (let k = Math.max(i - band, j); k < i; k++) sum -= factor[i * size + k]! * column[k]!;
      column[i] = sum / factor[i * size + i]!;
    }
    for (let i = size - 1; i >= j; i--) {
      let sum = column[i]!;
      for (let k = i + band < size ? i + band : size - 1; k > i; k--) {
        sum -= factor[k * size + i]! * column[k]!;
      }
      column[i] = sum / factor[i * size + i]!;
      inverse[i * size + j] = column[i]!;
    }
  }
  return inverse;
}

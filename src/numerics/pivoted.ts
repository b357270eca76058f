/**
 * Columns f_k with A ≈ Σ f_k f_kᵀ for a symmetric A that may be singular (Cholesky with the largest remaining variance
 * first). Ends when what is left of the diagonal is at most `leave` of it: a covariance of a smooth curve at many
 * places takes few columns.
 * @param matrix  row-major, lower half read; left as it was
 * @source  N. J. Higham, Accuracy and Stability of Numerical Algorithms, ch. 10 (from memory)
 */
export function pivotedFactor(matrix: Float64Array, size: number, leave: number): Float64Array[] {
  const left = Float64Array.from({ length: size }, (_, i) => Math.max(0, matrix[i * size + i]!));
  const sum = () => left.reduce((total, value) => total + value, 0);
  const enough = leave * sum();
  const columns: Float64Array[] = [];
  while (columns.length < size && sum() > enough) {
    let pivot = 0;
    for (let i = 1; i < size; i++) if (left[i]! > left[pivot]!) pivot = i;
    const root = Math.sqrt(left[pivot]!);
    const column = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      let value = i >= pivot ? matrix[i * size + pivot]! : matrix[pivot * size + i]!;
      for (const before of columns) value -= before[i]! * before[pivot]!;
      column[i] = value / root;
      left[i] = Math.max(0, left[i]! - column[i]! ** 2);
    }
    left[pivot] = 0;
    columns.push(column);
  }
  return columns;
}

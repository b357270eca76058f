import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { factorInPlace } from './cholesky.ts';
import type { SplineFit } from './spline.ts';

/** Tables made last, since every pull of a day asks for the same ones. */
const tables = new Map<string, readonly Float64Array[]>();
const MOST_TABLES = 8;

/**
 * Standard Gaussian numbers for integrals over a posterior: always the same ones (a fixed 32-bit generator,
 * Box–Muller), so that the same recording gives the same digits. Rows come in pairs of opposite sign, which
 * makes means exact. The table is shared: nobody writes to it.
 */
export function gaussianTable(
  rows: number,
  columns: number,
  seed = 0x5eed,
): readonly Readonly<Float64Array>[] {
  const key = `${rows} ${columns} ${seed}`;
  const known = tables.get(key);
  if (known !== undefined) return known;
  const table = freshTable(rows, columns, seed);
  if (tables.size >= MOST_TABLES) tables.delete(tables.keys().next().value!);
  tables.set(key, table);
  return table;
}

function freshTable(rows: number, columns: number, seed: number): readonly Float64Array[] {
  const uniform = xorshift(seed);
  const table: Float64Array[] = [];
  while (table.length < rows) {
    const row = new Float64Array(columns);
    for (let j = 0; j < columns; j++) {
      row[j] = Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    }
    table.push(
      row,
      row.map((value) => -value),
    );
  }
  return table;
}

/** Numbers between 0 and 1: G. Marsaglia's xorshift, 32 bits (13, 17, 5). */
function xorshift(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 4294967296;
  };
}

/**
 * Standard Gaussian numbers for quantiles under a posterior, row-major and always the same ones. Each column is the
 * same evenly likely numbers in an order of its own (a Latin hypercube), so that what depends on one column only is
 * as exact as the number of rows allows, and a sum of columns nearly so.
 * @source  M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21 (1979) 239 (from memory)
 */
export function stratifiedNormals(rows: number, columns: number, seed = 0x5eed): Float64Array {
  const uniform = xorshift(seed);
  const places = Float64Array.from({ length: rows }, (_, i) =>
    normalQuantile((i + 0.5) / rows, 0, 1),
  );
  const table = new Float64Array(rows * columns);
  for (let j = 0; j < columns; j++) {
    for (let i = rows - 1; i > 0; i--) {
      const k = Math.floor(uniform() * (i + 1));
      const kept = places[i]!;
      places[i] = places[k]!;
      places[k] = kept;
    }
    for (let i = 0; i < rows; i++) table[i * columns + j] = places[i]!;
  }
  return table;
}

/** Coefficients of `rows` curves drawn from the posterior of a fit. */
export function drawCurves(fit: SplineFit, rows: number): Float64Array[] {
  const size = fit.coefficients.length;
  const factor = Float64Array.from(fit.covariance);
  let trace = 0;
  for (let i = 0; i < size; i++) trace += factor[i * size + i]!;
  // The mixture's covariance may be singular to rounding; this much on the diagonal is far below any band.
  for (let i = 0; i < size; i++) factor[i * size + i]! += 1e-9 * (trace / size) + 1e-300;
  factorInPlace(factor, size);
  return gaussianTable(rows, size).map((z) => {
    const curve = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      let sum = fit.coefficients[i]!;
      for (let k = 0; k <= i; k++) sum += factor[i * size + k]! * z[k]!;
      curve[i] = sum;
    }
    return curve;
  });
}

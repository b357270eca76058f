import { describe, expect, it } from 'vitest';
import { stratifiedNormals } from './draws.ts';
import { pivotedFactor } from './pivoted.ts';

const SIZE = 30;
/** A smooth covariance of many places: of full rank on paper, of few columns in fact. */
const smooth = Float64Array.from({ length: SIZE * SIZE }, (_, at) => {
  const apart = (Math.floor(at / SIZE) - (at % SIZE)) / 12;
  return Math.exp(-0.5 * apart * apart);
});

describe('a factor by the largest variance first', () => {
  it('gives the covariance back within what it may leave, with few columns (identity)', () => {
    const columns = pivotedFactor(smooth, SIZE, 1e-3);
    expect(columns.length).toBeLessThan(12);
    let left = 0;
    for (let i = 0; i < SIZE; i++)
      for (let j = 0; j <= i; j++) {
        const value = columns.reduce((sum, column) => sum + column[i]! * column[j]!, 0);
        // What is left is positive semidefinite, so nothing of it is larger than its trace.
        expect(Math.abs(value - smooth[i * SIZE + j]!)).toBeLessThanOrEqual(1e-3 * SIZE);
        if (i === j) left += smooth[i * SIZE + i]! - value;
      }
    expect(left).toBeLessThanOrEqual(1e-3 * SIZE);
  });

  it('is exact where asked, and takes a singular matrix (identity)', () => {
    const rankOne = Float64Array.from({ length: 9 }, (_, at) => {
      const v = [1, -2, 3];
      return v[Math.floor(at / 3)]! * v[at % 3]!;
    });
    const columns = pivotedFactor(rankOne, 3, 1e-12);
    expect(columns).toHaveLength(1);
    expect(Array.from(columns[0]!, Math.abs)).toEqual([1, 2, 3]);
    expect(pivotedFactor(new Float64Array(9), 3, 0)).toHaveLength(0);
  });
});

describe('stratified normals', () => {
  it('have the same evenly likely numbers in every column, in orders that hang together by chance only', () => {
    const [rows, columns] = [400, 6];
    const table = stratifiedNormals(rows, columns);
    const column = (j: number) => Array.from({ length: rows }, (_, i) => table[i * columns + j]!);
    const sorted = column(0).sort((a, b) => a - b);
    for (let j = 1; j < columns; j++) {
      expect(column(j).sort((a, b) => a - b)).toEqual(sorted);
      const together = column(j).reduce((sum, value, i) => sum + value * column(0)[i]!, 0) / rows;
      // The correlation of independent columns has an sd of 1/√400.
      expect(Math.abs(together)).toBeLessThan(4 / Math.sqrt(rows));
    }
    expect(sorted[0]).toBeCloseTo(-3.0233, 3);
    expect(stratifiedNormals(rows, columns)).toEqual(table);
  });
});

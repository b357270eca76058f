import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { leastSquares } from './leastSquares.ts';

describe('least squares', () => {
  it('finds a line through points that lie on it', () => {
    const fit = leastSquares(
      [1, 2, 3, 4].map((x) => [1, x]),
      [5, 7, 9, 11],
    );
    expect(fit.coefficients[0]).toBeCloseTo(3, 12);
    expect(fit.coefficients[1]).toBeCloseTo(2, 12);
    expect(fit.rSquared).toBeCloseTo(1, 12);
  });

  it('refuses what does not determine the answer', () => {
    expect(() => leastSquares([[1, 2]], [3])).toThrow(InputError);
    expect(() => leastSquares([[1], [2]], [3])).toThrow(InputError);
    expect(() => leastSquares([[0], [0]], [3, 4])).toThrow(InputError);
    const dependent = [1, 2, 3].map((value) => [value, 2 * value]);
    expect(() => leastSquares(dependent, [1, 2, 3])).toThrow(InputError);
  });
});

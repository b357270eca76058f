import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import {
  basisAt,
  coefficientCount,
  evaluateSpline,
  functionalCovariance,
  functionalValue,
  meanFunctional,
  type SplineFit,
  splineDerivative,
  splineSd,
  valueFunctional,
} from './spline.ts';

const grid = { low: 2000, high: 7000, segments: 9 };
const count = coefficientCount(grid);

/** Coefficients of x^power on equal knots: the symmetric means of Marsden's identity. */
function monomial(power: 0 | 1 | 2 | 3): SplineFit {
  const step = (grid.high - grid.low) / grid.segments;
  const coefficients = Array.from({ length: count }, (_, i) => {
    const [a, b, c] = [i - 2, i - 1, i].map((k) => grid.low + k * step) as [number, number, number];
    return [1, (a + b + c) / 3, (a * b + b * c + a * c) / 3, a * b * c][power]!;
  });
  const covariance = Array.from({ length: count * count }, (_, i) =>
    i % (count + 1) === 0 ? 4 : 0,
  );
  return { ...grid, coefficients, covariance };
}

describe('the cubic B-spline on equal knots', () => {
  it('reproduces every cubic exactly, with its derivatives (Marsden)', () => {
    for (const power of [0, 1, 2, 3] as const) {
      const fit = monomial(power);
      for (let x = grid.low; x <= grid.high; x += 61) {
        expect(evaluateSpline(fit, x) / x ** power).toBeCloseTo(1, 12);
        expect(splineDerivative(fit, x)).toBeCloseTo(power * x ** (power - 1), 4);
        const second = power * (power - 1) * x ** (power - 2);
        expect(splineDerivative(fit, x, 2)).toBeCloseTo(second, 6);
      }
    }
  });

  it('takes the mean over a band exactly', () => {
    const from = 2345;
    const to = 6789;
    for (const spline of [0, 1, 2, 3] as const) {
      for (const power of [0, 1, 2]) {
        const degree = spline + power + 1;
        const exact = (to ** degree - from ** degree) / degree / (to - from);
        const mean = functionalValue(monomial(spline), meanFunctional(grid, from, to, power));
        expect(mean / exact).toBeCloseTo(1, 12);
      }
    }
  });

  it('gives the variance of functionals', () => {
    const fit = monomial(2);
    const row = valueFunctional(grid, 3210);
    const sumOfSquares = row.reduce((sum, value) => sum + value * value, 0);
    expect(functionalCovariance(fit, row)).toBeCloseTo(4 * sumOfSquares, 12);
    expect(splineSd(fit, 3210)).toBeCloseTo(2 * Math.sqrt(sumOfSquares), 12);
    expect(functionalCovariance(fit, row, valueFunctional(grid, 6900))).toBe(0);
  });

  it('does not extrapolate', () => {
    expect(() => evaluateSpline(monomial(1), 1999)).toThrow(InputError);
    expect(() => evaluateSpline(monomial(1), Number.NaN)).toThrow(InputError);
    expect(() => meanFunctional(grid, 3000, 7100)).toThrow(InputError);
    expect(() => meanFunctional(grid, 3000, 3000)).toThrow(InputError);
    expect(basisAt(grid, grid.high, [0, 0, 0, 0])).toBe(grid.segments - 1);
  });
});

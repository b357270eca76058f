import { describe, expect, it } from 'vitest';
import { SHAPES } from '../src/ladder/shape.ts';

const { loss } = SHAPES.linex;

describe('torque against lambda in what is published', () => {
  // Ideal constant-volume fuel–air cycle of isooctane at given air, ratio 10 (TRADE.md 6.1): torque of its best.
  it.each([
    [0.75, 0.97],
    [0.8, 0.981],
    [0.86, 0.992],
    [0.9, 0.997],
    [0.95, 1.0],
    [1.0, 0.992],
    [1.1, 0.926],
  ])('of the fuel–air cycle is followed to 0.2 per cent at lambda %f', (lambda, torque) => {
    expect(Math.abs(1 - loss(lambda - 0.9375, 1.45, 3.5) - torque)).toBeLessThan(0.002);
  });

  // A quadratic in 1/lambda fitted to R. Stone's textbook figure: s = −1.1536φ² + 2.6954φ − 0.5695 (TRADE.md 6.1).
  it.each([0.8, 0.85, 0.9, 0.95, 1.0, 1.05])(
    'of a textbook is followed to 0.1 per cent at lambda %f',
    (lambda) => {
      const s = (phi: number) => -1.1536 * phi * phi + 2.6954 * phi - 0.5695;
      const best = 2.6954 / (2 * 1.1536);
      const torque = s(1 / lambda) / s(best);
      expect(Math.abs(1 - loss(lambda - 1 / best, 2.139, -2.337) - torque)).toBeLessThan(0.001);
    },
  );

  // Crossley and Cook (1991), as printed in the open Modelica Standard Library (see lead-shape.test.ts): 21.91·A − 0.85·A².
  it('is a parabola in the published regression, of a curvature that the prior holds', () => {
    const [m, s, n] = [0.5, 30, 300];
    const torque = (afr: number) =>
      -181.3 +
      379.36 * m +
      21.91 * afr -
      0.85 * afr * afr +
      0.26 * s -
      0.0028 * s * s +
      0.027 * n -
      0.000107 * n * n +
      0.00048 * n * s +
      2.55 * s * m -
      0.05 * s * s * m;
    const best = 21.91 / 1.7;
    const curvature = (0.85 * 14.6 ** 2) / torque(best);
    expect(curvature).toBeGreaterThan(0.8);
    expect(curvature).toBeLessThan(4);
    for (const lambda of [0.8, 0.9, 1])
      expect(1 - loss(lambda - best / 14.6, curvature, 0)).toBeCloseTo(
        torque(lambda * 14.6) / torque(best),
        6,
      );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { monotoneQuintic, type QuinticPoint, quinticAt, quinticIntegral } from './index.ts';

/** Steps of place and value, both up and down, as the points of a curve. */
const pointSets = fc
  .array(
    fc.tuple(
      fc.integer({ min: 50, max: 5000 }).map((thousandths) => thousandths / 1000),
      fc.integer({ min: -3000, max: 3000 }).map((thousandths) => thousandths / 1000),
    ),
    { minLength: 2, maxLength: 12 },
  )
  .map((steps) => {
    let place = 0;
    return steps.map(([width, value]): QuinticPoint => {
      place += width;
      return { place, value };
    });
  });

describe('the monotone curve of fifth degree', () => {
  it('goes through its points and never turns between two of them', () => {
    fc.assert(
      fc.property(pointSets, (points) => {
        const curve = monotoneQuintic(points);
        points.forEach(({ place, value }) => {
          expect(quinticAt(curve, place)).toBeCloseTo(value, 10);
        });
        for (let i = 1; i < points.length; i++) {
          const [from, to] = [points[i - 1]!, points[i]!];
          const width = (to.place - from.place) * (1 - 1e-15);
          const values = Array.from({ length: 41 }, (_, k) =>
            quinticAt(curve, from.place + (k / 40) * width),
          );
          const way = Math.sign(to.value - from.value);
          const rises = values.slice(1).map((value, k) => way * (value - values[k]!));
          expect(Math.min(...rises)).toBeGreaterThan(-1e-10);
        }
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it('has two continuous derivatives at every point', () => {
    fc.assert(
      fc.property(pointSets, (points) => {
        const curve = monotoneQuintic(points);
        for (let i = 1; i < curve.pieces.length; i++) {
          const place = curve.places[i]!;
          const gap = (place - curve.places[i - 1]!) * 1e-9;
          for (const order of [0, 1, 2] as const) {
            const [left, right] = [
              quinticAt(curve, place - gap, order),
              quinticAt(curve, place, order),
            ];
            const next = Math.abs(
              quinticAt(curve, place - gap, Math.min(3, order + 1) as 1 | 2 | 3),
            );
            expect(Math.abs(left - right)).toBeLessThan(1e-7 + 3 * gap * next);
          }
        }
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('is a parabola through points of a parabola, whose ∫ f‴² is zero (identity)', () => {
    const parabola = (x: number) => 3 * x * x + x - 2;
    const curve = monotoneQuintic(
      [0, 0.4, 1, 3].map((place) => ({ place, value: parabola(place) })),
    );
    expect(curve.limited).toBe(false);
    for (const x of [0.1, 0.7, 2, 2.9]) {
      expect(quinticAt(curve, x)).toBeCloseTo(parabola(x), 9);
      expect(quinticAt(curve, x, 1)).toBeCloseTo(6 * x + 1, 8);
      expect(quinticAt(curve, x, 2)).toBeCloseTo(6, 7);
    }
    // ∫₀³ = 27 + 4.5 − 6
    expect(quinticIntegral(curve, 0, 3)).toBeCloseTo(25.5, 9);
    expect(quinticIntegral(curve, 3, 0)).toBeCloseTo(-25.5, 9);
    expect(quinticIntegral(curve, 0.2, 2.5)).toBeCloseTo(
      2.5 ** 3 - 0.2 ** 3 + (2.5 ** 2 - 0.2 ** 2) / 2 - 2 * 2.3,
      9,
    );
  });

  it('at rest at both ends is the smoothstep 10t³ − 15t⁴ + 6t⁵ (identity)', () => {
    const curve = monotoneQuintic([
      { place: 2, value: 1, kind: 'rest' },
      { place: 6, value: 3, kind: 'rest' },
    ]);
    for (const t of [0, 0.2, 0.5, 0.9, 1])
      expect(quinticAt(curve, 2 + 4 * t)).toBeCloseTo(
        1 + 2 * (10 * t ** 3 - 15 * t ** 4 + 6 * t ** 5),
        12,
      );
  });

  it('leaves the smoothest curve where it would turn, and says so', () => {
    const curve = monotoneQuintic(
      [0, 0, 0.01, 5, 5.01, 5.02].map((value, place) => ({ place, value })),
    );
    expect(curve.limited).toBe(true);
    expect(quinticAt(curve, 0.5)).toBe(0);
  });

  it('refuses points that do not rise, too few of them, and places outside', () => {
    expect(() => monotoneQuintic([{ place: 0, value: 1 }])).toThrow(InputError);
    expect(() => monotoneQuintic([0, 0].map((place) => ({ place, value: 1 })))).toThrow(InputError);
    expect(() => monotoneQuintic([0, Number.NaN].map((place) => ({ place, value: 1 })))).toThrow(
      InputError,
    );
    const curve = monotoneQuintic([0, 1].map((place) => ({ place, value: place })));
    expect(() => quinticAt(curve, 1.1)).toThrow(InputError);
  });
});

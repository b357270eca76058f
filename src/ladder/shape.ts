/*
 * How power falls away from its best with the setting. Both shapes lose k·d²·(1 + c·d + …) at d above the best, k the
 * curvature and c the lean; they differ farther out, where a step of the mixture goes and a step of lead does not.
 *
 * cubic    k·d²·(1 + c·d). Spark lead within ten degrees of its best (see kinds.ts).
 *
 * linex    2k/q²·(e^(q·d) − 1 − q·d), q = 3c. Mixture. Why this one: at full throttle the air is given. Rich of the best
 *          all of its oxygen is used and more fuel only makes carbon monoxide and cools: torque falls slowly and about
 *          in a straight line with lambda. Lean of the best the fuel decides: the heat per air is LHV/(λ·AFR), so torque
 *          goes as 1/λ, and less as the flame slows. A loss is wanted that is a parabola at the best, nearly straight on
 *          the rich side, ever steeper on the lean side and never turns: a cubic turns at d = −2/(3c), which for mixture
 *          lies within the ladder. The linear-exponential loss (Varian 1975, Zellner 1986) is the simplest with all
 *          four; its slope far to the rich side is 2k/q, and q < 0 leans it the other way.
 *          Against the ideal fuel–air cycle of isooctane at given air (handbook notes, 6.1) best 0.9375, k 1.45, c 3.5
 *          are within 0.15 % of torque from lambda 0.75 to 1.1. The published regression of Crossley and Cook (1991), a
 *          quadratic in air to fuel, is k 1.3, c 0; a quadratic in 1/lambda that somebody fitted to a textbook's figure
 *          has k 2.14, c −2.3, steeper on the rich side because it is one in 1/lambda, and is followed within 0.1 %
 *          from 0.80 to 1.05 (reference/mixture-shape.test.ts).
 *
 * For given c each is linear in at most three columns of v, the setting from the middle of the ladder:
 *   cubic    v, v², v³
 *   linex    v, h(v) = 2(e^(qv) − 1 − qv)/q², none; for
 *            loss(v − b) = k·[e^(−qb)·h(v) + (2/q)(e^(−qb) − 1)·v + (2/q²)(e^(−qb) − 1 + qb)],
 * so level and drift are eliminated in closed form for both (form.ts).
 */

export type ShapeName = 'cubic' | 'linex';

export interface ResponseShape {
  readonly name: ShapeName;
  /** Relative loss of power at d above the best. */
  readonly loss: (d: number, curvature: number, lean: number) => number;
  /** Its derivative by d. */
  readonly slope: (d: number, curvature: number, lean: number) => number;
  /** The three columns at v. */
  readonly columns: (v: number, lean: number) => readonly [number, number, number];
  /** Their coefficients, with the best at b. */
  readonly factors: (k: number, b: number, c: number) => readonly [number, number, number];
  /** What is left of the loss at v = 0. */
  readonly constant: (k: number, b: number, c: number) => number;
  /** Whether the columns depend on the lean. */
  readonly leansInColumns: boolean;
}

const CUBIC: ResponseShape = {
  name: 'cubic',
  loss: (d, k, c) => k * d * d * (1 + c * d),
  slope: (d, k, c) => k * d * (2 + 3 * c * d),
  columns: (v) => [v, v * v, v * v * v],
  factors: (k, b, c) => [k * b * (3 * c * b - 2), k * (1 - 3 * c * b), k * c],
  constant: (k, b, c) => k * b * b * (1 - c * b),
  leansInColumns: false,
};

/** 2(e^x − 1 − x)/x², with its series where the difference would lose its digits. */
function bow(x: number): number {
  if (Math.abs(x) < 1e-3) return 1 + x / 3 + (x * x) / 12;
  return (2 * (Math.expm1(x) - x)) / (x * x);
}

/** (e^x − 1)/x. */
const rise = (x: number): number => (Math.abs(x) < 1e-9 ? 1 + x / 2 : Math.expm1(x) / x);

const LINEX: ResponseShape = {
  name: 'linex',
  loss: (d, k, c) => k * d * d * bow(3 * c * d),
  slope: (d, k, c) => 2 * k * d * rise(3 * c * d),
  columns: (v, c) => [v, v * v * bow(3 * c * v), 0],
  factors: (k, b, c) => [-2 * k * b * rise(-3 * c * b), k * Math.exp(-3 * c * b), 0],
  constant: (k, b, c) => k * b * b * bow(-3 * c * b),
  leansInColumns: true,
};

export const SHAPES: Readonly<Record<ShapeName, ResponseShape>> = { cubic: CUBIC, linex: LINEX };

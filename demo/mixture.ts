/** How the simulated engine answers its mixture. */
export interface MixtureTruth {
  /** Lambda of most torque at the best lead for it. */
  readonly bestLambda: number;
  /** Curvature of log torque there, per square unit. */
  readonly curvature: number;
  /** How much further the best lead stands with each unit of lambda leaner [degrees]. */
  readonly ridgeDeg: number;
}

/** Distance on the rich side over which the parabola becomes a straight line [lambda]. */
const STRAIGHT = 0.1;

/**
 * −log(T/T_best) [1] at a mixture and its best lead: straight on the rich side, where excess fuel only cools, and ever
 * steeper on the lean side, where fuel is short. Neither the model's shape nor a polynomial (common practice, no source;
 * rich 0.75 to lean 1.0 it loses what the ideal fuel–air cycle does within a percent).
 */
export function mixtureLoss({ bestLambda, curvature }: MixtureTruth, lambda: number): number {
  const d = lambda - bestLambda;
  return d < 0
    ? 2 * curvature * STRAIGHT ** 2 * (Math.sqrt(1 + (d / STRAIGHT) ** 2) - 1)
    : curvature * d * d * (1 + 3 * d);
}

/** The lead that stands as far from its best at the best mixture as `leadDeg` does at `lambda`. */
export const leadAtBest = (
  { bestLambda, ridgeDeg }: MixtureTruth,
  leadDeg: number,
  lambda: number,
): number => leadDeg - ridgeDeg * (lambda - bestLambda);

import { RAD_PER_S_PER_RPM } from './power.ts';

/**
 * Torque against spark lead: the shape, never the size. Every engine's own curvature is fitted; these serve as a check
 * of the fit and as shapes for simulated engines.
 */

/** Curvatures k of T/T_best = 1 − k Δ² that published sources and practice span [1/deg²]. */
export const RETARD_CURVATURE_RANGE = [2e-4, 2e-3] as const;

/** Torque as a fraction of the best, Δ degrees from the best lead, up to 15 either side: 1 − k Δ². */
export function torqueShareOffBest(deltaDeg: number, curvaturePerDeg2: number): number {
  return 1 - curvaturePerDeg2 * deltaDeg ** 2;
}

/**
 * Torque [N·m] of one four-cylinder engine by a published regression: a source of shape, not a predictor.
 *
 * Formula: T = −181.3 + 379.36 m + 21.91 A − 0.85 A² + 0.26σ − 0.0028σ² + 0.027N − 0.000107N² + 0.00048Nσ + 2.55σm − 0.05σ²m
 * @param charge.airPerCylinderG  m, mass of air in one cylinder [g]
 * @param charge.afr              A, air to fuel by mass
 * @param charge.leadDeg          σ, spark lead [crank degrees before top]
 * @param charge.speedRpm         speed [rev/min]; N in the regression is in rad/s
 * @source    Crossley & Cook 1991 (IEE Int. Conf. Control '91), as printed in the Modelica Standard Library,
 *            Modelica/Clocked/Examples/Systems/Utilities/ComponentsThrottleControl/TorqueGeneration.mo
 * @validity  the source states none
 */
export function crossleyCookTorqueNm(charge: {
  readonly airPerCylinderG: number;
  readonly afr: number;
  readonly leadDeg: number;
  readonly speedRpm: number;
}): number {
  const { airPerCylinderG: m, afr: A, leadDeg: s } = charge;
  const N = charge.speedRpm * RAD_PER_S_PER_RPM;
  return (
    -181.3 +
    379.36 * m +
    21.91 * A -
    0.85 * A ** 2 +
    0.26 * s -
    0.0028 * s ** 2 +
    0.027 * N -
    0.000107 * N ** 2 +
    0.00048 * N * s +
    2.55 * s * m -
    0.05 * s ** 2 * m
  );
}

/** Best lead [deg] of that regression: it is a parabola in σ. */
export function crossleyCookBestLeadDeg(airPerCylinderG: number, speedRpm: number): number {
  const N = speedRpm * RAD_PER_S_PER_RPM;
  return (0.26 + 0.00048 * N + 2.55 * airPerCylinderG) / (2 * (0.0028 + 0.05 * airPerCylinderG));
}

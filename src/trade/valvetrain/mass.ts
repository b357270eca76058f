import { notNegative, positive } from '../possible.ts';

/** What moves with one valve. A part that is not there weighs 0; a cam on the valve has ratio 1. */
export interface ValvetrainParts {
  readonly valveKg: number;
  readonly retainerKg: number;
  readonly locksKg: number;
  /** All springs of the valve. */
  readonly springKg: number;
  /** Rocker about its pivot [kg·m²]. */
  readonly rockerInertiaKgM2: number;
  /** Pivot to the point over the valve [m]; only asked for with a rocker's inertia. */
  readonly rockerValveArmM: number | null;
  readonly pushrodKg: number;
  readonly lifterKg: number;
  /** Valve lift over lobe lift. */
  readonly rockerRatio: number;
}

/** Share of a spring's mass that moves with the valve: ∫ x² dx over a coil that stretches evenly. */
export const SPRING_MASS_SHARE = 1 / 3;

/**
 * Mass [kg] at the valve that holds the same kinetic energy as all moving parts:
 * valve + retainer + locks + spring/3 + J/Lv² + (pushrod + lifter)/R².
 *
 * Derivation: ½ m v² with each part's speed over the valve's: spring x/L along its length, rocker 1/Lv per rad, lobe side 1/R.
 * Seen from the cam the whole is R² times as much.
 */
export function massAtValveKg(parts: ValvetrainParts): number {
  const inertia = notNegative('rocker inertia', parts.rockerInertiaKgM2, 'kg·m²');
  const rockerKg =
    inertia === 0
      ? 0
      : inertia / positive('rocker valve arm', parts.rockerValveArmM ?? 0, 'm') ** 2;
  return (
    positive('valve', parts.valveKg, 'kg') +
    notNegative('retainer', parts.retainerKg, 'kg') +
    notNegative('locks', parts.locksKg, 'kg') +
    SPRING_MASS_SHARE * notNegative('spring', parts.springKg, 'kg') +
    rockerKg +
    (notNegative('pushrod', parts.pushrodKg, 'kg') + notNegative('lifter', parts.lifterKg, 'kg')) /
      positive('rocker ratio', parts.rockerRatio, '') ** 2
  );
}

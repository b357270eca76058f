import { notNegative, positive } from '../possible.ts';
import { RAD_PER_S_PER_RPM } from '../power.ts';

/** Unbalance [kg·m] of a mass off centre: m r. */
export function unbalanceKgM(massKg: number, radiusM: number): number {
  return notNegative('mass', massKg, 'kg') * notNegative('radius', radiusM, 'm');
}

/** Force [N] with which an unbalance pulls round at a speed: U ω². */
export function unbalanceForceN(unbalance: number, speedRpm: number): number {
  return (
    notNegative('unbalance', unbalance, 'kg·m') *
    (notNegative('speed', speedRpm, 'rev/min') * RAD_PER_S_PER_RPM) ** 2
  );
}

/**
 * Balance quality grade G [mm/s] that a rotor stands at: e ω with e = U/m, in the standard's unit.
 * @source    ISO 1940-1 / ISO 21940-11, definition of the grade (text of the standard not at hand)
 * @validity  rigid rotors; the whole residual of all planes together
 */
export function balanceGradeMmPerS(
  unbalance: number,
  rotorKg: number,
  highestSpeedRpm: number,
): number {
  const eccentricityM =
    notNegative('unbalance', unbalance, 'kg·m') / positive('rotor mass', rotorKg, 'kg');
  return eccentricityM * positive('speed', highestSpeedRpm, 'rev/min') * RAD_PER_S_PER_RPM * 1000;
}

/** The other way round: residual unbalance [kg·m] that a grade allows, both planes together. U = G m / ω. */
export function permissibleUnbalanceKgM(
  gradeMmPerS: number,
  rotorKg: number,
  highestSpeedRpm: number,
): number {
  return (
    (positive('balance grade', gradeMmPerS, 'mm/s') * positive('rotor mass', rotorKg, 'kg')) /
    (1000 * positive('speed', highestSpeedRpm, 'rev/min') * RAD_PER_S_PER_RPM)
  );
}

/** The grades of the standard [mm/s], a factor 2.5 apart, and where an engine's parts usually stand. */
export const BALANCE_GRADES = [
  { gradeMmPerS: 0.4, examples: 'gyroscopes, spindles of precision grinders' },
  { gradeMmPerS: 1, examples: 'grinding machine drives, turbocharger rotors' },
  { gradeMmPerS: 2.5, examples: 'turbine rotors, machine-tool drives' },
  { gradeMmPerS: 6.3, examples: 'flywheels, pump impellers, general machinery' },
  { gradeMmPerS: 16, examples: 'drive shafts with special requirements' },
  { gradeMmPerS: 40, examples: 'car wheels and drive shafts; balanced crankshaft drives' },
  { gradeMmPerS: 100, examples: 'complete engines of cars and trucks' },
] as const;
/** Grades 0.4 to 6.3, 40 and 100 with examples as restated publicly (balancemaster.com, ISO balancing grades). */
export const BALANCE_GRADES_SOURCE =
  'ISO 1940-1 / ISO 21940-11; examples as restated publicly, G 16 and G 40 for cars from memory';

/** The finest grade of the standard that this figure still keeps, or null when it is worse than all listed. */
export function gradeKept(gradeMmPerS: number): number | null {
  const value = notNegative('balance grade', gradeMmPerS, 'mm/s');
  return BALANCE_GRADES.find((grade) => value <= grade.gradeMmPerS)?.gradeMmPerS ?? null;
}

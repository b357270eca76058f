import { count, notNegative, positive } from '../possible.ts';
import { type CrankSlider, peakPistonAccelerations, pistonMotion } from './kinematics.ts';

/**
 * Factor on a rod bolt's share for the bending of the cap at speed, at least. From memory; the rod maker's figure wins.
 */
export const ROD_BOLT_BENDING_FACTOR = 1.3;

/**
 * Force [N] that a reciprocating mass lays on the piston pin along the cylinder at a crank angle and speed: m a.
 * Positive pulls the rod (about the top), negative presses it. Gas pressure is not in it.
 */
export function pinInertiaForceN(
  slider: CrankSlider,
  reciprocatingKg: number,
  crankDeg: number,
  speedRpm: number,
): number {
  return (
    notNegative('reciprocating mass', reciprocatingKg, 'kg') *
    pistonMotion(slider, crankDeg, speedRpm).accelerationMPerS2
  );
}

export interface RodTension {
  /** Pull across the rod's parting line, both bolts together. */
  readonly rodN: number;
  /** Even share of one bolt, without the bending of the cap. */
  readonly perBoltN: number;
  /** The share with ROD_BOLT_BENDING_FACTOR. */
  readonly perBoltWithBendingN: number;
}

/**
 * Pull [N] on the rod bolts at the top between exhaust and intake, where no gas pressure helps: the hardest a rod bolt
 * has it.
 *
 * Formula: (m_rec + m_rod above the parting line) × peak acceleration towards the crank
 *
 * All of that rod mass is given the piston's acceleration ω²r(1 + r/l). Its lower end has ω²r: the answer is on the safe
 * side, by at most the rod mass times ω²r·r/l. Preload adds to a bolt's stress, not to this; a bolt must be clamped by
 * more than its share.
 */
export function rodBoltTension(parts: {
  readonly slider: CrankSlider;
  /** Piston, rings, pin, locks and the rod's small end. */
  readonly reciprocatingKg: number;
  /** Rest of the rod above its parting line. */
  readonly rodAbovePartingKg: number;
  readonly bolts: number;
  readonly speedRpm: number;
}): RodTension {
  const massKg =
    positive('reciprocating mass', parts.reciprocatingKg, 'kg') +
    notNegative('rod mass above the parting line', parts.rodAbovePartingKg, 'kg');
  const rodN = massKg * peakPistonAccelerations(parts.slider, parts.speedRpm).towardsCrank.value;
  const perBoltN = rodN / count('number of rod bolts', parts.bolts);
  return { rodN, perBoltN, perBoltWithBendingN: perBoltN * ROD_BOLT_BENDING_FACTOR };
}

import { notNegative, positive, possible, within } from '../possible.ts';
import { type CrankSlider, pistonPositionM } from './kinematics.ts';

export interface TrappedCylinder extends CrankSlider {
  readonly boreM: number;
  readonly clearanceM3: number;
  /** Degrees after the bottom (180 on a wheel zeroed at the top) at which the valve is really on its seat. */
  readonly intakeClosesAbdcDeg: number;
}

export interface DynamicCompression {
  readonly ratio: number;
  /** Volume above the piston when the intake closes, the clearance volume in it. */
  readonly trappedM3: number;
  /** What is left of the stroke then. */
  readonly effectiveStrokeM: number;
}

/** Lifts of the follower at which seat timing is commonly given [m], 0.004 to 0.006 in. Common practice, no source. */
export const SEAT_LIFT_M = [0.1016e-3, 0.1524e-3] as const;

/**
 * Dynamic compression ratio: volume above the piston at intake closing over the clearance volume.
 *
 * Use the seat timing (at SEAT_LIFT_M of the follower) or the advertised one: at 0.050 in the valve is still
 * well open and the ratio means nothing. A measure for comparing builds, not a pressure: at speed the charge's own
 * motion goes on filling the cylinder after the bottom.
 * @throws NonPhysicalError  closing is not between the bottom's 180° before and after, or the geometry is impossible
 */
export function dynamicCompression(cylinder: TrappedCylinder): DynamicCompression {
  const closes = within('intake closing', cylinder.intakeClosesAbdcDeg, '° ABDC', [-180, 180]);
  const clearanceM3 = positive('clearance volume', cylinder.clearanceM3, 'm³');
  const effectiveStrokeM = pistonPositionM(cylinder, 180 + closes);
  const area = (Math.PI / 4) * positive('bore', cylinder.boreM, 'm') ** 2;
  const trappedM3 = clearanceM3 + area * effectiveStrokeM;
  return { ratio: trappedM3 / clearanceM3, trappedM3, effectiveStrokeM };
}

/**
 * Exponents n of p Vⁿ = const between which cranking compressions lie, and the one taken for the estimate.
 * Source: en.wikipedia.org "Compression ratio" as stored by altsci.com ("generally between 1.2 and 1.3"); 1.25, the
 * middle, is our choice.
 */
export const CRANKING_EXPONENT = { low: 1.2, middle: 1.25, high: 1.3 } as const;

export interface CrankingPressure {
  readonly gaugePa: number;
  /** With the low and the high exponent. Leakage, speed and throttle come on top: the spread across an engine says more. */
  readonly lowGaugePa: number;
  readonly highGaugePa: number;
}

/**
 * Cranking pressure [Pa, gauge] to expect: an estimate, good to about a tenth at best.
 *
 * Formula: p_atm (DCRⁿ − 1), with the cylinder at the room's pressure p_atm when the intake closes
 * @param dynamicRatio  from `dynamicCompression`
 * @validity  throttle open, warm, well sealed, cranked at 150 rev/min or more (common practice, no source)
 */
export function crankingPressureEstimate(
  dynamicRatio: number,
  atmosphericPressureAbsPa: number,
): CrankingPressure {
  possible('dynamic compression ratio', dynamicRatio, '', dynamicRatio >= 1, '1 or more');
  const at = (exponent: number) =>
    notNegative(
      'cranking pressure',
      positive('atmospheric pressure', atmosphericPressureAbsPa, 'Pa') *
        (dynamicRatio ** exponent - 1),
      'Pa',
    );
  return {
    gaugePa: at(CRANKING_EXPONENT.middle),
    lowGaugePa: at(CRANKING_EXPONENT.low),
    highGaugePa: at(CRANKING_EXPONENT.high),
  };
}

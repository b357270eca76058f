import { notNegative, positive, possible, within } from '../possible.ts';

/** A butterfly in a round bore. */
export interface Throttle {
  readonly boreM: number;
  /** Through the middle of the plate; 0 for a plate that leaves none in the way. */
  readonly shaftDiameterM: number;
  /** Plate from the plane across the bore when shut; some 5 to 15°. */
  readonly closedDeg: number;
}

/** Share of the open area that passes as effective: 0.8 to 0.95 wide open. From memory (Heywood §7.5), low confidence. */
export const THROTTLE_COEFFICIENT_RANGE = [0.6, 0.95] as const;

/**
 * Open area [m²] past a butterfly turned to an angle [deg] from the plane across the bore, seen along the bore.
 *
 * At a place x along the shaft the bore is 2√(R² − x²) high; the plate, an ellipse that fits the bore when shut, hides
 * the share k = cos ψ/cos ψ₀ of it and the shaft hides its own diameter, whichever is more. Integrated over x with
 * G(x) = ½(x√(R²−x²) + R² asin(x/R)).
 * @source  derived here and tested against a plain sum of strips; Heywood eq. 7.18 is of the same form (from memory, its
 *   signs not confirmed)
 * @throws NonPhysicalError  a shaft as thick as the bore, an angle below the closed one or above 90°
 */
export function throttleOpenAreaM2(throttle: Throttle, plateDeg: number): number {
  const radius = positive('throttle bore', throttle.boreM, 'm') / 2;
  const half = notNegative('throttle shaft', throttle.shaftDiameterM, 'm') / 2;
  possible('throttle shaft', 2 * half, 'm', half < radius, 'less than the bore');
  const closedDeg = throttle.closedDeg;
  possible('closed angle', closedDeg, '°', closedDeg >= 0 && closedDeg < 90, '0 up to 90°');
  within('throttle angle', plateDeg, '°', [closedDeg, 90]);
  const hidden = Math.cos((plateDeg * Math.PI) / 180) / Math.cos((closedDeg * Math.PI) / 180);
  const reach = (height: number) => Math.sqrt(Math.max(0, radius ** 2 - height ** 2));
  const shaftReach = reach(half);
  // Inside this place the plate hides more than the shaft.
  const plateReach = hidden * radius > half ? reach(half / hidden) : 0;
  const under = (x: number) =>
    (x * reach(x) + radius ** 2 * Math.asin(Math.min(1, x / radius))) / 2;
  const area =
    4 *
    ((1 - hidden) * under(plateReach) +
      under(shaftReach) -
      under(plateReach) -
      half * (shaftReach - plateReach));
  return Math.max(0, area);
}

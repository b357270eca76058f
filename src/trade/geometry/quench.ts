import { finite, notNegative, positive } from '../possible.ts';
import { type CrankSlider, pinHeightAtTopM } from './kinematics.ts';

/**
 * How far the flat of the crown stands below the deck at the top [m]: block height − crank radius − rod − compression
 * height; negative when it stands out of the hole.
 */
export function deckClearanceM(
  stack: CrankSlider & {
    /** From the crank's axis to the deck. */
    readonly blockHeightM: number;
    /** From the pin's axis to the flat of the crown. */
    readonly compressionHeightM: number;
  },
): number {
  return (
    positive('block height', stack.blockHeightM, 'm') -
    pinHeightAtTopM(stack) -
    positive('compression height', stack.compressionHeightM, 'm')
  );
}

/**
 * Quench (squish) clearance [m] at rest and cold: deck clearance + compressed gasket. Zero or less: the piston meets the
 * head before the engine has turned once.
 *
 * Running, it is less: the rod stretches (`rodStretchM`), the piston rocks, bearings give their clearance, and a rod
 * that grows more with heat than the block (aluminium in iron) lifts the crown. That is why windows for aluminium rods
 * are wider.
 */
export function quenchM(deckM: number, gasketThicknessM: number): number {
  return (
    finite('deck clearance', deckM, 'm') + notNegative('gasket thickness', gasketThicknessM, 'm')
  );
}

/**
 * Stretch [m] of a rod under a pull: F l / (A E), a bar of one section. The ends are stiffer than the beam, bearings and
 * crank give as well: an order of magnitude.
 */
export function rodStretchM(rod: {
  readonly tensionN: number;
  readonly rodLengthM: number;
  readonly beamAreaM2: number;
  readonly youngModulusPa: number;
}): number {
  return (
    (notNegative('rod tension', rod.tensionN, 'N') * positive('rod length', rod.rodLengthM, 'm')) /
    (positive('beam area', rod.beamAreaM2, 'm²') *
      positive("Young's modulus", rod.youngModulusPa, 'Pa'))
  );
}

import { NonPhysicalError } from '../../errors.ts';
import { notNegative } from '../possible.ts';

/** Shares by mass; what is left to 1 (water, lead, sulphur) neither burns nor gives oxygen. */
export interface Composition {
  readonly carbon: number;
  readonly hydrogen: number;
  readonly oxygen: number;
  readonly nitrogen: number;
}

/** Atoms of one molecule CxHyOzNw. */
export interface Molecule {
  readonly carbon: number;
  readonly hydrogen: number;
  readonly oxygen?: number;
  readonly nitrogen?: number;
}

/** Atomic masses [g/mol], IUPAC's abridged table. */
const ATOMIC_MASS: Composition = {
  carbon: 12.011,
  hydrogen: 1.008,
  oxygen: 15.999,
  nitrogen: 14.007,
};
/** Mass of dry air per mole of its oxygen [g/mol]: 28.965 g/mol with 20.95 % oxygen. */
const AIR_PER_OXYGEN = 28.965 / 0.2095;
/** How far shares may miss their sum for rounding's sake, in print (87.5 + 12.6 %) or in the machine. */
const SUM_TOLERANCE = 2e-3;

/** Shares of the elements by mass in CxHyOzNw. @throws NonPhysicalError  a molecule without carbon and hydrogen */
export function compositionOf(molecule: Molecule): Composition {
  const { carbon, hydrogen, oxygen = 0, nitrogen = 0 } = molecule;
  const mass = {
    carbon: ATOMIC_MASS.carbon * notNegative('carbon atoms', carbon, ''),
    hydrogen: ATOMIC_MASS.hydrogen * notNegative('hydrogen atoms', hydrogen, ''),
    oxygen: ATOMIC_MASS.oxygen * notNegative('oxygen atoms', oxygen, ''),
    nitrogen: ATOMIC_MASS.nitrogen * notNegative('nitrogen atoms', nitrogen, ''),
  };
  const whole = mass.carbon + mass.hydrogen + mass.oxygen + mass.nitrogen;
  if (!(carbon + hydrogen > 0))
    throw new NonPhysicalError(
      'invalid fuel: neither carbon nor hydrogen in it; expected one that burns',
    );
  return {
    carbon: mass.carbon / whole,
    hydrogen: mass.hydrogen / whole,
    oxygen: mass.oxygen / whole,
    nitrogen: mass.nitrogen / whole,
  };
}

/**
 * Stoichiometric air to fuel by mass of a fuel whose elements are known by mass share.
 *
 * One carbon takes one O₂, four hydrogens one, two oxygens of the fuel's own spare one; nitrogen leaves as N₂:
 * AFR = 28.965/0.2095 · (c/12.011 + h/(4·1.008) − o/(2·15.999)). It is linear in the shares, which is why the ratio
 * of a blend is the mean of its parts' by mass.
 * @source  definition of complete combustion; SAE J1829 and ISO 8178-1 annex A give the same form (from memory)
 * @throws NonPhysicalError  shares below 0 or beyond 1 in all, or a fuel that brings all its oxygen itself
 */
export function stoichiometricAfrOf(composition: Composition): number {
  const carbon = notNegative('share of carbon', composition.carbon, '');
  const hydrogen = notNegative('share of hydrogen', composition.hydrogen, '');
  const oxygen = notNegative('share of oxygen', composition.oxygen, '');
  const whole =
    carbon + hydrogen + oxygen + notNegative('share of nitrogen', composition.nitrogen, '');
  if (whole > 1 + SUM_TOLERANCE)
    throw new NonPhysicalError(
      `invalid composition: its shares add to ${whole}; expected at most 1`,
    );
  const afr =
    AIR_PER_OXYGEN *
    (carbon / ATOMIC_MASS.carbon +
      hydrogen / (4 * ATOMIC_MASS.hydrogen) -
      oxygen / (2 * ATOMIC_MASS.oxygen));
  // Rounding leaves a trace where carbon and oxygen cancel, as in CO₂.
  if (!(afr > 1e-9))
    throw new NonPhysicalError('invalid fuel: it needs no air to burn; expected one that does');
  return afr;
}

/** The same of one molecule CxHyOzNw: 28.965/0.2095 · (x + y/4 − z/2)/M. */
export function stoichiometricAfr(molecule: Molecule): number {
  return stoichiometricAfrOf(compositionOf(molecule));
}

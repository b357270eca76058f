import { positive, within } from '../possible.ts';
import type { Fuel } from './types.ts';

/** Heat capacity [J/(kg K)] of dry air at room temperature (1005 to 1007 in the tables). */
export const AIR_HEAT_CAPACITY_J_PER_KG_K = 1005;

/** Air to fuel by mass → lambda. It runs over whole recordings, so a gap (NaN) stays a gap and is not refused. */
export function lambdaFromAfr(afr: number, fuel: Fuel): number {
  return afr / fuel.stoichiometricAfr;
}

/** Lambda → air to fuel by mass. Gaps as in `lambdaFromAfr`. */
export function afrFromLambda(lambda: number, fuel: Fuel): number {
  return lambda * fuel.stoichiometricAfr;
}

/** Equivalence ratio φ = 1/λ: above 1 is rich. @throws NonPhysicalError  lambda not above 0 */
export function equivalenceRatioFromLambda(lambda: number): number {
  return 1 / positive('lambda', lambda, '');
}

/** λ = 1/φ. @throws NonPhysicalError  an equivalence ratio not above 0 */
export function lambdaFromEquivalenceRatio(equivalenceRatio: number): number {
  return 1 / positive('equivalence ratio', equivalenceRatio, '');
}

/** Equivalence ratio from air to fuel by mass. @throws NonPhysicalError  a ratio not above 0 */
export function equivalenceRatioFromAfr(afr: number, fuel: Fuel): number {
  return fuel.stoichiometricAfr / positive('air to fuel ratio', afr, '');
}

/** Lower heating value [J] in one kilogram of stoichiometric mixture: LHV/(1 + AFR). What fills a cylinder. */
export function stoichiometricMixtureJPerKg(fuel: Fuel): number {
  return fuel.lowerHeatingJPerKg / (1 + fuel.stoichiometricAfr);
}

/** Lower heating value [J] that one kilogram of air can release at lambda 1: LHV/AFR. */
export function energyPerAirJPerKg(fuel: Fuel): number {
  return fuel.lowerHeatingJPerKg / fuel.stoichiometricAfr;
}

/**
 * Most [K] that evaporating fuel can cool the intake air: all of it evaporates, all heat comes out of the air.
 *
 * Formula: ΔT = x · L / (λ · AFR · c_p,air)
 * An upper bound, not a forecast: walls give heat, air saturates (methanol long before it has all evaporated), and part
 * reaches the cylinder as liquid. The fuel vapour's own heat capacity, left out, lowers it further.
 * @param evaporatedShare  x, share of the fuel that evaporates before the valve closes; 1 for the bound
 * @returns   undefined where the latent heat is unknown or the fuel is a gas
 * @source    energy balance; AFDC prints L/AFR for four fuels, checked in the test
 * @throws NonPhysicalError  lambda not above 0, a share outside 0 to 1
 */
export function chargeCoolingUpperBoundK(
  fuel: Fuel,
  lambda = 1,
  evaporatedShare = 1,
): number | undefined {
  positive('lambda', lambda, '');
  within('evaporated share', evaporatedShare, '', [0, 1]);
  if (fuel.latentHeatJPerKg === undefined) return undefined;
  return (
    (evaporatedShare * fuel.latentHeatJPerKg) /
    (lambda * fuel.stoichiometricAfr * AIR_HEAT_CAPACITY_J_PER_KG_K)
  );
}

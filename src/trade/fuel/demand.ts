import { positive } from '../possible.ts';
import type { Fuel } from './types.ts';

/** A fuel at the mixture it is run at. */
export interface FuelUse {
  readonly fuel: Fuel;
  readonly lambda: number;
}

/**
 * Specific consumptions [kg/J] seen at full throttle on gasoline: 0.42 to 0.65 lb/(hp h), the low end of racing engines
 * without boost, the high end of boosted ones cooled by fuel. Common practice, no source.
 */
export const FULL_THROTTLE_BSFC_KG_PER_J = [7.096e-8, 1.0982e-7] as const;

/** Fuel [kg/s] for a power [W] at a specific consumption [kg/J]: their product. @throws NonPhysicalError  not above 0 */
export function fuelFlowForPowerKgPerS(powerW: number, bsfcKgPerJ: number): number {
  return positive('power', powerW, 'W') * positive('specific consumption', bsfcKgPerJ, 'kg/J');
}

/** Fuel [kg/s] that an air flow [kg/s] needs at a lambda: ṁ_air/(λ AFR). @throws NonPhysicalError  not above 0 */
export function fuelFlowForAirKgPerS(airFlowKgPerS: number, { fuel, lambda }: FuelUse): number {
  return (
    positive('air flow', airFlowKgPerS, 'kg/s') /
    (positive('lambda', lambda, '') * fuel.stoichiometricAfr)
  );
}

/** Air [kg/s] that goes with a power [W]: P · BSFC · λ · AFR. @throws NonPhysicalError  not above 0 */
export function airFlowForPowerKgPerS(
  powerW: number,
  bsfcKgPerJ: number,
  { fuel, lambda }: FuelUse,
): number {
  return (
    fuelFlowForPowerKgPerS(powerW, bsfcKgPerJ) *
    positive('lambda', lambda, '') *
    fuel.stoichiometricAfr
  );
}

/**
 * Specific consumption [kg/J] on another fuel if the engine turns the same share of the heating value into work:
 * b₂ = b₁ · LHV₁/LHV₂. A first estimate; it takes both at the same lambda.
 * @throws NonPhysicalError  a consumption not above 0
 */
export function bsfcByHeatingValueKgPerJ(bsfcKgPerJ: number, from: Fuel, to: Fuel): number {
  return (
    (positive('specific consumption', bsfcKgPerJ, 'kg/J') * from.lowerHeatingJPerKg) /
    to.lowerHeatingJPerKg
  );
}

/**
 * Specific consumption [kg/J] on another fuel and mixture if the same air makes the same power:
 * b₂ = b₁ · (λ₁ AFR₁)/(λ₂ AFR₂). Sees the richer mixture that alcohols are run at, so it is what injectors and pumps
 * are sized by; it counts none of the power the other fuel may add.
 * @throws NonPhysicalError  a consumption or lambda not above 0
 */
export function bsfcByAirKgPerJ(bsfcKgPerJ: number, from: FuelUse, to: FuelUse): number {
  const air = ({ fuel, lambda }: FuelUse) =>
    positive('lambda', lambda, '') * fuel.stoichiometricAfr;
  return (positive('specific consumption', bsfcKgPerJ, 'kg/J') * air(from)) / air(to);
}

/** Volume [m³/s] of a mass flow [kg/s] of a fuel. @throws NonPhysicalError  a flow not above 0 */
export function fuelVolumeM3PerS(fuelFlowKgPerS: number, fuel: Fuel): number {
  return positive('fuel flow', fuelFlowKgPerS, 'kg/s') / fuel.densityKgPerM3;
}

/** Litres an hour of a mass flow [kg/s], for reading. @throws NonPhysicalError  a flow not above 0 */
export function fuelUseLPerH(fuelFlowKgPerS: number, fuel: Fuel): number {
  return fuelVolumeM3PerS(fuelFlowKgPerS, fuel) * 3600 * 1000;
}

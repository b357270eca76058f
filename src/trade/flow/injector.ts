import { NonPhysicalError } from '../../errors.ts';
import type { Fuel } from '../fuel/index.ts';
import { fuelFlowForPowerKgPerS } from '../fuel/index.ts';
import { count, notNegative, positive, possible } from '../possible.ts';

/** Largest share of the time an injector should be open: 0.80 to 0.85. Common practice, no source. */
export const INJECTOR_DUTY_LIMIT = 0.85;
/** How much more than the need a pump should give at the pressure it works against: 1.2 to 1.3. Common practice. */
export const PUMP_MARGIN_RANGE = [1.2, 1.3] as const;

/** An injector as its sheet states it. */
export interface InjectorRating {
  /** Open without pause. */
  readonly staticVolumeM3PerS: number;
  readonly pressureDifferencePa: number;
  /** Of the liquid it was measured with; n-heptane, 684 kg/m³, is usual. */
  readonly densityKgPerM3: number;
}

/**
 * Static mass flow [kg/s] each injector must have: P · BSFC/(n · duty). Take a BSFC of the fuel that runs (see
 * `bsfcByAirKgPerJ` for blends), and convert to volume with that fuel's density.
 * @source  definition; worked examples in the test
 * @throws NonPhysicalError  not above 0, a duty above 1
 */
export function injectorStaticFlowKgPerS(parts: {
  readonly powerW: number;
  readonly bsfcKgPerJ: number;
  readonly injectors: number;
  readonly dutyShare?: number;
}): number {
  const { dutyShare = INJECTOR_DUTY_LIMIT } = parts;
  return (
    fuelFlowForPowerKgPerS(parts.powerW, parts.bsfcKgPerJ) /
    (count('number of injectors', parts.injectors) * duty(dutyShare))
  );
}

/** Share of the time injectors of this static mass flow are open at a fuel flow; above 1 they cannot deliver it. */
export function injectorDutyShare(parts: {
  readonly fuelFlowKgPerS: number;
  readonly injectors: number;
  readonly staticFlowKgPerS: number;
}): number {
  return (
    notNegative('fuel flow', parts.fuelFlowKgPerS, 'kg/s') /
    (count('number of injectors', parts.injectors) *
      positive('static flow', parts.staticFlowKgPerS, 'kg/s'))
  );
}

/**
 * Static mass flow [kg/s] of a rated injector with another fuel and pressure difference: ṁ = Q_r ρ_r √(Δp ρ/(Δp_r ρ_r)).
 *
 * A fixed hole passes Q = C A √(2Δp/ρ), so volume goes with 1/√ρ and mass with √ρ. The difference is what stands across
 * it: rail over manifold, not rail over room.
 * @source    Bernoulli; viscosity and the opening time are left out
 * @validity  0.5 to 2 times the rated pressure difference (common practice)
 * @throws NonPhysicalError  not above 0, a gas
 */
export function injectorFlowKgPerS(
  rating: InjectorRating,
  fuel: Pick<Fuel, 'name' | 'densityKgPerM3' | 'densityOf'>,
  pressureDifferencePa: number,
): number {
  if (fuel.densityOf === 'gas')
    throw new NonPhysicalError(
      `invalid fuel: ${fuel.name} is a gas; expected a liquid, which this rule is for`,
    );
  const rated = positive('rated density', rating.densityKgPerM3, 'kg/m³');
  return (
    positive('rated static flow', rating.staticVolumeM3PerS, 'm³/s') *
    rated *
    Math.sqrt(
      (positive('pressure difference', pressureDifferencePa, 'Pa') * fuel.densityKgPerM3) /
        (positive('rated pressure difference', rating.pressureDifferencePa, 'Pa') * rated),
    )
  );
}

/** Pressure difference [Pa] across injectors that brings them to a wanted mass flow [kg/s]; √Δp turned round. */
export function injectorPressureForFlowPa(
  rating: InjectorRating,
  fuel: Pick<Fuel, 'name' | 'densityKgPerM3' | 'densityOf'>,
  staticFlowKgPerS: number,
): number {
  const atRated = injectorFlowKgPerS(rating, fuel, rating.pressureDifferencePa);
  return (
    rating.pressureDifferencePa * (positive('static flow', staticFlowKgPerS, 'kg/s') / atRated) ** 2
  );
}

/** What a pump has to give, and against what. */
export interface PumpNeed {
  readonly volumeM3PerS: number;
  /** At the pump, over the room: by this pressure the pump's own curve is read. */
  readonly pressureGaugePa: number;
}

/**
 * Flow [m³/s] and pressure [Pa gauge] to choose a pump by.
 *
 * Formula: V̇ = margin · ṁ/ρ; p = Δp_injector + (boost) + line loss, as a regulator referenced to the manifold holds the
 * difference across the injectors.
 * @param parts.manifoldGaugePa  boost over the room; 0 without it, where the manifold reaches the room's pressure
 * @throws NonPhysicalError  a margin below 1, or a pressure or flow that cannot be
 */
export function pumpNeed(parts: {
  readonly fuelFlowKgPerS: number;
  readonly fuel: Pick<Fuel, 'densityKgPerM3'>;
  readonly margin?: number;
  readonly pressureDifferencePa: number;
  readonly manifoldGaugePa?: number;
  readonly lineLossPa?: number;
}): PumpNeed {
  const { margin = PUMP_MARGIN_RANGE[1], manifoldGaugePa = 0, lineLossPa = 0 } = parts;
  possible('pump margin', margin, '', margin >= 1, '1 or more');
  return {
    volumeM3PerS:
      (margin * positive('fuel flow', parts.fuelFlowKgPerS, 'kg/s')) /
      positive('density of fuel', parts.fuel.densityKgPerM3, 'kg/m³'),
    pressureGaugePa:
      positive('pressure difference', parts.pressureDifferencePa, 'Pa') +
      notNegative('boost', manifoldGaugePa, 'Pa') +
      notNegative('line loss', lineLossPa, 'Pa'),
  };
}

function duty(share: number): number {
  return possible('injector duty', share, '', share > 0 && share <= 1, 'above 0, up to 1');
}

import { crossingOnInterval } from '../../numerics/index.ts';
import { notNegative, positive, within } from '../possible.ts';
import { checkedGas, DRY_AIR, type Gas } from './gas.ts';

/** What stands before a throttle, valve or orifice, at rest. */
export interface Upstream {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
  /** Dry air unless said. */
  readonly gas?: Gas;
}

/**
 * Downstream over upstream pressure at and below which the flow chokes: (2/(γ+1))^(γ/(γ−1)), 0.528 for air.
 * @source  energy and continuity with M = 1 in the throat; NACA 1135 eq. 150 (from memory), table values in the test
 */
export function criticalPressureRatio(heatRatio: number = DRY_AIR.heatRatio): number {
  checkedGas({ ...DRY_AIR, heatRatio });
  return (2 / (heatRatio + 1)) ** (heatRatio / (heatRatio - 1));
}

/**
 * ṁ √(R T₀)/(A p₀) of isentropic flow to a pressure ratio r: r^(1/γ) √(2γ/(γ−1) (1 − r^((γ−1)/γ))), held at its
 * choked value below the critical ratio.
 *
 * Why: the gas speeds up to w = √(2 c_p (T₀ − T)) while T/T₀ = r^((γ−1)/γ), and ṁ = ρ w A with ρ = ρ₀ r^(1/γ).
 * @source  Heywood, Internal Combustion Engine Fundamentals, appendix C (from memory); checked against printed tables
 * @throws NonPhysicalError  a ratio outside 0 to 1: flow backwards is the same flow with the sides changed
 */
export function flowFunction(pressureRatio: number, heatRatio: number = DRY_AIR.heatRatio): number {
  within('pressure ratio', pressureRatio, '', [0, 1]);
  const r = Math.max(pressureRatio, criticalPressureRatio(heatRatio));
  const drop = 1 - r ** ((heatRatio - 1) / heatRatio);
  return r ** (1 / heatRatio) * Math.sqrt(((2 * heatRatio) / (heatRatio - 1)) * Math.max(0, drop));
}

/**
 * Mass flow [kg/s] through an effective area (discharge coefficient × area) to a downstream pressure.
 * @throws NonPhysicalError  a pressure or temperature not above 0, downstream above upstream
 */
export function restrictionFlowKgPerS(
  upstream: Upstream,
  downstreamPressureAbsPa: number,
  effectiveAreaM2: number,
): number {
  notNegative('downstream pressure', downstreamPressureAbsPa, 'Pa');
  const ratio =
    downstreamPressureAbsPa / positive('upstream pressure', upstream.pressureAbsPa, 'Pa');
  const { heatRatio } = upstream.gas ?? DRY_AIR;
  return (
    notNegative('effective area', effectiveAreaM2, 'm²') *
    fluxScale(upstream) *
    flowFunction(ratio, heatRatio)
  );
}

/** Most [kg/s] that an effective area passes at all: it is choked. */
export function chokedFlowKgPerS(upstream: Upstream, effectiveAreaM2: number): number {
  return restrictionFlowKgPerS(upstream, 0, effectiveAreaM2);
}

/** Effective area [m²] that passes a flow [kg/s] to a downstream pressure. @throws NonPhysicalError  no pressure drop */
export function effectiveAreaForFlowM2(
  upstream: Upstream,
  downstreamPressureAbsPa: number,
  massFlowKgPerS: number,
): number {
  const perArea = restrictionFlowKgPerS(upstream, downstreamPressureAbsPa, 1);
  return (
    notNegative('mass flow', massFlowKgPerS, 'kg/s') /
    positive('pressure drop', perArea, 'kg/(s m²)')
  );
}

/** What a restriction does at a demand: it lets it through with a loss, or cannot. */
export type Passage =
  | {
      readonly state: 'flows';
      readonly pressureDropPa: number;
      readonly downstreamPressureAbsPa: number;
    }
  | { readonly state: 'chokes'; readonly greatestFlowKgPerS: number };

/**
 * Pressure that a demand [kg/s] loses across an effective area; or the most that passes, where it chokes before.
 * None of the jet's speed is counted as regained behind it, which errs to the safe side.
 * @throws NonPhysicalError  an area, pressure or temperature not above 0
 */
export function passageAt(
  upstream: Upstream,
  effectiveAreaM2: number,
  massFlowKgPerS: number,
): Passage {
  positive('effective area', effectiveAreaM2, 'm²');
  notNegative('mass flow', massFlowKgPerS, 'kg/s');
  const greatestFlowKgPerS = chokedFlowKgPerS(upstream, effectiveAreaM2);
  if (massFlowKgPerS > greatestFlowKgPerS) return { state: 'chokes', greatestFlowKgPerS };
  const { heatRatio } = upstream.gas ?? DRY_AIR;
  const wanted = massFlowKgPerS / (effectiveAreaM2 * fluxScale(upstream));
  const critical = criticalPressureRatio(heatRatio);
  const ratio =
    massFlowKgPerS === greatestFlowKgPerS
      ? critical
      : crossingOnInterval((r) => flowFunction(r, heatRatio) - wanted, critical, 1);
  return {
    state: 'flows',
    pressureDropPa: upstream.pressureAbsPa * (1 - ratio),
    downstreamPressureAbsPa: upstream.pressureAbsPa * ratio,
  };
}

/** p₀/√(R T₀) [kg/(s m²)]. */
function fluxScale({ pressureAbsPa, temperatureK, gas = DRY_AIR }: Upstream): number {
  const { gasConstantJPerKgK } = checkedGas(gas);
  return (
    positive('upstream pressure', pressureAbsPa, 'Pa') /
    Math.sqrt(gasConstantJPerKgK * positive('upstream temperature', temperatureK, 'K'))
  );
}

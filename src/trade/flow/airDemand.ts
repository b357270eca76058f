import { positive } from '../possible.ts';
import { fullAirFlowM3PerS } from '../power.ts';

/** An engine at a speed and how well it fills. */
export interface Breathing {
  readonly displacementM3: number;
  readonly speedRpm: number;
  readonly cycle: 2 | 4;
  /** Against the density given below. */
  readonly volumetricEfficiency: number;
  /** Of the air that the efficiency and the volume are counted in: the room's, unless said otherwise. */
  readonly densityKgPerM3: number;
}

/** Efficiencies seen: road 0.80 to 0.95, tuned 1.00 to 1.25 at the peak. From memory, low confidence. */
export const VOLUMETRIC_EFFICIENCY_RANGE = [0.6, 1.25] as const;

/**
 * Air an engine takes: VE Vd n (halved for four strokes), as volume [m³/s] of the stated air and as mass [kg/s].
 * @source  definition; in cubic inches and feet it is CID · rev/min / 3456 · VE
 * @throws NonPhysicalError  not above 0
 */
export function airDemand(engine: Breathing): {
  readonly volumeM3PerS: number;
  readonly massKgPerS: number;
} {
  positive('displacement', engine.displacementM3, 'm³');
  positive('speed', engine.speedRpm, 'rev/min');
  const volumeM3PerS =
    positive('volumetric efficiency', engine.volumetricEfficiency, '') * fullAirFlowM3PerS(engine);
  return {
    volumeM3PerS,
    massKgPerS: volumeM3PerS * positive('density of air', engine.densityKgPerM3, 'kg/m³'),
  };
}

/** Depressions [Pa] that carburettors are rated at: four barrels 1.5 inHg, two barrels 3.0 inHg. Common practice. */
export const CARBURETTOR_RATED_DEPRESSION_PA = {
  fourBarrel: 5079.58,
  twoBarrel: 10_159.17,
} as const;

/**
 * Rated flow [m³/s] of the carburettor (or throttle) that passes a demand at a wanted depression:
 * Q_rated = Q √(Δp_rated/Δp_wanted). Less depression wanted asks a larger one.
 * @validity  as √Δp, DEPRESSION_RANGE_PA
 * @throws NonPhysicalError  not above 0
 */
export function carburettorSizeM3PerS(parts: {
  readonly demandM3PerS: number;
  readonly wantedDepressionPa: number;
  readonly ratedDepressionPa: number;
}): number {
  return (
    positive('air demand', parts.demandM3PerS, 'm³/s') *
    Math.sqrt(
      positive('rated depression', parts.ratedDepressionPa, 'Pa') /
        positive('wanted depression', parts.wantedDepressionPa, 'Pa'),
    )
  );
}

/** Depression [Pa] below a carburettor at a demand: Δp_rated (Q/Q_rated)². @throws NonPhysicalError  not above 0 */
export function carburettorDepressionPa(parts: {
  readonly demandM3PerS: number;
  readonly ratedFlowM3PerS: number;
  readonly ratedDepressionPa: number;
}): number {
  return (
    positive('rated depression', parts.ratedDepressionPa, 'Pa') *
    (positive('air demand', parts.demandM3PerS, 'm³/s') /
      positive('rated flow', parts.ratedFlowM3PerS, 'm³/s')) **
      2
  );
}

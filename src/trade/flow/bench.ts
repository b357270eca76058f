import { NonPhysicalError } from '../../errors.ts';
import { monotoneQuintic, type QuinticCurve, quinticAt } from '../../numerics/index.ts';
import { notNegative, positive, possible } from '../possible.ts';
import { gasDensityKgPerM3 } from './gas.ts';
import { effectiveAreaForFlowM2 } from './restriction.ts';

/** Lift and flow [m³/s, of the bench's room air] as read. */
export interface BenchPoint {
  readonly liftM: number;
  readonly flowM3PerS: number;
}

/** A flow bench's table of one port, all valves of that side of one cylinder open together. */
export interface BenchTable {
  /** Pressure difference across the port, above 0 either way. */
  readonly depressionPa: number;
  /** Lifts rising. */
  readonly points: readonly BenchPoint[];
  /** An exhaust port is blown from the cylinder outwards. Inlet unless said. */
  readonly side?: 'inlet' | 'exhaust';
  /** The bench's room; 101.325 kPa and 20 °C unless said. */
  readonly room?: { readonly pressureAbsPa: number; readonly temperatureK: number };
}

/** Effective area against lift as a curve that never overshoots the readings. Plain data. */
export interface AreaCurve {
  readonly curve: QuinticCurve;
  readonly greatestLiftM: number;
}

const ROOM = { pressureAbsPa: 101_325, temperatureK: 293.15 } as const;

/**
 * Depressions [Pa] between which benches test and √Δp serves: 3 to 48 inches of water. Below, flow is not fully
 * turbulent; above, and between the ends, air's own stretching makes √Δp read high: by 2.5 % from 10 to 28 inches.
 * Common practice; the figure is derived in the test.
 */
export const DEPRESSION_RANGE_PA = [750, 12_000] as const;

/**
 * Flow [m³/s] that a bench would read at another depression: Q₂ = Q₁ √(Δp₂/Δp₁), the trade's rule.
 * @source    Bernoulli for a fluid that does not stretch; what the trade converts by
 * @validity  DEPRESSION_RANGE_PA; `flowAtDepressionCompressibleM3PerS` counts the stretching
 * @throws NonPhysicalError  a depression not above 0, a flow below 0
 */
export function flowAtDepressionM3PerS(flowM3PerS: number, fromPa: number, toPa: number): number {
  return (
    notNegative('flow', flowM3PerS, 'm³/s') *
    Math.sqrt(positive('depression', toPa, 'Pa') / positive('depression', fromPa, 'Pa'))
  );
}

/** The same for air that stretches: the flow at the other depression through the same effective area. */
export function flowAtDepressionCompressibleM3PerS(
  flowM3PerS: number,
  table: Omit<BenchTable, 'points'>,
  toPa: number,
): number {
  const area = benchEffectiveAreaM2(table, flowM3PerS);
  return area / benchEffectiveAreaM2({ ...table, depressionPa: toPa }, 1);
}

/**
 * Effective area [m²] of a port at one reading: the ideal nozzle that passes as much at the same depression.
 * @throws NonPhysicalError  a depression that is not above 0 or reaches the room's pressure
 */
export function benchEffectiveAreaM2(
  { depressionPa, side = 'inlet', room = ROOM }: Omit<BenchTable, 'points'>,
  flowM3PerS: number,
): number {
  const { pressureAbsPa, temperatureK } = room;
  possible(
    'depression',
    depressionPa,
    'Pa',
    depressionPa > 0 && depressionPa < pressureAbsPa,
    `above 0 and below the room's ${pressureAbsPa} Pa`,
  );
  const massFlow =
    notNegative('flow', flowM3PerS, 'm³/s') * gasDensityKgPerM3(pressureAbsPa, temperatureK);
  const [before, behind] =
    side === 'inlet'
      ? [pressureAbsPa, pressureAbsPa - depressionPa]
      : [pressureAbsPa + depressionPa, pressureAbsPa];
  return effectiveAreaForFlowM2({ pressureAbsPa: before, temperatureK }, behind, massFlow);
}

/**
 * Effective area against lift, from 0 where the valve is shut.
 * @throws NonPhysicalError  fewer than two readings, lifts that do not rise, a reading that cannot be
 */
export function areaCurve(table: BenchTable): AreaCurve {
  const points = table.points.filter(({ liftM, flowM3PerS }) => liftM !== 0 || flowM3PerS !== 0);
  if (points.length < 2)
    throw new NonPhysicalError(
      `missing flow readings: ${points.length} above zero lift; expected at least 2`,
    );
  points.forEach(({ liftM }, i) => {
    const below = i === 0 ? 0 : points[i - 1]!.liftM;
    possible(`lift of reading ${i + 1}`, liftM, 'm', liftM > below, `more than ${below} m`);
  });
  const curve = monotoneQuintic([
    { place: 0, value: 0 },
    ...points.map(({ liftM, flowM3PerS }) => ({
      place: liftM,
      value: benchEffectiveAreaM2(table, flowM3PerS),
    })),
  ]);
  return { curve, greatestLiftM: points.at(-1)!.liftM };
}

/**
 * Effective area [m²] at a lift [m]; 0 for a shut valve. Above the greatest lift that was flowed the last reading is
 * held, never carried on: ask `greatestLiftM` whether that happened.
 */
export function effectiveAreaAtM2({ curve, greatestLiftM }: AreaCurve, liftM: number): number {
  if (!(liftM > 0)) return 0;
  return quinticAt(curve, Math.min(liftM, greatestLiftM));
}

/** Curtain [m²] round a valve's edge: π D L. @throws NonPhysicalError  a diameter not above 0, a lift below 0 */
export function curtainAreaM2(valveDiameterM: number, liftM: number): number {
  return (
    Math.PI * positive('valve diameter', valveDiameterM, 'm') * notNegative('lift', liftM, 'm')
  );
}

/** Disc [m²] of a valve (or throat) of this diameter: π/4 D². @throws NonPhysicalError  a diameter not above 0 */
export function valveAreaM2(valveDiameterM: number): number {
  return (Math.PI / 4) * positive('valve diameter', valveDiameterM, 'm') ** 2;
}

/**
 * Coefficients on the curtain that poppet valves show: 0.6 to 0.7 at low lift, 0.6 at a lift of D/4, 0.45 to 0.5 at
 * 0.35 D. Above 0.9 the depression, a diameter or the units are wrong. From memory (Heywood §6.3), low confidence.
 */
export const CURTAIN_COEFFICIENT_RANGE = [0.4, 0.75] as const;

/** Effective area over a stated one. @throws NonPhysicalError  a reference area not above 0 */
export function dischargeCoefficient(effectiveAreaM2: number, referenceAreaM2: number): number {
  return (
    notNegative('effective area', effectiveAreaM2, 'm²') /
    positive('reference area', referenceAreaM2, 'm²')
  );
}

/** Ratio of exhaust to inlet flow at the same lift and depression. @throws NonPhysicalError  no inlet flow */
export function exhaustToInletRatio(exhaustFlowM3PerS: number, inletFlowM3PerS: number): number {
  return (
    notNegative('exhaust flow', exhaustFlowM3PerS, 'm³/s') /
    positive('inlet flow', inletFlowM3PerS, 'm³/s')
  );
}

/**
 * Ratios for a look: one study's best over its speeds was about 1 (NACA TN 1365, 1947, exhaust at inlet pressure); heads
 * sold stand at 0.65 to 0.85 (common practice, no source).
 */
export const EXHAUST_TO_INLET_RATIO = { bestOfStudy: 1, practice: [0.65, 0.85] } as const;

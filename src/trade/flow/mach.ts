import { NonPhysicalError } from '../../errors.ts';
import { finite, positive, possible } from '../possible.ts';
import { meanPistonSpeedMPerS } from '../power.ts';
import { type AreaCurve, effectiveAreaAtM2 } from './bench.ts';

/** A valve's lift [m] at a crank angle [deg], and between which angles it is off its seat. */
export interface LiftEvent {
  readonly liftM: (crankDeg: number) => number;
  readonly opensDeg: number;
  /** After `opensDeg`; add 720 where it wraps. */
  readonly closesDeg: number;
}

export interface MeanArea {
  /** Of all valves of that side of one cylinder, as the bench table was. */
  readonly areaM2: number;
  readonly openDeg: number;
  readonly greatestLiftM: number;
  /** Degrees for which the lift stood above the greatest lift that was flowed; the last reading was held there. */
  readonly beyondTableDeg: number;
}

const STEP_DEG = 1;

/**
 * Mean over the time a valve is open of its effective area, through the lift it has at each angle.
 * @source  the mean in JSME's definition of the index ((μF)_m over the open period) and in Taylor's C_i
 * @throws NonPhysicalError  a valve that closes before it opens, stays open 720° or has a lift that is no number
 */
export function meanEffectiveArea(area: AreaCurve, event: LiftEvent): MeanArea {
  const { opensDeg, closesDeg } = event;
  const openDeg = finite('closing', closesDeg, '°') - finite('opening', opensDeg, '°');
  possible('open period', openDeg, '°', openDeg > 0 && openDeg < 720, 'above 0 and below 720°');
  // Simpson's rule over an even number of intervals.
  const count = 2 * Math.ceil(openDeg / STEP_DEG / 2);
  const step = openDeg / count;
  let [sum, greatestLiftM, beyond] = [0, 0, 0];
  for (let i = 0; i <= count; i++) {
    const lift = finite('lift', event.liftM(opensDeg + i * step), 'm');
    const weight = i === 0 || i === count ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * effectiveAreaAtM2(area, lift);
    greatestLiftM = Math.max(greatestLiftM, lift);
    if (lift > area.greatestLiftM * (1 + 1e-9)) beyond++;
  }
  if (!(sum > 0))
    throw new NonPhysicalError(
      `invalid lift: the valve never leaves its seat from ${opensDeg}° to ${closesDeg}°; expected a lift above 0`,
    );
  return { areaM2: sum / (3 * count), openDeg, greatestLiftM, beyondTableDeg: beyond * step };
}

/** What the index is made of, per cylinder. */
export interface InletFlow {
  readonly boreM: number;
  readonly strokeM: number;
  /** Mean effective area of all inlet valves of the cylinder. */
  readonly meanAreaM2: number;
  /** Speed of sound in the inlet. */
  readonly soundMPerS: number;
}

/**
 * Where volumetric efficiency gives way. JSME: it falls sharply above 0.5; Taylor's curves of ten engines fall above
 * about 0.6 (from memory). Both were found with valve timing of their day; long durations shift it up.
 */
export const INLET_MACH_INDEX = { fallsFrom: 0.5, chokesAt: 0.6 } as const;

/**
 * Mean inlet Mach index Z: piston area times mean piston speed over mean effective valve area times speed of sound.
 *
 * Taylor's form is (b/D)² s̄/(C_i a) with C_i the mean effective area over π/4 D²: the same. It is the Mach number that
 * the gas would have in the mean effective area if the cylinder filled in one stroke and air did not stretch.
 * @source  C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1 ch. 6 (from memory); JSME
 *   Mechanical Engineering Dictionary, entry 11:1002813
 * @throws NonPhysicalError  a dimension or speed not above 0
 */
export function inletMachIndex(inlet: InletFlow, speedRpm: number): number {
  positive('speed', speedRpm, 'rev/min');
  return (
    (meanPistonSpeedMPerS(positive('stroke', inlet.strokeM, 'm'), speedRpm) *
      pistonArea(inlet.boreM)) /
    throat(inlet)
  );
}

/** Speed [rev/min] at which the index reaches a value. @throws NonPhysicalError  as `inletMachIndex` */
export function speedAtMachIndexRpm(
  inlet: InletFlow,
  index: number = INLET_MACH_INDEX.chokesAt,
): number {
  return (
    (positive('Mach index', index, '') * throat(inlet) * 30) /
    (pistonArea(inlet.boreM) * positive('stroke', inlet.strokeM, 'm'))
  );
}

/** Mean effective area [m²] that keeps the index at a value at a speed: what to ask of head and cam. */
export function meanAreaForIndexM2(
  inlet: Omit<InletFlow, 'meanAreaM2'>,
  speedRpm: number,
  index: number = INLET_MACH_INDEX.fallsFrom,
): number {
  return inletMachIndex({ ...inlet, meanAreaM2: 1 }, speedRpm) / positive('Mach index', index, '');
}

function pistonArea(boreM: number): number {
  return (Math.PI / 4) * positive('bore', boreM, 'm') ** 2;
}

function throat({ meanAreaM2, soundMPerS }: InletFlow): number {
  return (
    positive('mean effective area', meanAreaM2, 'm²') *
    positive('speed of sound', soundMPerS, 'm/s')
  );
}

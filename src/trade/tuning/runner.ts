import { notNegative, positive, possible } from '../possible.ts';

/**
 * Inlet pipes as organ pipes: shut by the valve at one end, open at the other. All lengths run from the valve's seat to
 * where the pipe opens, less the end correction; the sound's speed is `soundMPerS` of the inlet's temperature.
 */

/** What an organ pipe is tuned for. */
export interface WaveTuning {
  readonly soundMPerS: number;
  /** Four strokes unless said: then the valve opens every second turn. */
  readonly cycle?: 2 | 4;
}

/**
 * Orders worth trying, and those between them to stay off: with q and a half the standing wave left from the last
 * cycle helps as the valve opens, with whole q it hinders. From memory (Boden & Schecter, NACA TN 935; Obert), medium.
 * A low order is stronger and asks a longer pipe.
 */
export const FAVOURABLE_ORDERS = [2.5, 3.5, 4.5, 5.5] as const;

/**
 * Length [m] whose quarter wave swings q times a cycle: f = a/(4L), f = q n/(60 · turns), so L = 15 · turns · a/(q n).
 * @param order  q, how often the pipe swings in one engine cycle
 * @source  organ pipe shut at one end (Rayleigh); q as in NACA TN 935 (from memory)
 * @throws NonPhysicalError  not above 0
 */
export function quarterWaveLengthM(tuning: WaveTuning, speedRpm: number, order: number): number {
  return quarterWave(tuning, order) / positive('speed', speedRpm, 'rev/min');
}

/** Speed [rev/min] for a length [m]: the same turned round. */
export function quarterWaveSpeedRpm(tuning: WaveTuning, lengthM: number, order: number): number {
  return quarterWave(tuning, order) / positive('length', lengthM, 'm');
}

/** How often [a cycle] a pipe of this length [m] swings at a speed: q itself, to be held against FAVOURABLE_ORDERS. */
export function quarterWaveOrder(tuning: WaveTuning, lengthM: number, speedRpm: number): number {
  return (
    quarterWave(tuning, 1) /
    (positive('length', lengthM, 'm') * positive('speed', speedRpm, 'rev/min'))
  );
}

/** The favourable orders with the length of each at a speed, longest (and strongest) first. */
export function quarterWaveLengths(
  tuning: WaveTuning,
  speedRpm: number,
): readonly { readonly order: number; readonly lengthM: number }[] {
  return FAVOURABLE_ORDERS.map((order) => ({
    order,
    lengthM: quarterWaveLengthM(tuning, speedRpm, order),
  }));
}

/** The favourable orders with the speed at which a pipe of this length has each, fastest (and strongest) first. */
export function quarterWaveSpeeds(
  tuning: WaveTuning,
  lengthM: number,
): readonly { readonly order: number; readonly speedRpm: number }[] {
  return FAVOURABLE_ORDERS.map((order) => ({
    order,
    speedRpm: quarterWaveSpeedRpm(tuning, lengthM, order),
  }));
}

/** Crank degrees between the piston's pull and its echo at the valve that fill best: 80 to 90. From memory (Heisler). */
export const RAM_TRAVEL_RANGE_DEG = [80, 90] as const;

/**
 * Length [m] down which and back a wave travels in so many crank degrees: t = 2L/a and θ = 6 n t, so L = θ a/(12 n).
 * @source  reflected wave; H. Heisler, Advanced Engine Technology, ch. 6 (from memory), exercise in the test
 * @throws NonPhysicalError  not above 0
 */
export function reflectedWaveLengthM(
  soundMPerS: number,
  speedRpm: number,
  travelDeg: number,
): number {
  return reflectedWave(soundMPerS, travelDeg) / positive('speed', speedRpm, 'rev/min');
}

/** Speed [rev/min] at which a length [m] takes so many degrees: the same turned round. */
export function reflectedWaveSpeedRpm(
  soundMPerS: number,
  lengthM: number,
  travelDeg: number,
): number {
  return reflectedWave(soundMPerS, travelDeg) / positive('length', lengthM, 'm');
}

/**
 * Part of the acoustic length [m] that lies outside an open end: 0.61 radii of a plain end, 0.82 in a wall. Take it off
 * the tuned length to have the pipe's own. A rounded mouth counts from about where its flare begins (common practice).
 * @source  Levine & Schwinger 1948 (plain, 0.6133); Nomura et al. 1960 (in a wall, 0.8217); from memory
 * @throws NonPhysicalError  a radius below 0
 */
export function endCorrectionM(pipeRadiusM: number, end: 'plain' | 'in a wall'): number {
  return (end === 'plain' ? 0.6133 : 0.8217) * notNegative('pipe radius', pipeRadiusM, 'm');
}

/** Pipe [m] to make for an acoustic length: less port and end. @throws NonPhysicalError  where nothing is left */
export function pipeToMakeM(
  acousticLengthM: number,
  portLengthM: number,
  correctionM: number,
): number {
  const left =
    positive('acoustic length', acousticLengthM, 'm') -
    notNegative('port length', portLengthM, 'm') -
    notNegative('end correction', correctionM, 'm');
  possible('pipe', left, 'm', left > 0, 'a tuned length longer than port and end together');
  return left;
}

function quarterWave({ soundMPerS, cycle = 4 }: WaveTuning, order: number): number {
  const turns = cycle / 2;
  return (
    (15 * turns * positive('speed of sound', soundMPerS, 'm/s')) / positive('order', order, '')
  );
}

function reflectedWave(soundMPerS: number, travelDeg: number): number {
  return (positive('travel', travelDeg, '°') * positive('speed of sound', soundMPerS, 'm/s')) / 12;
}

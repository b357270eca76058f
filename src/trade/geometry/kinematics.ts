import { crossingOnInterval, smallestOnInterval } from '../../numerics/index.ts';
import { finite, possible, within } from '../possible.ts';
import { meanPistonSpeedMPerS, RAD_PER_S_PER_RPM } from '../power.ts';

const RAD_PER_DEG = Math.PI / 180;

/** Sizes, speeds and angles that are taken for real; beyond is a slip of the unit. */
export const SLIDER_LENGTH_M = [1e-3, 10] as const;
export const CRANK_SPEED_RPM = [0, 1e5] as const;
export const CRANK_ANGLE_DEG = [-1e6, 1e6] as const;

/**
 * Crank, rod and piston. Crank angles are those of a degree wheel: 0 at the piston's own top (found with a piston stop),
 * rising with the crank's turning; so 180 is half a turn after the top, which with an offset is not quite the bottom.
 */
export interface CrankSlider {
  /** Twice the crank's radius. */
  readonly strokeM: number;
  /** Centre to centre. */
  readonly rodLengthM: number;
  /**
   * How far the pin's line stands from the crank's axis, positive towards the wall that is pressed on the power stroke
   * (the major thrust side: opposite to the crankpin on its way down). A cylinder set off from the crank adds to it.
   */
  readonly pinOffsetM?: number;
}

/** The slider in radii: r, l, e, and the angle of the crank from the cylinder's line at the piston's top. */
interface Throw {
  readonly r: number;
  readonly l: number;
  readonly e: number;
  readonly topRad: number;
  readonly topM: number;
}

/*
 * With φ the crank's angle from the line of the cylinder, the crankpin at (r sin φ, r cos φ) and the piston pin at
 * (−e, y): y = r cos φ + √(l² − (r sin φ + e)²). The top is where crank and rod are in line: sin φ₀ = −e/(r + l) and
 * y₀ = √((r + l)² − e²). Distance from the top: x = y₀ − y. With s = r sin φ + e, c = r cos φ, q = √(l² − s²):
 * dx/dφ = r sin φ + s c/q and d²x/dφ² = c + (c² − s r sin φ)/q + s² c²/q³.
 */
function throwOf(slider: CrankSlider): Throw {
  const r = within('stroke', slider.strokeM, 'm', SLIDER_LENGTH_M) / 2;
  const l = within('rod length', slider.rodLengthM, 'm', SLIDER_LENGTH_M);
  const e = finite('pin offset', slider.pinOffsetM ?? 0, 'm');
  possible(
    'rod length',
    l,
    'm',
    l > r + Math.abs(e),
    `more than half the stroke and the pin offset, ${r + Math.abs(e)} m`,
  );
  return { r, l, e, topRad: -Math.asin(e / (r + l)), topM: Math.sqrt((r + l) ** 2 - e ** 2) };
}

/** Height [m] of the piston pin above the crank's axis at the top: √((r + l)² − e²), r + l without offset. */
export function pinHeightAtTopM(slider: CrankSlider): number {
  return throwOf(slider).topM;
}

/** Distance [m] that the piston really travels; with an offset a little more than twice the crank's radius. */
export function pistonTravelM(slider: CrankSlider): number {
  const { r, l, e, topM } = throwOf(slider);
  return topM - Math.sqrt((l - r) ** 2 - e ** 2);
}

export interface PistonMotion {
  /** Below the top. */
  readonly positionM: number;
  /** Positive towards the crank. */
  readonly velocityMPerS: number;
  /** Positive towards the crank: at the top the rod pulls the piston down. */
  readonly accelerationMPerS2: number;
}

/**
 * Position, velocity and acceleration of a piston at a crank angle and a steady speed; closed form, no series.
 * @param crankDeg  after the piston's top, any real number
 * @throws NonPhysicalError  the rod is too short for the crank and offset, or a value is not a number
 */
export function pistonMotion(
  slider: CrankSlider,
  crankDeg: number,
  speedRpm: number,
): PistonMotion {
  const { x, dx, ddx } = motionPerRad(
    throwOf(slider),
    within('crank angle', crankDeg, '°', CRANK_ANGLE_DEG),
  );
  const omega = within('speed', speedRpm, 'rev/min', CRANK_SPEED_RPM) * RAD_PER_S_PER_RPM;
  return { positionM: x, velocityMPerS: dx * omega, accelerationMPerS2: ddx * omega ** 2 };
}

/** Distance [m] of the piston below its top at a crank angle. */
export function pistonPositionM(slider: CrankSlider, crankDeg: number): number {
  return pistonPositionsM(slider)(crankDeg);
}

/** The same for many angles of one slider, which is looked at only once. */
export function pistonPositionsM(slider: CrankSlider): (crankDeg: number) => number {
  const parts = throwOf(slider);
  return (crankDeg) => motionPerRad(parts, within('crank angle', crankDeg, '°', CRANK_ANGLE_DEG)).x;
}

function motionPerRad({ r, l, e, topRad, topM }: Throw, crankDeg: number) {
  const angle = topRad + crankDeg * RAD_PER_DEG;
  const rSin = r * Math.sin(angle);
  const c = r * Math.cos(angle);
  const s = rSin + e;
  const q = Math.sqrt(l * l - s * s);
  // At the top two equal numbers are subtracted: what rounding leaves below zero is no position.
  const x = Math.max(0, topM - c - q);
  return { x, dx: rSin + (s * c) / q, ddx: c + (c * c - s * rSin) / q + (s * s * c * c) / q ** 3 };
}

export interface AtCrank {
  readonly crankDeg: number;
  readonly value: number;
}

/** Largest speed [m/s] of the piston going down and going up, each with its crank angle after the top. */
export function peakPistonSpeeds(
  slider: CrankSlider,
  speedRpm: number,
): { readonly down: AtCrank; readonly up: AtCrank } {
  const parts = throwOf(slider);
  const omega = within('speed', speedRpm, 'rev/min', CRANK_SPEED_RPM) * RAD_PER_S_PER_RPM;
  // The speed peaks where the acceleration passes through zero, once on the way down and once on the way up.
  const bottomDeg = bottomAngleDeg(parts);
  const peak = (fromDeg: number, toDeg: number): AtCrank => {
    const crankDeg = crossingOnInterval((deg) => motionPerRad(parts, deg).ddx, fromDeg, toDeg);
    return { crankDeg, value: Math.abs(motionPerRad(parts, crankDeg).dx) * omega };
  };
  return { down: peak(0, bottomDeg), up: peak(bottomDeg, 360) };
}

/** At the bottom crank and rod lie on each other: sin φ = e/(l − r), cos φ < 0. */
function bottomAngleDeg({ r, l, e, topRad }: Throw): number {
  return (Math.PI - Math.asin(e / (l - r)) - topRad) / RAD_PER_DEG;
}

/**
 * Largest acceleration [m/s²] towards the crank (at the top or within a few degrees of it) and away from it (at the
 * bottom with a long rod; with a rod shorter than twice the stroke on either side of it), with their crank angles.
 */
export function peakPistonAccelerations(
  slider: CrankSlider,
  speedRpm: number,
): { readonly towardsCrank: AtCrank; readonly awayFromCrank: AtCrank } {
  const parts = throwOf(slider);
  const omega2 = (within('speed', speedRpm, 'rev/min', CRANK_SPEED_RPM) * RAD_PER_S_PER_RPM) ** 2;
  const per = (deg: number) => motionPerRad(parts, deg).ddx;
  const towards = smallestOnInterval((deg) => -per(deg), -180, 180, 360);
  const away = smallestOnInterval(per, 0, 360, 360);
  return {
    towardsCrank: { crankDeg: towards.x, value: -towards.value * omega2 },
    awayFromCrank: { crankDeg: away.x, value: -away.value * omega2 },
  };
}

export interface PistonSpeedRow {
  readonly speedRpm: number;
  readonly meanMPerS: number;
  readonly peakMPerS: number;
  readonly peakCrankDeg: number;
  readonly towardsCrankMPerS2: number;
  readonly awayFromCrankMPerS2: number;
}

/** Mean and peak piston speed and peak accelerations at each of the speeds. */
export function pistonSpeedTable(
  slider: CrankSlider,
  speedsRpm: readonly number[],
): PistonSpeedRow[] {
  // All of them grow with the speed or its square: the angles are found once.
  const { down, up } = peakPistonSpeeds(slider, 1);
  const peak = down.value >= up.value ? down : up;
  const accelerations = peakPistonAccelerations(slider, 1);
  return speedsRpm.map((speedRpm) => ({
    speedRpm: within('speed', speedRpm, 'rev/min', CRANK_SPEED_RPM),
    meanMPerS: meanPistonSpeedMPerS(slider.strokeM, speedRpm),
    peakMPerS: peak.value * speedRpm,
    peakCrankDeg: peak.crankDeg,
    towardsCrankMPerS2: accelerations.towardsCrank.value * speedRpm ** 2,
    awayFromCrankMPerS2: accelerations.awayFromCrank.value * speedRpm ** 2,
  }));
}

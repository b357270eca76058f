import { notNegative, positive, within } from '../possible.ts';

/** Conventional standard acceleration of free fall [m/s²], exact. */
export const STANDARD_GRAVITY_M_PER_S2 = 9.80665;

/** Heights in which the free-air term below is good to 1e-6 of g [m]. */
export const GRAVITY_HEIGHT_RANGE_M = [-500, 5000] as const;

/**
 * Acceleration of free fall [m/s²] at a latitude and height: on the reference ellipsoid, less 3.086 µm/s² a metre.
 * What the ground does to it is left out: some 5e-5 of g. Between the equator and the pole it is 0.5 %: weights
 * taken for force at standard gravity can be wrong by half of that.
 *
 * Formula: 9.780 327 (1 + 0.005 302 4 sin² φ − 0.000 005 8 sin² 2φ) − 3.086e-6 h
 * @source    International Gravity Formula 1980 (GRS 80; from memory, its printed values in the test)
 * @validity  GRAVITY_HEIGHT_RANGE_M
 */
export function localGravityMPerS2(latitudeDeg: number, heightM: number): number {
  const latitude = (within('latitude', latitudeDeg, 'deg', [-90, 90]) * Math.PI) / 180;
  const height = within('height', heightM, 'm', GRAVITY_HEIGHT_RANGE_M);
  return (
    9.780327 * (1 + 0.0053024 * Math.sin(latitude) ** 2 - 0.0000058 * Math.sin(2 * latitude) ** 2) -
    3.086e-6 * height
  );
}

/** Share of a steel weight that the air carries: 1.2 / 7850 kg/m³. Left out: weights are marked by their balance in air. */
export const STEEL_BUOYANCY_SHARE = 1.2 / 7850;

/** Arms further out of level than this are not a calibration [deg]. */
export const ARM_ANGLE_RANGE_DEG = [-10, 10] as const;

/**
 * Torque [N·m] of weights on an arm: m g L cos α.
 * @param arm.lengthM       shaft's centre to the weight's line
 * @param arm.offLevelDeg   arm out of level: 1° takes 0.015 %, 2.56° takes 0.1 %
 */
export function armTorqueNm(
  massKg: number,
  arm: { readonly lengthM: number; readonly gravityMPerS2: number; readonly offLevelDeg?: number },
): number {
  const angle = within('arm angle', arm.offLevelDeg ?? 0, 'deg', ARM_ANGLE_RANGE_DEG);
  return (
    notNegative('mass', massKg, 'kg') *
    gravity(arm.gravityMPerS2) *
    positive('arm length', arm.lengthM, 'm') *
    Math.cos((angle * Math.PI) / 180)
  );
}

function gravity(gravityMPerS2: number): number {
  return within('acceleration of free fall', gravityMPerS2, 'm/s²', [9.7, 9.9]);
}

/** What is known of the torque that the weights make, as standard uncertainties relative to it. */
export interface ArmUncertainty {
  /** Of the weights: their tolerance over √3 where only a tolerance is known. */
  readonly massRelative: number;
  readonly armLengthRelative: number;
  readonly gravityRelative: number;
  /** Most that the arm may be out of level either way [deg]. */
  readonly offLevelLimitDeg: number;
}

/**
 * Relative standard uncertainty of an arm's torque: the root of the squares, and 1 − cos α of the greatest tilt, which can
 * only take away, as a rectangle of that width.
 */
export function armRelativeUncertainty(arm: ArmUncertainty): number {
  const tilt = within('limit of the arm angle', arm.offLevelLimitDeg, 'deg', [0, 10]);
  const levelRelative = (1 - Math.cos((tilt * Math.PI) / 180)) / Math.sqrt(3);
  return Math.hypot(
    notNegative('relative uncertainty of the mass', arm.massRelative, ''),
    notNegative('relative uncertainty of the arm', arm.armLengthRelative, ''),
    notNegative('relative uncertainty of gravity', arm.gravityRelative, ''),
    levelRelative,
  );
}

/** Mass [kg] that makes a torque on an arm: the other way round, for choosing weights. */
export function massForTorqueKg(
  torqueNm: number,
  arm: { readonly lengthM: number; readonly gravityMPerS2: number },
): number {
  return (
    notNegative('torque', torqueNm, 'N·m') /
    (gravity(arm.gravityMPerS2) * positive('arm length', arm.lengthM, 'm'))
  );
}

import { finite, notNegative, positive, possible } from '../possible.ts';

/** Ratio that the train really has: valve lift and lash over lobe lift, all measured. */
export function effectiveRatio(valveLiftM: number, lobeLiftM: number, lashM = 0): number {
  return (
    (positive('valve lift', valveLiftM, 'm') + notNegative('lash', lashM, 'm')) /
    positive('lobe lift', lobeLiftM, 'm')
  );
}

/** A rocker whose pivot, tip and pushrod seat lie in line, seen square to the valve's stem. */
export interface RockerGeometry {
  /** Pivot to the middle of the tip's roller or pad [m]. */
  readonly valveArmM: number;
  /** Pivot to the pushrod's seat [m]. */
  readonly pushrodArmM: number;
  readonly valveLiftM: number;
  /** With the valve shut: arm over the line square to the stem through the pivot, tip above it positive [deg]. */
  readonly seatAngleDeg: number;
}

export interface RockerSweep {
  readonly openAngleDeg: number;
  /** Width of the tip's mark across the stem [m]. */
  readonly sweepM: number;
  /** The least that this arm and lift allow: square to the stem at half lift. */
  readonly leastSweepM: number;
}

/**
 * The witness mark: how far the tip wanders across the stem.
 * Derivation: the tip stands at Lv cos φ, and lift is Lv (sin φ_shut − sin φ_open). The cosine is flattest about 0, so equal
 * angles either side wander least: Lv (1 − cos φ), sin φ = lift / 2 Lv.
 */
export function rockerSweep(rocker: RockerGeometry): RockerSweep {
  const { armM, shutSine, openSine, leastSine } = angles(rocker);
  const cosine = (sine: number) => Math.sqrt(1 - sine ** 2);
  const nearest = shutSine > 0 && openSine < 0 ? 1 : Math.max(cosine(shutSine), cosine(openSine));
  const farthest = Math.min(cosine(shutSine), cosine(openSine));
  return {
    openAngleDeg: (Math.asin(openSine) * 180) / Math.PI,
    sweepM: armM * (nearest - farthest),
    leastSweepM: armM * (1 - cosine(leastSine)),
  };
}

/**
 * What brings the arm square to the stem at half lift.
 * @returns pivotRiseM    how far the pivot must move up, away from the head: shims under a stand, or the nut on a stud
 * @returns pushrodGainM  how much longer the pushrod of a stud-mounted rocker must be (shorter where negative)
 * Derivation: the tip's height over the pivot is Lv sin φ; with the valve shut the tip stays, and what the pivot
 * rises the pushrod's end rises (1 + Lp/Lv) times.
 */
export function midLiftCorrection(rocker: RockerGeometry): {
  readonly pivotRiseM: number;
  readonly pushrodGainM: number;
} {
  const { armM, shutSine, leastSine } = angles(rocker);
  const pivotRiseM = armM * (shutSine - leastSine);
  const pushrodArm = positive('rocker pushrod arm', rocker.pushrodArmM, 'm');
  return { pivotRiseM, pushrodGainM: pivotRiseM * (1 + pushrodArm / armM) };
}

function angles({ valveArmM, valveLiftM, seatAngleDeg }: RockerGeometry) {
  const armM = positive('rocker valve arm', valveArmM, 'm');
  const lift = notNegative('valve lift', valveLiftM, 'm');
  possible('rocker angle', seatAngleDeg, 'deg', Math.abs(seatAngleDeg) < 90, '-90 to 90');
  const shutSine = Math.sin((seatAngleDeg * Math.PI) / 180);
  const openSine = shutSine - lift / armM;
  possible('valve lift', lift, 'm', openSine > -1, 'less than the rocker can swing');
  return { armM, shutSine, openSine, leastSine: lift / (2 * armM) };
}

/**
 * Pushrod length [m] from the length of a checking pushrod that just takes up all lash with the geometry right.
 * @param wanted  plunger preload of a hydraulic lifter, or the lash of a solid one at the valve where nothing else adjusts
 */
export function pushrodLengthM(
  zeroLashLengthM: number,
  wanted: { readonly preloadM: number } | { readonly lashM: number; readonly rockerRatio: number },
): number {
  const zero = positive('zero-lash length', zeroLashLengthM, 'm');
  const length =
    'preloadM' in wanted
      ? zero + notNegative('preload', wanted.preloadM, 'm')
      : zero -
        notNegative('lash', wanted.lashM, 'm') / positive('rocker ratio', wanted.rockerRatio, '');
  return positive('pushrod length', length, 'm');
}

/** Pushrods are sold in steps of 0.050 in (common practice, no source). */
export const PUSHROD_STEP_M = 0.05 * 0.0254;

/** The length on sale that comes nearest, and what it is off by (longer positive) [m]. */
export function nearestPushrod(
  lengthM: number,
  stepM = PUSHROD_STEP_M,
): { readonly lengthM: number; readonly offM: number } {
  const step = positive('pushrod step', stepM, 'm');
  const nearest = Math.round(finite('pushrod length', lengthM, 'm') / step) * step;
  return { lengthM: positive('pushrod length', nearest, 'm'), offM: nearest - lengthM };
}

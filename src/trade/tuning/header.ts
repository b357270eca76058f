import { count, positive, possible, within } from '../possible.ts';

const INCH_M = 0.0254;
const CUBIC_CM_M3 = 1e-6;
/** What the formula takes off for the port in the head. */
const PORT_INCH = 3;

/** Exhaust openings for which the formulas give sensible pipes [deg before bottom]; common practice, no source. */
export const HEADER_OPENING_RANGE_DEG = [40, 110] as const;

/**
 * Primary length [m] from the head's face: 850 (180 + EVO)/n − 3 inches.
 *
 * It is a quarter wave in disguise: four lengths L + 3 in are travelled at 518 m/s (1700 ft/s) in 180 + EVO degrees,
 * 4L = a θ/(6n), and 1700 · 12/24 = 850. To go by a measured gas temperature instead, take `reflectedWaveLengthM` with
 * `soundMPerS(T, EXHAUST_GAS)` and half of 180 + EVO, from the valve.
 * @param exhaustOpensBbdcDeg  EVO at the seat, degrees before bottom
 * @source    A. Graham Bell, Four-Stroke Performance Tuning (from memory, medium)
 * @validity  HEADER_OPENING_RANGE_DEG; ± TUNING_UNCERTAINTY_SHARE
 * @throws NonPhysicalError  no speed, an opening outside 0 to 180°, a speed so high that no pipe is left
 */
export function primaryLengthM(exhaustOpensBbdcDeg: number, speedRpm: number): number {
  const inches =
    (850 * openDeg(exhaustOpensBbdcDeg)) / positive('speed', speedRpm, 'rev/min') - PORT_INCH;
  possible('speed', speedRpm, 'rev/min', inches > 0, 'a speed at which more than the port is left');
  return inches * INCH_M;
}

/** Speed [rev/min] that a primary of this length [m] suits: the same turned round. */
export function primarySpeedRpm(exhaustOpensBbdcDeg: number, lengthM: number): number {
  return (
    (850 * openDeg(exhaustOpensBbdcDeg)) /
    (positive('primary length', lengthM, 'm') / INCH_M + PORT_INCH)
  );
}

/**
 * Primary bore [m]: 2.1 √(V_cyl/(25 (L + 3))), V in cm³, L and bore in inches.
 * @source  as `primaryLengthM`
 * @throws NonPhysicalError  not above 0
 */
export function primaryBoreM(cylinderVolumeM3: number, primaryLengthM: number): number {
  return 2.1 * INCH_M * pipeRoot(cylinderVolumeM3, primaryLengthM);
}

/**
 * Bore [m] of the pipe behind the collector that joins `primaries`: 2 √(2V/(25 (L + 3))) for two to four cylinders.
 * @source    as `primaryLengthM` (from memory, low): start here and go by the dyno
 * @throws NonPhysicalError  fewer than two primaries or more than four, a volume or length not above 0
 */
export function collectorBoreM(
  cylinderVolumeM3: number,
  primaryLengthM: number,
  primaries: number,
): number {
  within('primaries joined', count('primaries joined', primaries), '', [2, 4]);
  return 2 * INCH_M * Math.SQRT2 * pipeRoot(cylinderVolumeM3, primaryLengthM);
}

/** Collector lengths tried on large engines [m]: 0.25 to 0.50; longer fills in below the peak. Common practice. */
export const COLLECTOR_LENGTH_RANGE_M = [0.25, 0.5] as const;

function openDeg(exhaustOpensBbdcDeg: number): number {
  return 180 + within('exhaust opening', exhaustOpensBbdcDeg, '° before bottom', [0, 180]);
}

function pipeRoot(cylinderVolumeM3: number, lengthM: number): number {
  const cubicCm = positive('cylinder volume', cylinderVolumeM3, 'm³') / CUBIC_CM_M3;
  const inches = positive('primary length', lengthM, 'm') / INCH_M;
  return Math.sqrt(cubicCm / (25 * (inches + PORT_INCH)));
}

import { positive, possible } from '../possible.ts';

/** One runner and the cylinder it fills. */
export interface Resonator {
  readonly soundMPerS: number;
  readonly runnerLengthM: number;
  readonly runnerAreaM2: number;
  /** Of one cylinder. */
  readonly sweptVolumeM3: number;
  readonly compressionRatio: number;
}

/** A plenum that the runners hang on, and the duct it breathes through. */
export interface Plenum {
  readonly volumeM3: number;
  readonly ductLengthM: number;
  readonly ductAreaM2: number;
}

/**
 * Resonator's frequency over turns a second at the best ram: about 2.1, found between 2.0 and 2.5. From memory (Engelman
 * 1953 and 1973), medium: it hides valve timing.
 */
export const ENGELMAN_RATIO = { usual: 2.1, range: [2, 2.5] } as const;

/**
 * Volume [m³] that the runner works on: the cylinder at half stroke, V/2 + V/(CR − 1) = V/2 · (CR + 1)/(CR − 1).
 * @source  H. W. Engelman, ASME 73-WA/DGP-2, as restated at lists.diy-efi.org 1996-February/004558
 * @throws NonPhysicalError  a volume not above 0, a ratio not above 1
 */
export function resonatorVolumeM3(sweptVolumeM3: number, compressionRatio: number): number {
  possible('compression ratio', compressionRatio, '', compressionRatio > 1, 'above 1');
  return (
    (positive('swept volume', sweptVolumeM3, 'm³') / 2) *
    ((compressionRatio + 1) / (compressionRatio - 1))
  );
}

/** Frequency [Hz] of runner and cylinder with the valve open: a/2π √(A/(L V)). @throws NonPhysicalError  not above 0 */
export function resonatorFrequencyHz(resonator: Resonator): number {
  return (
    (positive('speed of sound', resonator.soundMPerS, 'm/s') / (2 * Math.PI)) *
    Math.sqrt(
      positive('runner area', resonator.runnerAreaM2, 'm²') /
        (positive('runner length', resonator.runnerLengthM, 'm') * volume(resonator)),
    )
  );
}

/**
 * Speed [rev/min] of the best ram: 60 f/K. In feet a second and inches it reads 162/K · c √(A/(L V) · (R−1)/(R+1)).
 * @throws NonPhysicalError  as `resonatorFrequencyHz`
 */
export function ramSpeedRpm(resonator: Resonator, ratio: number = ENGELMAN_RATIO.usual): number {
  return (60 * resonatorFrequencyHz(resonator)) / positive('ratio', ratio, '');
}

/** Runner length [m] that puts the best ram at a speed: the same turned round. */
export function ramRunnerLengthM(
  resonator: Omit<Resonator, 'runnerLengthM'>,
  speedRpm: number,
  ratio: number = ENGELMAN_RATIO.usual,
): number {
  const ofOneMetre = ramSpeedRpm({ ...resonator, runnerLengthM: 1 }, ratio);
  return (ofOneMetre / positive('speed', speedRpm, 'rev/min')) ** 2;
}

/**
 * Both frequencies [Hz], low and high, of a runner and cylinder on a plenum with its duct.
 *
 * f = a/2π √([(ab + a + 1) ∓ √((ab + a + 1)² − 4ab)]/(2ab (L/A)₁ V₁)), a = (L/A)₂/(L/A)₁, b = V₂/V₁. It is two masses of
 * air (runner, duct) on two springs (cylinder, plenum); the test solves that chain on its own. One cylinder at a time
 * draws, as with cylinders that breathe evenly spaced on one plenum, up to four.
 * @source  as `resonatorVolumeM3`; the restatement lost a square root, which its next lines put back
 * @throws NonPhysicalError  not above 0
 */
export function plenumFrequenciesHz(
  resonator: Resonator,
  plenum: Plenum,
): readonly [lowHz: number, highHz: number] {
  const inertance =
    positive('runner length', resonator.runnerLengthM, 'm') /
    positive('runner area', resonator.runnerAreaM2, 'm²');
  const ductInertance =
    positive('duct length', plenum.ductLengthM, 'm') /
    positive('duct area', plenum.ductAreaM2, 'm²');
  const a = ductInertance / inertance;
  const b = positive('plenum volume', plenum.volumeM3, 'm³') / volume(resonator);
  const sum = a * b + a + 1;
  const root = Math.sqrt(sum ** 2 - 4 * a * b);
  const scale = positive('speed of sound', resonator.soundMPerS, 'm/s') / (2 * Math.PI);
  const of = (part: number) =>
    scale * Math.sqrt(part / (2 * a * b * inertance * volume(resonator)));
  // The low root as a quotient: sum − root loses its digits when the plenum is large.
  return [of((4 * a * b) / (sum + root)), of(sum + root)];
}

function volume({ sweptVolumeM3, compressionRatio }: Resonator): number {
  return resonatorVolumeM3(sweptVolumeM3, compressionRatio);
}

import { tQuantile } from '../../numerics/index.ts';
import { count, finite, notNegative, possible, within } from '../possible.ts';
import type { Lobe } from './events.ts';

/** Two wheel readings at one lift, rising and falling, in crank degrees after the top of overlap; before it negative. */
export interface EqualLiftReading {
  readonly risingAtdcDeg: number;
  readonly fallingAtdcDeg: number;
}

/**
 * How well a degree wheel is read, one standard deviation in degrees: a single reading (pointer, parallax, dial
 * indicator), and the zero found with a piston stop, which all readings share. Common practice, no source.
 */
export const WHEEL_ACCURACY = { readingSdDeg: 0.5, zeroSdDeg: 0.25 } as const;

/** How many readings the assumed scatter counts for against the scatter seen in the shop's own. */
const ASSUMED_FREEDOM = 8;

export interface MeasuredCentreline {
  /** Intake: after the top of overlap. Exhaust: before it. */
  readonly centrelineDeg: number;
  /** Middle of each pair, in the same sense. Middles that move with the lift tell of an asymmetrical lobe. */
  readonly middlesDeg: readonly number[];
  /** Largest less smallest middle; 0 with one pair. */
  readonly spreadDeg: number;
  readonly standardDeg: number;
  /** The true centreline lies this near with 95 % confidence. */
  readonly halfWidth95Deg: number;
}

/**
 * Centreline of a lobe from points of equal lift on either side of its nose: the mean of the middles. The nose itself is
 * too flat to be found by its largest lift.
 *
 * A middle scatters by readingSd/√2. Few readings tell little about their own scatter, so the assumed variance is
 * pooled with the seen one, weighing as ASSUMED_FREEDOM degrees of freedom; the zero's error does not average out:
 * u² = s²/n + zeroSd². The interval uses Student's t with the effective degrees of freedom (Welch–Satterthwaite,
 * JCGM 100:2008 G.4, from memory).
 * @throws NonPhysicalError  no readings, or a falling reading that does not come after its rising one
 */
export function measuredCentreline(
  lobe: Lobe,
  readings: readonly EqualLiftReading[],
  accuracy: { readonly readingSdDeg: number; readonly zeroSdDeg: number } = WHEEL_ACCURACY,
): MeasuredCentreline {
  const n = count('number of degree-wheel readings', readings.length);
  const sign = lobe === 'intake' ? 1 : -1;
  const middlesDeg = readings.map(({ risingAtdcDeg, fallingAtdcDeg }) => {
    const rising = within('rising reading', risingAtdcDeg, '°', [-720, 720]);
    const falling = within('falling reading', fallingAtdcDeg, '°', [-720, 720]);
    possible(
      'falling reading',
      falling,
      '°',
      falling > rising,
      `after the rising one at ${rising}°`,
    );
    return (sign * (rising + falling)) / 2;
  });
  const centrelineDeg = middlesDeg.reduce((sum, middle) => sum + middle, 0) / n;
  const assumed = notNegative('scatter of a reading', accuracy.readingSdDeg, '°') ** 2 / 2;
  const squares = middlesDeg.reduce((sum, middle) => sum + (middle - centrelineDeg) ** 2, 0);
  const freedom = ASSUMED_FREEDOM + n - 1;
  const readingVariance = (ASSUMED_FREEDOM * assumed + squares) / freedom / n;
  const zeroVariance = notNegative('scatter of the zero', accuracy.zeroSdDeg, '°') ** 2;
  const variance = readingVariance + zeroVariance;
  const effective =
    readingVariance === 0
      ? Number.POSITIVE_INFINITY
      : (freedom * variance ** 2) / readingVariance ** 2;
  const standardDeg = Math.sqrt(variance);
  return {
    centrelineDeg,
    middlesDeg,
    spreadDeg: Math.max(...middlesDeg) - Math.min(...middlesDeg),
    standardDeg,
    halfWidth95Deg: tQuantile(0.975, effective) * standardDeg,
  };
}

export interface InstalledCam {
  /** Crank degrees by which the cam stands ahead of its card; negative: retarded. */
  readonly advancedDeg: number;
  readonly halfWidth95Deg: number;
  /** `as card`: the readings do not tell it from the card. */
  readonly stands: 'advanced' | 'retarded' | 'as card';
}

/**
 * How far the cam stands advanced or retarded against its card: an intake lobe ahead of time has a smaller centreline
 * (after the top), an exhaust lobe a larger one (before the top).
 * @param cardCentrelineDeg  of the same lobe, the advance ground into the cam included
 */
export function installedCam(
  lobe: Lobe,
  measured: Pick<MeasuredCentreline, 'centrelineDeg' | 'halfWidth95Deg'>,
  cardCentrelineDeg: number,
): InstalledCam {
  const later =
    finite('measured centreline', measured.centrelineDeg, '°') -
    finite('card centreline', cardCentrelineDeg, '°');
  const advancedDeg = lobe === 'intake' ? -later : later;
  const halfWidth95Deg = notNegative('uncertainty of the centreline', measured.halfWidth95Deg, '°');
  const told = Math.abs(advancedDeg) > halfWidth95Deg;
  return {
    // −0 would print as such.
    advancedDeg: advancedDeg === 0 ? 0 : advancedDeg,
    halfWidth95Deg,
    stands: !told ? 'as card' : advancedDeg > 0 ? 'advanced' : 'retarded',
  };
}

import { count, finite, notNegative, positive, possible } from '../possible.ts';

/** A coil spring by its rate and one point on its line; a linear spring is meant. */
export interface ValveSpring {
  readonly rateNPerM: number;
  /** Any height at which the load was measured [m]. */
  readonly heightM: number;
  readonly loadN: number;
}

/** The spring through two measured points: rate = load gained over height lost. */
export function springThrough(
  tall: { readonly heightM: number; readonly loadN: number },
  short: { readonly heightM: number; readonly loadN: number },
): ValveSpring {
  const fallM = positive('spring height', tall.heightM, 'm') - short.heightM;
  positive('spring height', short.heightM, 'm');
  possible('second spring height', short.heightM, 'm', fallM > 0, 'less than the first');
  const gainN = short.loadN - notNegative('spring load', tall.loadN, 'N');
  possible('second spring load', short.loadN, 'N', gainN > 0, 'more than the first');
  return { rateNPerM: gainN / fallM, heightM: tall.heightM, loadN: tall.loadN };
}

/** Springs inside each other as one: rates and loads at the same height add up. */
export function springsTogether(springs: readonly ValveSpring[]): ValveSpring {
  count('number of springs', springs.length);
  const { heightM } = springs[0]!;
  return {
    rateNPerM: springs.reduce((sum, spring) => sum + spring.rateNPerM, 0),
    heightM,
    loadN: springs.reduce((sum, spring) => sum + springLoadN(spring, heightM), 0),
  };
}

/**
 * Load [N] at a height. Above its free height a spring hangs loose: 0.
 * @validity  down to coil bind, which springLoads checks; real coils grow stiffer close to it
 */
export function springLoadN(spring: ValveSpring, heightM: number): number {
  const { rateNPerM, loadN } = spring;
  positive('spring rate', rateNPerM, 'N/m');
  notNegative('spring load', loadN, 'N');
  const pressedM = positive('spring height', spring.heightM, 'm') - finite('height', heightM, 'm');
  return Math.max(0, loadN + rateNPerM * pressedM);
}

export interface SpringLoads {
  readonly seatN: number;
  readonly openN: number;
  readonly openHeightM: number;
  /** Height left above coil bind at full lift [m], below 0 past it; null while coil bind is not known. */
  readonly coilBindMarginM: number | null;
}

/** Loads on the seat and at full lift, and what is left to coil bind. */
export function springLoads(
  spring: ValveSpring,
  fitted: {
    readonly installedHeightM: number;
    readonly valveLiftM: number;
    readonly coilBindHeightM?: number | null;
  },
): SpringLoads {
  const installed = positive('installed height', fitted.installedHeightM, 'm');
  const lift = notNegative('valve lift', fitted.valveLiftM, 'm');
  possible('valve lift', lift, 'm', lift < installed, 'less than the installed height');
  const openHeightM = installed - lift;
  const bind = fitted.coilBindHeightM ?? null;
  return {
    seatN: springLoadN(spring, installed),
    openN: springLoadN(spring, openHeightM),
    openHeightM,
    coilBindMarginM: bind === null ? null : openHeightM - positive('coil bind height', bind, 'm'),
  };
}

/**
 * First resonance [Hz] of a spring between two plates: ½ √(k/m), m the whole wire that moves.
 * @source  Shigley (spring surge); efunda.com, spring frequency; a chain of small masses in the test
 */
export function surgeFrequencyHz(rateNPerM: number, springKg: number): number {
  return (
    0.5 *
    Math.sqrt(positive('spring rate', rateNPerM, 'N/m') / positive('spring mass', springKg, 'kg'))
  );
}

/** How many times the spring can swing in one turn of the cam: cam speed is half the crank's. */
export function surgeSwingsPerCamTurn(surgeHz: number, crankSpeedRpm: number): number {
  return (
    positive('surge frequency', surgeHz, 'Hz') / (positive('speed', crankSpeedRpm, 'rev/min') / 120)
  );
}
/**
 * Least swings a cam turn that keep a spring out of the lobe's strong harmonics: general advice for springs is 15 to 20
 * (engineersedge.com) or 13 (amesweb.info); valve springs live with less where friction between coils damps them.
 */
export const SURGE_SWINGS_ADVISED = 13;

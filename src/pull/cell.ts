import type { CellSetup } from './types.ts';

/**
 * Relative sd of a cell's torque calibration where the shop has not stated its own. Dead weights traceable
 * within 0.5 % (40 CFR 91.305) taken as a 95 % limit: 0.25 %. The weather instruments' common error is meant
 * to be in it.
 */
export const CALIBRATION_REL_SD = 0.0025;

/**
 * Relative sd that the weather's instruments leave in a corrected torque, all at once, where the torque itself was
 * calibrated: a barometer within 1 hPa, a thermometer within 1 K and a hygrometer within 5 %, each at 95 %, make 0.06,
 * 0.16 and 0.10 % of the factor at 25 °C (differences of SAE J1349 in `calibration.test.ts`; the limits are ours, common
 * practice, no source). In the band whatever air is asked for, so that a change of standard only scales it.
 */
export const AIR_INSTRUMENTS_REL_SD = 0.002;

/**
 * Relative sd of mean power from pull to pull where the shop's own is not known: the same setting twice does
 * not give the same figure. Our prior has a median sd of 0.4 %, 95 % between 0.15 and 1.0 % (log-normal, log
 * sd 0.484; common practice, no source). A single pull does not know which it is, so what is wanted is the
 * spread with that sd integrated out: its 95 % half-width is that of a Gaussian of 0.53 %. A ladder with
 * repeats learns its own.
 */
export const REPEATABILITY_REL_SD = 0.0053;

/**
 * A cell of which nothing is known: inertia and lag are not, torque is as the brake held it in the day's air.
 */
export function defaultCell(): CellSetup {
  return {
    inertiaKgM2: null,
    sensorLagS: null,
    ratio: 1,
    torqueIs: { air: 'observed', inertia: 'out' },
    calibrationRelSd: CALIBRATION_REL_SD,
  };
}

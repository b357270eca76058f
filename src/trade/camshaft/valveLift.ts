import { quinticIntegral } from '../../numerics/index.ts';
import { notNegative, positive, possible } from '../possible.ts';
import type { CamEvents, Centrelines } from './events.ts';
import { anglesAtLift, type LiftCurve, lobeLiftM } from './liftCurve.ts';

/** What stands between lobe and valve. A rigid train whose ratio does not change with lift. */
export interface ValveTrain {
  /** Valve travel over follower travel. */
  readonly rockerRatio: number;
  /** Play at the valve, running; 0 with hydraulic lifters. */
  readonly lashM: number;
}

/** A valve with its lobe and train. */
export interface DrivenValve extends ValveTrain {
  readonly lift: LiftCurve;
}

/** Lift of the valve [m] at crank degrees from the lobe's largest lift: follower × ratio − lash, never below its seat. */
export function valveLiftM(valve: DrivenValve, fromMaxDeg: number): number {
  const { rockerRatio, lashM } = checkedTrain(valve);
  return Math.max(0, lobeLiftM(valve.lift, fromMaxDeg) * rockerRatio - lashM);
}

/** Largest lift of the valve [m]: lobe × ratio − lash. Throws NonPhysicalError when the lash eats it all. */
export function maxValveLiftM(valve: DrivenValve): number {
  const { rockerRatio, lashM } = checkedTrain(valve);
  const grossM = valve.lift.lobeLiftM * rockerRatio;
  possible('valve lash', lashM, 'm', lashM < grossM, `less than the gross lift of ${grossM} m`);
  return grossM - lashM;
}

/**
 * Crank degrees from the lobe's largest lift between which the valve stands above a checking lift of its own (0: off its
 * seat). Larger lash opens later and closes earlier.
 * @throws NonPhysicalError  the valve never gets there
 */
export function valveAnglesAtLift(
  valve: DrivenValve,
  checkingLiftM = 0,
): { readonly opensDeg: number; readonly closesDeg: number } {
  const mostM = maxValveLiftM(valve);
  notNegative('checking lift', checkingLiftM, 'm');
  possible('checking lift', checkingLiftM, 'm', checkingLiftM < mostM, `less than ${mostM} m`);
  const followerM = (checkingLiftM + valve.lashM) / valve.rockerRatio;
  const { risingDeg, fallingDeg } = anglesAtLift(valve.lift, followerM);
  return { opensDeg: risingDeg, closesDeg: fallingDeg };
}

/**
 * Events of the valves themselves, lash and asymmetry in them, at a checking lift of the valve (0: off its seat).
 * @param centrelines  where the lobes have their largest lift
 */
export function valveEvents(
  valves: { readonly intake: DrivenValve; readonly exhaust: DrivenValve },
  centrelines: Centrelines,
  checkingLiftM = 0,
): CamEvents {
  const intake = valveAnglesAtLift(valves.intake, checkingLiftM);
  const exhaust = valveAnglesAtLift(valves.exhaust, checkingLiftM);
  const { intakeCentrelineDeg, exhaustCentrelineDeg } = centrelines;
  return {
    intakeOpensBtdcDeg: -intake.opensDeg - intakeCentrelineDeg,
    intakeClosesAbdcDeg: intake.closesDeg + intakeCentrelineDeg - 180,
    exhaustOpensBbdcDeg: -exhaust.opensDeg + exhaustCentrelineDeg - 180,
    exhaustClosesAtdcDeg: exhaust.closesDeg - exhaustCentrelineDeg,
  };
}

export interface ValveTimeArea {
  readonly openDeg: number;
  readonly meanLiftM: number;
  /** Area under the lift curve over crank degrees. */
  readonly areaMDeg: number;
  /** The same over time at the speed. */
  readonly areaMS: number;
}

/** Area under the valve's lift while it is off its seat, exact for the curve, and the mean lift over that time. */
export function valveTimeArea(valve: DrivenValve, speedRpm: number): ValveTimeArea {
  const { opensDeg, closesDeg } = valveAnglesAtLift(valve);
  const openDeg = closesDeg - opensDeg;
  const areaMDeg =
    valve.rockerRatio * quinticIntegral(valve.lift.curve, opensDeg, closesDeg) -
    valve.lashM * openDeg;
  return {
    openDeg,
    meanLiftM: areaMDeg / openDeg,
    areaMDeg,
    areaMS: areaMDeg / (6 * positive('speed', speedRpm, 'rev/min')),
  };
}

function checkedTrain(train: ValveTrain): ValveTrain {
  positive('rocker ratio', train.rockerRatio, '');
  notNegative('valve lash', train.lashM, 'm');
  return train;
}

import {
  type DrivenValve,
  type LiftCurve,
  liftCurveOfCard,
  maxValveLiftM,
} from '../../trade/camshaft/index.ts';
import {
  type Ask,
  eachOf,
  firstOf,
  ifThere,
  meanOf,
  type Need,
  NotMeasured,
  once,
  one,
} from '../compute/ask.ts';

export type Side = 'intake' | 'exhaust';
export type BySide<T> = Readonly<Record<Side, T>>;

/** The same need for both sides, each worked out once an answer. */
export const bySide = <T>(make: (side: Side) => Need<T>): BySide<Need<T>> => ({
  intake: once(make('intake')),
  exhaust: once(make('exhaust')),
});

/** Two lifts nearer than this are one line of the card [m]. */
const SAME_LIFT_M = 1e-6;

/** Duration at a lift of the card, or null where one of the two is not on the sheet. */
function pairOf(ask: Ask, lift: string, duration: string) {
  const [liftM, durationDeg] = [ask.numberOrNull(lift), ask.numberOrNull(duration)];
  return liftM === null || durationDeg === null ? null : { liftM, durationDeg };
}

/** Lift of the follower through every line of the card; with one line only, its flanks are an estimate. */
export const lobes: BySide<Need<LiftCurve>> = bySide((side) => (ask) => {
  const { lobeLiftM } = ask.all({
    lobeLiftM: one(`camshaft.${side}LobeLift`),
    someDuration: firstOf(one(`camshaft.${side}Duration`), one(`camshaft.${side}SeatDuration`)),
  });
  const lines = [
    pairOf(ask, 'camshaft.checkingLift', `camshaft.${side}Duration`),
    pairOf(ask, 'camshaft.seatLift', `camshaft.${side}SeatDuration`),
    ...ask.rows('camshaft.card').map((row) => {
      const [liftM, durationDeg] = [row.lift, row[side]];
      return typeof liftM === 'number' && typeof durationDeg === 'number'
        ? { liftM, durationDeg }
        : null;
    }),
  ].filter((line) => line !== null);
  const durations = lines.filter(
    ({ liftM }, i) =>
      !lines.slice(0, i).some((before) => Math.abs(before.liftM - liftM) < SAME_LIFT_M),
  );
  if (durations.length === 0) throw new NotMeasured(['camshaft.checkingLift']);
  return liftCurveOfCard({ lobeLiftM, durations });
});

/** Play at the valve when it runs [m]: hot, else as it was set or asked for cold; none with hydraulic lifters. */
const lashM = (side: Side): Need<number> =>
  firstOf(
    one(`valveTrain.${side}LashHot`),
    meanOf(eachOf(`valveTrain.${side}LashSet`)),
    one(`valveTrain.${side}LashCold`),
    (ask) => {
      if (ask.textOrNull('camshaft.lifter')?.startsWith('hydraulic')) return 0;
      throw new NotMeasured([`valveTrain.${side}LashHot`]);
    },
  );

/** Valve travel over follower travel; 1 where the cam sits on the valve. */
const rockerRatio = (side: Side): Need<number> =>
  firstOf(one(`valveTrain.${side}RockerRatio`), (ask) => {
    if (ask.textOrNull('camshaft.lifter') === 'overhead bucket') return 1;
    throw new NotMeasured([`valveTrain.${side}RockerRatio`]);
  });

/** Each side's valve with its lobe, rocker and lash. */
export const drivenValves: BySide<Need<DrivenValve>> = bySide((side) => (ask) => {
  const needs = ask.all({ lift: lobes[side], ratio: rockerRatio(side), lash: lashM(side) });
  return { lift: needs.lift, rockerRatio: needs.ratio, lashM: needs.lash };
});

/** Largest lift of the valve [m]: as measured, else lobe × ratio − lash; null where neither is known. */
export const mostLiftM: BySide<Need<number | null>> = bySide((side) =>
  firstOf(
    meanOf(eachOf(`valveTrain.${side}LiftMeasured`)),
    ifThere((ask) => maxValveLiftM(drivenValves[side](ask))),
  ),
);

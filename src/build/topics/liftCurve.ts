import { lobeCentreDeg, valveAnglesAtLift, valveLiftM } from '../../trade/camshaft/index.ts';
import type { FigureSpec } from '../compute/types.ts';
import { centrelines } from './cam.ts';
import { bySide, drivenValves, type Side } from './flowValves.ts';

export const SIDES: readonly Side[] = ['intake', 'exhaust'];
export const SIDE_NAMES: Readonly<Record<Side, string>> = { intake: 'Intake', exhaust: 'Exhaust' };

/** Lift of a valve [m] against crank degrees after the top of overlap, the cam where it really stands. */
export const valveLiftAtCrankM = bySide<(crankDeg: number) => number>((side) => (ask) => {
  const { valve, places } = ask.all({ valve: drivenValves[side], places: centrelines });
  const centreDeg = lobeCentreDeg(side, places);
  return (crankDeg) => valveLiftM(valve, crankDeg - centreDeg);
});

const HOW =
  'Curve through the lines of the card, × rocker ratio − lash; what the card does not say is a guess.';

export const LIFT_CURVE_FIGURES: readonly FigureSpec[] = SIDES.flatMap((side): FigureSpec[] => [
  {
    id: `${side}OffSeat`,
    section: 'camshaft',
    label: `${SIDE_NAMES[side]} valve off its seat for`,
    shown: 'angle',
    how: HOW,
    compute: (ask) => {
      const { opensDeg, closesDeg } = valveAnglesAtLift(drivenValves[side](ask));
      return closesDeg - opensDeg;
    },
  },
  {
    id: `${side}LiftAtTop`,
    section: 'camshaft',
    label: `${SIDE_NAMES[side]} valve lift at the top of overlap`,
    shown: 'lift',
    how: HOW,
    compute: (ask) => valveLiftAtCrankM[side](ask)(0),
  },
]);

import {
  type CamEvents,
  type Centrelines,
  camEvents,
  centrelinesOfCard,
  type Durations,
  installedCam,
  measuredCentreline,
  valveOverlapDeg,
} from '../../trade/camshaft/index.ts';
import { type Ask, firstOf, ifThere, type Need, NotMeasured, once, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import { numbersIn } from './basics.ts';

/** Centrelines as the card gives them: separation with its advance, or with the intake's own centreline. */
export const cardCentrelines: Need<Centrelines> = once(
  firstOf<Centrelines>(
    (ask) => {
      const { separation, intake } = ask.all({
        separation: one('camshaft.separation'),
        intake: one('camshaft.intakeCentreline'),
      });
      return { intakeCentrelineDeg: intake, exhaustCentrelineDeg: 2 * separation - intake };
    },
    (ask) => {
      const { separation, advance } = ask.all({
        separation: one('camshaft.separation'),
        advance: one('camshaft.advance'),
      });
      return centrelinesOfCard(separation, advance);
    },
  ),
);

/** Intake centreline from the degree wheel, with its own uncertainty. */
const wheel = once((ask: Ask) => {
  const readings = ask.rows('camshaft.degreeWheel').flatMap((row) => {
    const pair = numbersIn(row, ['opening', 'closing']);
    return pair === null ? [] : [{ risingAtdcDeg: pair.opening, fallingAtdcDeg: pair.closing }];
  });
  if (readings.length === 0) throw new NotMeasured(['camshaft.degreeWheel']);
  return measuredCentreline('intake', readings);
});

/** Where the cam really stands: by the degree wheel, else as its card says. */
export const centrelines: Need<Centrelines> = once((ask) => {
  const card = cardCentrelines(ask);
  const measured = ifThere(wheel)(ask);
  if (measured === null) return card;
  const later = measured.centrelineDeg - card.intakeCentrelineDeg;
  return {
    intakeCentrelineDeg: card.intakeCentrelineDeg + later,
    exhaustCentrelineDeg: card.exhaustCentrelineDeg - later,
  };
});

const durations =
  (kind: '' | 'Seat'): Need<Durations> =>
  (ask) => {
    const { intake, exhaust } = ask.all({
      intake: one(`camshaft.intake${kind}Duration`),
      exhaust: one(`camshaft.exhaust${kind}Duration`),
    });
    return { intakeDurationDeg: intake, exhaustDurationDeg: exhaust };
  };

/** Events at the checking lift, or at the seat. */
const eventsOf = (kind: '' | 'Seat'): Need<CamEvents> => {
  const needs = { lobes: durations(kind), places: centrelines };
  return once((ask) => {
    const { lobes, places } = ask.all(needs);
    return camEvents({ ...lobes, ...places });
  });
};
const EVENTS = { '': eventsOf(''), Seat: eventsOf('Seat') } as const;
export const eventsAt = (kind: '' | 'Seat'): Need<CamEvents> => EVENTS[kind];

const SOURCE = 'Lobes taken as symmetrical about their centrelines. Geometry.';

/** The four events and the overlap at one lift. */
function eventFigures(kind: '' | 'Seat', at: string): FigureSpec[] {
  const events = eventsAt(kind);
  const figure = (id: string, label: string, read: (cam: CamEvents) => number): FigureSpec => ({
    id: `${id}${kind}`,
    section: 'camshaft',
    label: `${label}, ${at}`,
    shown: 'angle',
    how: SOURCE,
    compute: (ask) => read(events(ask)),
  });
  return [
    figure('intakeOpens', 'Intake opens before the top', (cam) => cam.intakeOpensBtdcDeg),
    figure('intakeCloses', 'Intake closes after the bottom', (cam) => cam.intakeClosesAbdcDeg),
    figure('exhaustOpens', 'Exhaust opens before the bottom', (cam) => cam.exhaustOpensBbdcDeg),
    figure('exhaustCloses', 'Exhaust closes after the top', (cam) => cam.exhaustClosesAtdcDeg),
    figure('overlap', 'Overlap', valveOverlapDeg),
  ];
}

export const CAM_FIGURES: readonly FigureSpec[] = [
  {
    id: 'intakeCentreline',
    section: 'camshaft',
    label: 'Intake centreline on the card',
    shown: 'angle',
    how: 'Separation less ground-in advance: a 112 "plus four" stands at 108. Geometry.',
    compute: (ask) => cardCentrelines(ask).intakeCentrelineDeg,
  },
  {
    id: 'measuredCentreline',
    section: 'camshaft',
    label: 'Intake centreline by the degree wheel',
    shown: 'angle',
    how: 'Middle between equal lifts on the way up and down, mean of the readings. Geometry.',
    compute: (ask) => wheel(ask).centrelineDeg,
  },
  {
    id: 'camStands',
    section: 'camshaft',
    label: 'Cam stands ahead of its card by',
    shown: 'angle',
    how: 'Card centreline less measured one; negative: retarded.',
    compute: (ask) =>
      installedCam('intake', wheel(ask), cardCentrelines(ask).intakeCentrelineDeg).advancedDeg,
  },
  ...eventFigures('', 'at checking lift'),
  ...eventFigures('Seat', 'at the seat'),
];

export const CAM_CHECKS: readonly CheckSpec[] = [
  {
    id: 'camInstalled',
    section: 'camshaft',
    label: 'Cam against its card',
    shown: 'angle',
    how: 'Card centreline less the one measured on the degree wheel.',
    window: 'camInstalled',
    compute: (ask) =>
      installedCam('intake', wheel(ask), cardCentrelines(ask).intakeCentrelineDeg).advancedDeg,
    remedy: {
      low: 'Advance the cam at its sprocket, and measure the valves to the pistons again.',
      high: 'Retard the cam at its sprocket, and measure the valves to the pistons again.',
    },
    weight: 2,
  },
];

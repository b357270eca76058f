import { finite, possible, within } from '../possible.ts';

/**
 * Crank angles of valve events as cam cards print them. Each may be negative: an intake that opens 4° after the top has
 * intakeOpensBtdcDeg −4. They hold at one checking lift: seat and 0.050 in are two sets.
 */
export interface CamEvents {
  readonly intakeOpensBtdcDeg: number;
  readonly intakeClosesAbdcDeg: number;
  readonly exhaustOpensBbdcDeg: number;
  readonly exhaustClosesAtdcDeg: number;
}

/** Where the middles of the lobes stand: intake after, exhaust before the top of overlap. */
export interface Centrelines {
  readonly intakeCentrelineDeg: number;
  readonly exhaustCentrelineDeg: number;
}

export interface Durations {
  readonly intakeDurationDeg: number;
  readonly exhaustDurationDeg: number;
}

/** Widest duration and centreline that are taken for real [crank degrees]: half a cam's turn; beyond is a misprint. */
export const DURATION_DEG = [1, 400] as const;
export const CENTRELINE_DEG = [0, 220] as const;

/**
 * Centrelines of a card that gives lobe separation and advance: intake = separation − advance, exhaust = separation +
 * advance. "112 plus four" has its intake at 108.
 * @param lobeSeparationDeg  in cam degrees, as cards do; half the crank degrees between the lobes
 * @param advanceDeg         crank degrees ground into the cam; negative: retarded
 */
export function centrelinesOfCard(lobeSeparationDeg: number, advanceDeg = 0): Centrelines {
  finite('cam advance', advanceDeg, '°');
  within('lobe separation', lobeSeparationDeg, '°', CENTRELINE_DEG);
  return checkedCentrelines({
    intakeCentrelineDeg: lobeSeparationDeg - advanceDeg,
    exhaustCentrelineDeg: lobeSeparationDeg + advanceDeg,
  });
}

/** The centrelines with the cam turned by crank degrees: positive advances it, all events come earlier. */
export function advancedCentrelines(centrelines: Centrelines, byDeg: number): Centrelines {
  finite('cam advance', byDeg, '°');
  return checkedCentrelines({
    intakeCentrelineDeg: centrelines.intakeCentrelineDeg - byDeg,
    exhaustCentrelineDeg: centrelines.exhaustCentrelineDeg + byDeg,
  });
}

/**
 * Events of lobes that are symmetrical about their centrelines at this checking lift.
 *
 * Formula: IVO = Di/2 − ICL, IVC = Di/2 + ICL − 180, EVO = De/2 + ECL − 180, EVC = De/2 − ECL
 *
 * On a lobe that closes more slowly than it opens, middle and largest lift differ; a card's centreline is then commonly
 * the middle at 0.050 in, and events at other lifts need the card's own figures.
 */
export function camEvents(cam: Durations & Centrelines): CamEvents {
  const intake = within('intake duration', cam.intakeDurationDeg, '°', DURATION_DEG) / 2;
  const exhaust = within('exhaust duration', cam.exhaustDurationDeg, '°', DURATION_DEG) / 2;
  const { intakeCentrelineDeg, exhaustCentrelineDeg } = checkedCentrelines(cam);
  return {
    intakeOpensBtdcDeg: intake - intakeCentrelineDeg,
    intakeClosesAbdcDeg: intake + intakeCentrelineDeg - 180,
    exhaustOpensBbdcDeg: exhaust + exhaustCentrelineDeg - 180,
    exhaustClosesAtdcDeg: exhaust - exhaustCentrelineDeg,
  };
}

/** Degrees for which both valves are off their seats: IVO + EVC; negative when one closes before the other opens. */
export function valveOverlapDeg(events: CamEvents): number {
  return (
    finite('intake opening', events.intakeOpensBtdcDeg, '°') +
    finite('exhaust closing', events.exhaustClosesAtdcDeg, '°')
  );
}

export interface CamFromEvents extends Durations, Centrelines {
  readonly lobeSeparationDeg: number;
  /** Ground into the cam: separation less the intake's centreline. */
  readonly advanceDeg: number;
  readonly overlapDeg: number;
}

/**
 * Durations, centrelines and separation from opening and closing events, symmetrical or not: the centrelines are the
 * middles between opening and closing.
 * @throws NonPhysicalError  an event is not a number, or a valve would close before it opens
 */
export function camFromEvents(events: CamEvents): CamFromEvents {
  const opens = finite('intake opening', events.intakeOpensBtdcDeg, '°');
  const closes = finite('intake closing', events.intakeClosesAbdcDeg, '°');
  const exhaustOpens = finite('exhaust opening', events.exhaustOpensBbdcDeg, '°');
  const exhaustCloses = finite('exhaust closing', events.exhaustClosesAtdcDeg, '°');
  const intakeDurationDeg = opens + 180 + closes;
  const exhaustDurationDeg = exhaustOpens + 180 + exhaustCloses;
  within('intake duration', intakeDurationDeg, '°', DURATION_DEG);
  within('exhaust duration', exhaustDurationDeg, '°', DURATION_DEG);
  const intakeCentrelineDeg = intakeDurationDeg / 2 - opens;
  const exhaustCentrelineDeg = exhaustDurationDeg / 2 - exhaustCloses;
  const lobeSeparationDeg = (intakeCentrelineDeg + exhaustCentrelineDeg) / 2;
  return {
    intakeDurationDeg,
    exhaustDurationDeg,
    intakeCentrelineDeg,
    exhaustCentrelineDeg,
    lobeSeparationDeg,
    advanceDeg: lobeSeparationDeg - intakeCentrelineDeg,
    overlapDeg: opens + exhaustCloses,
  };
}

function checkedCentrelines(centrelines: Centrelines): Centrelines {
  const { intakeCentrelineDeg, exhaustCentrelineDeg } = centrelines;
  within('intake centreline', intakeCentrelineDeg, '° ATDC', CENTRELINE_DEG);
  within('exhaust centreline', exhaustCentrelineDeg, '° BTDC', CENTRELINE_DEG);
  return { intakeCentrelineDeg, exhaustCentrelineDeg };
}

export type Lobe = 'intake' | 'exhaust';

/** Crank angle of a lobe's centre counted from the top of overlap: after it for the intake, before it (−) for the exhaust. */
export function lobeCentreDeg(lobe: Lobe, centrelines: Centrelines): number {
  return lobe === 'intake' ? centrelines.intakeCentrelineDeg : -centrelines.exhaustCentrelineDeg;
}

/** Refuses a duration that is none; for lift curves too. */
export function checkedDurationDeg(quantity: string, durationDeg: number): number {
  const [least, most] = DURATION_DEG;
  return possible(
    quantity,
    durationDeg,
    '°',
    durationDeg >= least && durationDeg <= most,
    `${least} to ${most}°`,
  );
}

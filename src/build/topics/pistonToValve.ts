import {
  advancedCentrelines,
  closedValveClearanceM,
  pistonToValve,
  type ValveAndPocket,
  type ValveClearance,
} from '../../trade/camshaft/index.ts';
import { eachOf, type Need, NotMeasured, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Said } from '../compute/types.ts';
import { decksM, orNone } from './basics.ts';
import { centrelines } from './cam.ts';
import { bySide, drivenValves, type Side } from './flowValves.ts';
import { SIDE_NAMES, SIDES } from './liftCurve.ts';
import { slider } from './motion.ts';

/** Each cylinder's valve above its piston, by its own deck and its own valve's depth; null where one is not known. */
const pockets = bySide<readonly (ValveAndPocket | null)[]>((side) => (ask) => {
  const needs = ask.all({
    motion: drivenValves[side],
    angle: one(`heads.${side}ValveAngle`),
    head: one(`heads.${side}ValveDiameter`),
    decks: decksM,
    gasket: one('deck.gasketThickness'),
    recesses: eachOf(`heads.${side}ValveRecess`),
    pocket: orNone(`pistons.${side}PocketDepth`),
  });
  return needs.decks.map((deckM, i) => {
    const valveRecessM = needs.recesses[i] ?? null;
    if (deckM === null || valveRecessM === null) return null;
    return {
      motion: needs.motion,
      valveAngleDeg: Math.abs(needs.angle),
      headDiameterM: needs.head,
      gap: { deckM, gasketThicknessM: needs.gasket, valveRecessM },
      pocketDepthM: needs.pocket,
    };
  });
});

/** The cylinder whose closed valve stands nearest to its piston: there they come nearest at every angle. */
const nearest = bySide<ValveAndPocket>((side) => (ask) => {
  const known = pockets[side](ask).filter((one) => one !== null);
  if (known.length === 0) throw new NotMeasured([`heads.${side}ValveRecess`]);
  return known.reduce((a, b) => (closedValveClearanceM(b) < closedValveClearanceM(a) ? b : a));
});

/** Smallest clearance with the cam moved ahead by crank degrees. */
const clearanceWith = (advanceDeg: number) =>
  bySide<ValveClearance>((side) => (ask) => {
    const needs = ask.all({ slider, pocket: nearest[side], places: centrelines });
    const places = advancedCentrelines(needs.places, advanceDeg);
    return pistonToValve(needs.slider, needs.pocket, side, places);
  });

const MOVES_DEG = [-4, 4] as const;
/** Smallest clearance of each side, in the cylinder where it is least, the cam where it really stands. */
export const valveClearances = clearanceWith(0);
const moved = new Map(MOVES_DEG.map((deg) => [deg, clearanceWith(deg)]));

const HOW =
  'Lift curve against piston position through overlap, cam where it stands, each piston and valve as high as it is; a rigid picture at rest, flat crown or one pocket. Geometry.';

const estimated =
  (side: Side): Need<Said['notes']> =>
  (ask) => {
    const { estimated: what } = drivenValves[side](ask).lift;
    if (what === 'nothing') return [];
    const sentence =
      what === 'flank'
        ? 'The flanks of the lobe are an estimate from one duration, good to a tenth of its lift: measure with clay or a checking spring.'
        : 'The end of the ramp is run on from the card: measure with clay or a checking spring.';
    return [{ sentence, source: null }];
  };

const clearance =
  (side: Side): Need<Said> =>
  (ask) => {
    const { clearanceM } = valveClearances[side](ask);
    const closedM = closedValveClearanceM(nearest[side](ask));
    // Deck, gasket and valve depth only add to the clearance at every angle: the search of the nearest holds for all.
    const value = pockets[side](ask).map((pocket) =>
      pocket === null ? null : clearanceM + closedValveClearanceM(pocket) - closedM,
    );
    return { value, notes: estimated(side)(ask) ?? [] };
  };

const sideFigures = (side: Side): FigureSpec[] => [
  {
    id: `${side}ToPistonAngle`,
    section: 'valveTrain',
    label: `${SIDE_NAMES[side]} valve nearest the piston, after the top of overlap`,
    shown: 'angle',
    how: HOW,
    compute: (ask) => valveClearances[side](ask).crankDeg,
  },
  ...MOVES_DEG.map(
    (deg): FigureSpec => ({
      id: `${side}ToPiston${deg < 0 ? 'Retarded' : 'Advanced'}`,
      section: 'valveTrain',
      label: `${SIDE_NAMES[side]} valve to piston, cam ${deg < 0 ? 'retarded' : 'advanced'} by ${Math.abs(deg)} degrees`,
      shown: 'bore',
      how: HOW,
      compute: (ask) => moved.get(deg)![side](ask).clearanceM,
    }),
  ),
];

export const PISTON_TO_VALVE_FIGURES: readonly FigureSpec[] = SIDES.flatMap(sideFigures);

const sideChecks = (side: Side): CheckSpec[] => {
  const shared = {
    section: 'valveTrain',
    shown: 'bore',
    window: `piston-to-valve-${side}`,
    remedy: {
      low: `Deeper pockets, a thicker gasket, less lift${side === 'intake' ? ', or the cam retarded' : ', or the cam advanced'}.`,
      high: '',
    },
    weight: 3,
  } as const;
  return [
    {
      ...shared,
      id: `${side}ToPistonComputed`,
      label: `${SIDE_NAMES[side]} valve to piston, computed`,
      per: 'cylinder',
      how: HOW,
      compute: clearance(side),
    },
    {
      ...shared,
      id: `${side}ToPistonMeasured`,
      label: `${SIDE_NAMES[side]} valve to piston, measured`,
      per: 'cylinder',
      how: 'As measured.',
      compute: eachOf(`valveTrain.${side}ToPiston`),
    },
  ];
};

export const PISTON_TO_VALVE_CHECKS: readonly CheckSpec[] = SIDES.flatMap(sideChecks);

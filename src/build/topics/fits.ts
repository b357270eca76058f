import { type CrossM, roundness } from '../../trade/clearance/index.ts';
import { type Ask, eachOf, firstOf, meanOf, type Need, NotMeasured, once } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec } from '../compute/types.ts';
import type { Place } from '../sheet/types.ts';
import { boreM, boresM, byPlace } from './basics.ts';

type ByPlace = readonly (number | null)[];

const HEIGHTS = ['Top', 'Middle', 'Bottom'] as const;

/** Taper and out-of-round of each bore, null where too little of it was measured. */
const shapes = once((ask: Ask) => {
  const at = (height: string, direction: string) =>
    ask.eachOrNull(`block.bore${height}${direction}`);
  const columns = HEIGHTS.map((height) => [at(height, 'Along'), at(height, 'Across')] as const);
  return Array.from({ length: ask.layout.cylinders }, (_, i) =>
    roundness(columns.map(([along, across]): CrossM => [along?.[i] ?? null, across?.[i] ?? null])),
  );
});

const shape =
  (read: 'taperM' | 'outOfRoundM', missing: readonly string[]): Need<ByPlace> =>
  (ask) => {
    const values = shapes(ask).map((one) => one?.[read] ?? null);
    if (values.every((value) => value === null)) throw new NotMeasured(missing);
    return values;
  };

/** Largest less smallest of values by place, where two or more are known. */
const spreadByPlace =
  (need: Need<ByPlace>, path: string): Need<number> =>
  (ask) => {
    const known = need(ask).filter((value): value is number => value !== null);
    if (known.length < 2) throw new NotMeasured([path]);
    return Math.max(...known) - Math.min(...known);
  };

const measuredBores: Need<ByPlace> = (ask) => {
  if (ask.eachOrNull('block.boreMiddleAcross') === null && !anyBore(ask))
    throw new NotMeasured(['block.boreMiddleAcross']);
  return boresM(ask);
};
const anyBore = (ask: Ask) =>
  HEIGHTS.some((height) =>
    ['Along', 'Across'].some((way) => ask.eachOrNull(`block.bore${height}${way}`) !== null),
  );

/** As measured directly, else hole less what runs in it, both at the same place. */
const direct = (path: string, hole: Need<ByPlace>, inside: Need<ByPlace>): Need<ByPlace> =>
  once(
    firstOf(eachOf(path), (ask) => byPlace(ask.all({ hole, inside }), (at) => at.hole - at.inside)),
  );

/** Bore in which a journal runs: with its bearing in as measured, else the bare housing less both shells [m]. */
const bearingBoresM = (lined: string, bare: string, shell: string): Need<ByPlace> =>
  firstOf(eachOf(lined), (ask) =>
    byPlace(
      ask.all({ housing: eachOf(bare), shell: eachOf(shell) }),
      (at) => at.housing - 2 * at.shell,
    ),
  );
const mainBoresM = bearingBoresM('block.mainHousing', 'block.mainHousingBare', 'crank.mainShell');
const bigEndBoresM = bearingBoresM('rods.bigEndBore', 'rods.bigEndHousing', 'rods.bigEndShell');

/** Clearance across the diameter from what was measured of the parts, also where it was measured directly [m]. */
const mainFromPartsM: Need<ByPlace> = once((ask) =>
  byPlace(
    ask.all({ bore: mainBoresM, journal: eachOf('crank.mainDiameter') }),
    (at) => at.bore - at.journal,
  ),
);

/** Main clearance of each journal [m]. */
export const mainClearancesM = once(firstOf(eachOf('crank.mainClearance'), mainFromPartsM));

/**
 * Rod clearance of each rod journal [m]. Which rods share a journal depends on how the shop numbers its cylinders, so
 * that the smallest big end is taken for each where there are more rods than journals.
 */
const rodFromPartsM: Need<ByPlace> = once((ask) => {
  const { holes, pins } = ask.all({ holes: bigEndBoresM, pins: eachOf('crank.rodDiameter') });
  const known = holes.filter((hole): hole is number => hole !== null);
  const smallest = Math.min(...known);
  return pins.map((pin, i) => {
    const hole = holes.length === pins.length ? (holes[i] ?? null) : smallest;
    return pin === null || hole === null || !Number.isFinite(hole) ? null : hole - pin;
  });
});
export const rodClearancesM = once(firstOf(eachOf('crank.rodClearance'), rodFromPartsM));

/** Piston clearance of each cylinder [m]. */
export const wallClearancesM = direct('pistons.wallClearance', boresM, eachOf('pistons.diameter'));

export const mainJournalM: Need<number> = meanOf(eachOf('crank.mainDiameter'));
export const rodJournalM: Need<number> = meanOf(eachOf('crank.rodDiameter'));

interface Fit {
  readonly id: string;
  readonly label: string;
  readonly section: string;
  readonly per?: Place;
  readonly window: string;
  readonly compute: Need<number | ByPlace>;
  readonly scale?: Need<number>;
  readonly low: string;
  readonly high: string;
  readonly weight: 1 | 2 | 3;
  readonly how?: string;
}

const fitted = ({ low, high, how = 'As measured.', ...rest }: Fit): CheckSpec => ({
  ...rest,
  shown: 'bore',
  how,
  remedy: { low, high },
});

const LESS =
  'As measured directly, else hole less what runs in it; a bare housing less both shells. Across the diameter; half of it all round. Geometry.';
const RE_HONE = 'Hone to the next size that its pistons allow, with a torque plate.';

const BEARINGS: readonly CheckSpec[] = [
  fitted({
    id: 'mainClearanceFit',
    label: 'Main clearance',
    section: 'crank',
    per: 'mainJournal',
    window: 'main-bearing',
    compute: mainClearancesM,
    scale: mainJournalM,
    low: 'Bearings of the next size under, or take the journal down; never run it tighter.',
    high: 'Bearings of the next size, or a heavier oil and a pump that holds its pressure.',
    weight: 3,
    how: LESS,
  }),
  fitted({
    id: 'rodClearanceFit',
    label: 'Rod clearance',
    section: 'crank',
    per: 'rodJournal',
    window: 'rod-bearing',
    compute: rodClearancesM,
    scale: rodJournalM,
    low: 'Bearings of the next size, or take the journal down; never run it tighter.',
    high: 'Bearings of the next size, or a heavier oil and a pump that holds its pressure.',
    weight: 3,
    how: `${LESS} Where two rods share a journal and only bores were measured, the smallest of all.`,
  }),
  fitted({
    id: 'endFloatFit',
    label: 'Crank end float',
    section: 'crank',
    window: 'crank-end-float',
    compute: (ask) => needed(ask, 'crank.endFloat'),
    low: 'Line up the thrust halves, or dress the thrust face.',
    high: 'New thrust bearing; measure the crank’s thrust face.',
    weight: 2,
  }),
  fitted({
    id: 'runOutFit',
    label: 'Crank run-out',
    section: 'crank',
    window: 'runOut',
    compute: (ask) => needed(ask, 'crank.runOut'),
    low: '',
    high: 'Have the crank straightened or ground.',
    weight: 2,
    how: 'Whole reading of the dial on the centre main.',
  }),
  fitted({
    id: 'mainTaperFit',
    label: 'Main journal taper',
    section: 'crank',
    per: 'mainJournal',
    window: 'mainTaper',
    compute: eachOf('crank.mainTaper'),
    low: '',
    high: 'Have the journals ground to the next size.',
    weight: 1,
  }),
  fitted({
    id: 'rodSideFit',
    label: 'Rod side clearance',
    section: 'rods',
    per: 'rodJournal',
    window: 'rod-side',
    compute: eachOf('rods.sideClearance'),
    low: 'Take the sides of the big ends down.',
    high: 'Wider rods, or accept more oil thrown at the bores.',
    weight: 1,
  }),
  fitted({
    id: 'pinFit',
    label: 'Pin in the small end',
    section: 'rods',
    per: 'cylinder',
    window: 'pinClearance',
    compute: eachOf('rods.pinClearance'),
    low: 'Hone the bush.',
    high: 'New bush, honed to the pin.',
    weight: 2,
    how: 'As measured; for a floating pin in a bush.',
  }),
];

const needed = (ask: Ask, path: string) => {
  const value = ask.numberOrNull(path);
  if (value === null) throw new NotMeasured([path]);
  return value;
};

const BORES: readonly CheckSpec[] = [
  fitted({
    id: 'boreTaperFit',
    label: 'Bore taper',
    section: 'block',
    per: 'cylinder',
    window: 'boreTaper',
    compute: shape('taperM', ['block.boreTopAcross', 'block.boreBottomAcross']),
    low: '',
    high: RE_HONE,
    weight: 2,
    how: 'Largest difference between heights in one direction, as a difference of diameters.',
  }),
  fitted({
    id: 'boreOutOfRoundFit',
    label: 'Bore out of round',
    section: 'block',
    per: 'cylinder',
    window: 'boreOutOfRound',
    compute: shape('outOfRoundM', ['block.boreTopAcross', 'block.boreTopAlong']),
    low: '',
    high: RE_HONE,
    weight: 2,
    how: 'Largest difference between the two directions at one height.',
  }),
  fitted({
    id: 'boreSpreadFit',
    label: 'Bores, largest against smallest',
    section: 'block',
    window: 'boreSpread',
    compute: spreadByPlace(measuredBores, 'block.boreMiddleAcross'),
    low: '',
    high: 'Fit each piston to its own bore, or hone the smaller bores.',
    weight: 1,
    how: 'Mean diameters of the cylinders.',
  }),
  fitted({
    id: 'wallClearanceFit',
    label: 'Piston clearance',
    section: 'pistons',
    per: 'cylinder',
    window: 'piston-to-wall',
    compute: wallClearancesM,
    scale: boreM,
    low: 'Hone the bore to what the piston’s maker asks for.',
    high: 'A larger piston; what rocks is heard cold and wears the rings.',
    weight: 3,
    how: LESS,
  }),
];

const ring = (id: string, label: string, window: string, weight: 1 | 2 | 3, scale?: Need<number>) =>
  fitted({
    id: `${id}Fit`,
    label,
    section: 'pistons',
    per: 'cylinder',
    window,
    compute: eachOf(`pistons.${id}`),
    ...(scale === undefined ? {} : { scale }),
    low: window === 'ring-side' ? 'Another ring, or the groove re-cut.' : 'File the ring.',
    high: window === 'ring-side' ? 'A wider ring, or another piston.' : 'Another ring, filed anew.',
    weight,
  });

const TOP: readonly CheckSpec[] = [
  ring('topRingGap', 'Top ring end gap', 'ring-gap-top', 3, boreM),
  ring('secondRingGap', 'Second ring end gap', 'ring-gap-second', 2, boreM),
  ring('oilRailGap', 'Oil rail end gap', 'ring-gap-oil-rail', 1),
  ring('topRingSide', 'Top ring in its groove', 'ring-side', 1),
  ring('secondRingSide', 'Second ring in its groove', 'ring-side', 1),
  ...(['intake', 'exhaust'] as const).map((side) =>
    fitted({
      id: `${side}GuideFit`,
      label: `${side === 'intake' ? 'Intake' : 'Exhaust'} guide clearance`,
      section: 'heads',
      per: side === 'intake' ? 'intakeValve' : 'exhaustValve',
      window: side === 'intake' ? 'guideClearanceIntake' : 'guideClearanceExhaust',
      compute: eachOf(`heads.${side}GuideClearance`),
      low: 'Ream or hone the guide.',
      high: 'New guide, or a valve with a larger stem.',
      weight: 1,
    }),
  ),
  {
    id: 'chamberSpread',
    section: 'heads',
    label: 'Chambers, largest against smallest',
    shown: 'smallVolume',
    how: 'As measured.',
    window: 'chamberSpread',
    compute: spreadByPlace(eachOf('heads.chamberVolume'), 'heads.chamberVolume'),
    remedy: { low: '', high: 'Open the smaller chambers, or sink their valves a little.' },
    weight: 1,
  },
];

export const FIT_CHECKS: readonly CheckSpec[] = [...BORES, ...BEARINGS, ...TOP];

const worked = (
  id: string,
  label: string,
  section: string,
  per: Place,
  compute: Need<ByPlace>,
): FigureSpec => ({ id, label, section, per, shown: 'bore', how: LESS, compute });

export const FIT_FIGURES: readonly FigureSpec[] = [
  worked('mainClearance', 'Main clearance', 'crank', 'mainJournal', mainClearancesM),
  worked('rodClearance', 'Rod clearance', 'crank', 'rodJournal', rodClearancesM),
  worked(
    'mainFromParts',
    'Main clearance, bore less journal',
    'crank',
    'mainJournal',
    mainFromPartsM,
  ),
  worked('rodFromParts', 'Rod clearance, bore less journal', 'crank', 'rodJournal', rodFromPartsM),
  worked('wallClearance', 'Piston clearance', 'pistons', 'cylinder', wallClearancesM),
];

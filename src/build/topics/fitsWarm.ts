import {
  COLD_LASH_CHART,
  EXPANDING_MATERIALS,
  MEASURING_TEMPERATURE_K,
  warmClearanceM,
} from '../../trade/clearance/index.ts';
import { eachOf, firstOf, type Need, once, one, textOf } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Note, Said } from '../compute/types.ts';
import type { Place } from '../sheet/types.ts';
import { mainClearancesM, mainJournalM, rodClearancesM, rodJournalM } from './fits.ts';
import type { Side } from './flowValves.ts';
import { SIDE_NAMES, SIDES } from './liftCurve.ts';

/** Growth by the sheet's own names; where a choice is no one alloy, the one most often meant (common practice). */
const GROWS: Readonly<Record<string, string>> = {
  iron: 'grey-iron',
  aluminium: 'aluminium-356',
  steel: 'steel-4340',
  titanium: 'titanium-6-4',
  'forged steel': 'steel-4340',
  'billet steel': 'steel-4340',
  'cast steel': 'steel-1040',
  'cast iron': 'ductile-iron',
  'forged, low silicon': 'aluminium-2618',
  'forged, high silicon': 'aluminium-4032',
  cast: 'aluminium-319',
  'hypereutectic cast': 'aluminium-4032',
};

const expansionOf =
  (path: string): Need<number> =>
  (ask) => {
    const id = GROWS[textOf(path)(ask)];
    return EXPANDING_MATERIALS.find((material) => material.id === id)!.expansionPerK;
  };

/**
 * Bearings when warm [K] (from memory, low confidence). A piston's skirt is not answered for: how hot it runs is known
 * to some tens of kelvin, which is all of its clearance.
 */
const WARM_K = { bearing: 373.15 } as const;

const PARTS_AT: Note = {
  sentence: 'Taken at 100 °C for housing and journal, from 20 °C, and even warmth.',
  source: 'temperatures from memory, low confidence; expansions: see the handbook of materials',
};

interface Warm {
  readonly clearances: Need<readonly (number | null)[]>;
  readonly insideM: Need<number>;
  readonly hole: { readonly material: string; readonly atK: number };
  readonly inside: { readonly material: string; readonly atK: number };
}

const warmed = ({ clearances, insideM, hole, inside }: Warm): Need<Said> =>
  once((ask) => {
    const needs = ask.all({
      clearances,
      insideM,
      hole: expansionOf(hole.material),
      inside: expansionOf(inside.material),
    });
    const value = needs.clearances.map((clearanceM) =>
      clearanceM === null
        ? null
        : warmClearanceM(
            {
              diameterM: needs.insideM + clearanceM,
              expansionPerK: needs.hole,
              temperatureK: hole.atK,
            },
            { diameterM: needs.insideM, expansionPerK: needs.inside, temperatureK: inside.atK },
            MEASURING_TEMPERATURE_K,
          ),
    );
    return { value, notes: [PARTS_AT] };
  });

const figure = (
  id: string,
  label: string,
  section: string,
  per: Place,
  warm: Warm,
): FigureSpec => ({
  id,
  label,
  section,
  per,
  shown: 'bore',
  how: 'Both diameters grow by L α ΔT, each at its own warmth.',
  compute: warmed(warm),
});

const BEARING = { atK: WARM_K.bearing } as const;

/** Lash that the valve gains from cold to hot [m], by the chart for block and head; null where it has no line. */
const lashGrowth: Need<Said> = once((ask) => {
  const { block, head } = ask.all({
    block: textOf('block.material'),
    head: textOf('heads.material'),
  });
  const line = COLD_LASH_CHART.find((row) => row.block === block && row.head === head);
  const notes = [
    {
      sentence:
        line === undefined
          ? `The chart has no line for ${block} block and ${head} head: set one valve cold and measure it hot.`
          : 'A first setting only: measure one valve cold and hot.',
      source: 'a camshaft maker’s chart for its usual pushrod engines',
    },
  ];
  return { value: line === undefined ? null : -line.addM, notes };
});

/** Lash to set cold [m]: as wanted cold, else as wanted hot less what warmth adds. */
const coldWanted = (side: Side): Need<number | null> =>
  once(
    firstOf<number | null>(one(`valveTrain.${side}LashCold`), (ask) => {
      const { hot, growth } = ask.all({
        hot: one(`valveTrain.${side}LashHot`),
        growth: lashGrowth,
      });
      return typeof growth.value === 'number' ? hot - growth.value : null;
    }),
  );

const hasLash = (ask: { textOrNull(path: string): string | null }) =>
  !(ask.textOrNull('camshaft.lifter') ?? '').startsWith('hydraulic');

export const WARM_FIGURES: readonly FigureSpec[] = [
  figure('mainClearanceWarm', 'Main clearance, warm', 'crank', 'mainJournal', {
    clearances: mainClearancesM,
    insideM: mainJournalM,
    hole: { material: 'block.material', ...BEARING },
    inside: { material: 'crank.material', ...BEARING },
  }),
  figure('rodClearanceWarm', 'Rod clearance, warm', 'crank', 'rodJournal', {
    clearances: rodClearancesM,
    insideM: rodJournalM,
    hole: { material: 'rods.material', ...BEARING },
    inside: { material: 'crank.material', ...BEARING },
  }),
  {
    id: 'lashGrowth',
    section: 'valveTrain',
    label: 'Lash gained from cold to hot',
    shown: 'bore',
    how: 'By the chart for block and head material; below 0 it closes up.',
    applies: hasLash,
    compute: lashGrowth,
  },
  ...SIDES.map(
    (side): FigureSpec => ({
      id: `${side}LashToSet`,
      section: 'valveTrain',
      label: `${SIDE_NAMES[side]} lash to set cold`,
      shown: 'bore',
      how: 'As wanted cold, else as wanted hot less what warmth adds.',
      applies: hasLash,
      compute: (ask) => ({ value: coldWanted(side)(ask) }),
    }),
  ),
];

export const WARM_CHECKS: readonly CheckSpec[] = SIDES.map((side) => ({
  id: `${side}LashSet`,
  section: 'valveTrain',
  label: `${SIDE_NAMES[side]} lash, set less wanted`,
  shown: 'bore',
  per: side === 'intake' ? 'intakeValve' : 'exhaustValve',
  how: 'As set cold, less what is wanted cold.',
  window: 'lashSet',
  applies: hasLash,
  compute: (ask) => {
    const { set, wanted } = ask.all({
      set: eachOf(`valveTrain.${side}LashSet`),
      wanted: coldWanted(side),
    });
    return { value: wanted === null ? null : set.map((at) => (at === null ? null : at - wanted)) };
  },
  remedy: {
    low: 'Open the lash: a valve held off its seat burns.',
    high: 'Close the lash: too much hammers the train and takes lift.',
  },
  weight: 2,
}));

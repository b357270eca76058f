import {
  type Chamber,
  type MixtureWindow,
  type Reason,
  type SparkWindow,
  type StartInput,
  type StartWindow,
  startingMixture,
  startingSpark,
} from '../../trade/start/index.ts';
import { type Ask, firstOf, ifThere, type Need, NotMeasured, once, one } from '../compute/ask.ts';
import type { FigureSpec, Note, Said } from '../compute/types.ts';
import { boreM } from './basics.ts';
import { ratios } from './compression.ts';
import { sheetFuel } from './fuelSystemFuel.ts';

/**
 * The sheet's chambers by how fast they burn. Between two kinds the one whose best lead is less is taken: a closed wedge
 * and a bathtub squeeze the charge and may burn fast, an open wedge does not. Common practice, no source.
 */
const CHAMBERS: Readonly<Record<string, Chamber>> = {
  'open wedge': 'two-valve wedge',
  'closed wedge': 'two-valve fast burn',
  bathtub: 'two-valve fast burn',
  hemispherical: 'two-valve hemispherical',
};

function chamberOf(ask: Ask): Chamber | undefined {
  const said = ask.textOrNull('heads.chamber');
  if (said === 'pent roof')
    return ask.layout.intakeValvesPerCylinder > 1 ? 'four-valve pent roof' : 'two-valve fast burn';
  return said === null ? undefined : CHAMBERS[said];
}

/** The highest ratio of any cylinder decides; where none is measured yet, the one wanted. */
const highestRatio: Need<number> = firstOf<number>((ask) => {
  const known = ratios(ask).filter((ratio): ratio is number => ratio !== null);
  if (known.length === 0) throw new NotMeasured(['deck.deckClearance']);
  return Math.max(...known);
}, one('intent.compressionRatio'));

const input: Need<StartInput> = once((ask) => ({
  aspiration: ask.layout.aspiration,
  fuel: ifThere(sheetFuel)(ask) ?? undefined,
  compressionRatio: ifThere(highestRatio)(ask) ?? undefined,
  chamber: chamberOf(ask),
  boreM: ifThere(boreM)(ask) ?? undefined,
}));

/** What to fill in on the sheet for what a window lacks. */
function missingPaths(ask: Ask, key: keyof StartInput): readonly string[] {
  const lackOf = (need: Need<unknown>): readonly string[] => {
    try {
      need(ask);
      return [];
    } catch (error) {
      if (error instanceof NotMeasured) return error.paths;
      throw error;
    }
  };
  switch (key) {
    case 'fuel':
      return lackOf(sheetFuel);
    case 'compressionRatio':
      return lackOf(highestRatio);
    case 'boreM':
      return lackOf(boreM);
    case 'chamber':
      return ['heads.chamber'];
    case 'aspiration':
      return [];
  }
}

const noted = ({ sentence, source }: Reason): Note => ({ sentence, source });

const OTHER_CHAMBER: Note = {
  sentence:
    'Nothing cautious is known of a chamber that is none of the kinds here: begin with the figure of whoever runs the like.',
  source: null,
};

const startOf =
  <Window>(
    begin: (given: StartInput) => StartWindow<Window>,
    read: (window: Window) => number,
  ): Need<Said> =>
  (ask) => {
    const start = begin(input(ask));
    if (start.state === 'none') return { value: null, notes: start.reasons.map(noted) };
    if (start.state === 'window')
      return {
        value: read(start.window),
        notes: [...start.reasons.map(noted), { sentence: start.caution, source: null }],
      };
    if (start.missing.includes('chamber') && ask.textOrNull('heads.chamber') !== null)
      return { value: null, notes: [OTHER_CHAMBER] };
    throw new NotMeasured(start.missing.flatMap((key) => missingPaths(ask, key)));
  };

const lead = (read: (window: SparkWindow) => number) => startOf(startingSpark, read);
const mixture = (read: (window: MixtureWindow) => number) => startOf(startingMixture, read);

const LEAD_HOW =
  'Below the least lead that engines of this chamber end up with, less for ratio, octane and bore; nothing adds any. A place to begin, not a promise.';
const MIXTURE_HOW =
  'On the rich side of best power of this fuel, richer where the ratio is high. A place to begin, not a promise.';

export const FIRST_SETTINGS_FIGURES: readonly FigureSpec[] = [
  {
    id: 'startLeadLow',
    section: 'ignition',
    label: 'First lead at full throttle, from',
    shown: 'angle',
    decimals: 0,
    how: LEAD_HOW,
    compute: lead(({ lowDeg }) => lowDeg),
  },
  {
    id: 'startLeadHigh',
    section: 'ignition',
    label: 'First lead at full throttle, to',
    shown: 'angle',
    decimals: 0,
    how: LEAD_HOW,
    compute: lead(({ highDeg }) => highDeg),
  },
  {
    id: 'startLambdaRich',
    section: 'fuelSystem',
    label: 'First mixture at full throttle, richest',
    shown: 'lambda',
    decimals: 2,
    how: MIXTURE_HOW,
    compute: mixture(({ lowLambda }) => lowLambda),
  },
  {
    id: 'startLambdaLean',
    section: 'fuelSystem',
    label: 'First mixture at full throttle, leanest',
    shown: 'lambda',
    decimals: 2,
    how: MIXTURE_HOW,
    compute: mixture(({ highLambda }) => highLambda),
  },
  {
    id: 'startAfrRich',
    section: 'fuelSystem',
    label: 'The same as air to fuel, richest',
    shown: 'airFuelRatio',
    how: MIXTURE_HOW,
    compute: mixture(({ lowAfr }) => lowAfr),
  },
  {
    id: 'startAfrLean',
    section: 'fuelSystem',
    label: 'The same as air to fuel, leanest',
    shown: 'airFuelRatio',
    how: MIXTURE_HOW,
    compute: mixture(({ highAfr }) => highAfr),
  },
];

import { soundMPerS } from '../../trade/flow/index.ts';
import {
  collectorBoreM,
  endCorrectionM,
  FAVOURABLE_ORDERS,
  HEADER_OPENING_RANGE_DEG,
  pipeToMakeM,
  primaryBoreM,
  primaryLengthM,
  primarySpeedRpm,
  quarterWaveLengthM,
  quarterWaveSpeedRpm,
  RAM_TRAVEL_RANGE_DEG,
  type Resonator,
  ramRunnerLengthM,
  ramSpeedRpm,
  reflectedWaveLengthM,
  TUNING_CAUTION,
  TUNING_UNCERTAINTY_SHARE,
  type WaveTuning,
  withCertainty,
} from '../../trade/tuning/index.ts';
import { type Ask, firstOf, type Need, once, one } from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Note, Said } from '../compute/types.ts';
import { countOf } from '../sheet/layout.ts';
import { cylinderM3 } from './basics.ts';
import { eventsAt } from './cam.ts';
import { meanRatio } from './compression.ts';
import { INLET_AIR_K } from './flow.ts';

const CAUTION: Note = {
  sentence: TUNING_CAUTION,
  source: 'H. W. Engelman, ASME 73-WA/DGP-2 (as restated)',
};
const SOUND_M_PER_S = soundMPerS(INLET_AIR_K);
const RULE = 'Air of 25 °C.';

/** A tuned length or speed with the range that its rule leaves. */
const tuned = (value: number, notes: readonly Note[] = []): Said => {
  const { low, high } = withCertainty(value);
  return { value, range: { low, high }, notes: [CAUTION, ...notes] };
};
const tunedOf =
  (need: Need<number>, notes: Need<readonly Note[]> = () => []): Need<Said> =>
  (ask) =>
    tuned(need(ask), notes(ask));

const tuning = (ask: Ask): WaveTuning => ({ soundMPerS: SOUND_M_PER_S, cycle: ask.layout.cycle });
const torqueSpeed = one('intent.peakTorqueSpeed');

/** What the wave sees beyond the runner's own end in the plenum's wall [m]; 0 where its bore is not known. */
const endM: Need<number> = (ask) => {
  const diameter = ask.numberOrNull('induction.runnerDiameter');
  return diameter === null ? 0 : endCorrectionM(diameter / 2, 'in a wall');
};

/** The runner as long as sound takes it [m]. */
const acousticRunnerM: Need<number> = (ask) => one('induction.runnerLength')(ask) + endM(ask);

/** A runner's own length for an acoustic one [m]. */
const runnerToMakeM = (ask: Ask, acousticM: number): number => pipeToMakeM(acousticM, 0, endM(ask));

const orderFigures: FigureSpec[] = FAVOURABLE_ORDERS.flatMap((order) => {
  const id = String(order).replace('.', '');
  const name = `wave of order ${order}`;
  return [
    {
      id: `runnerForTorque${id}`,
      section: 'induction',
      label: `Runner for peak torque, ${name}`,
      shown: 'pipe',
      how: `From the valve's seat: 15 × turns a cycle × speed of sound ÷ (order × speed), less the end in the plenum's wall. ${RULE} Orders from NACA TN 935 (from memory); a low one is stronger.`,
      compute: tunedOf((ask) =>
        runnerToMakeM(ask, quarterWaveLengthM(tuning(ask), torqueSpeed(ask), order)),
      ),
    },
    {
      id: `runnerSpeed${id}`,
      section: 'induction',
      label: `Speed of this runner, ${name}`,
      shown: 'speed',
      how: `15 × turns a cycle × speed of sound ÷ (order × length with its end). ${RULE} Orders from NACA TN 935 (from memory).`,
      compute: tunedOf((ask) => quarterWaveSpeedRpm(tuning(ask), acousticRunnerM(ask), order)),
    },
  ] satisfies FigureSpec[];
});

const resonator: Need<Omit<Resonator, 'runnerLengthM'>> = once((ask) => {
  const needs = ask.all({
    diameter: one('induction.runnerDiameter'),
    swept: cylinderM3,
    ratio: firstOf(meanRatio, one('intent.compressionRatio')),
  });
  return {
    soundMPerS: SOUND_M_PER_S,
    runnerAreaM2: (Math.PI / 4) * needs.diameter ** 2,
    sweptVolumeM3: needs.swept,
    compressionRatio: needs.ratio,
  };
});
const RAM = `Runner and cylinder as a resonator that swings 2.1 times a turn (H. W. Engelman 1953 and 1973, from memory). ${RULE}`;

const exhaustOpensDeg: Need<number> = (ask) => eventsAt('Seat')(ask).exhaustOpensBbdcDeg;
const openingNotes: Need<readonly Note[]> = (ask) => {
  const opens = exhaustOpensDeg(ask);
  const [low, high] = HEADER_OPENING_RANGE_DEG;
  return opens >= low && opens <= high
    ? []
    : [
        {
          sentence: `The exhaust opens ${opens.toFixed(0)}° before the bottom; the rule is used between ${low} and ${high}°.`,
          source: 'common practice, no source',
        },
      ];
};
const primaryFor =
  (speed: Need<number>): Need<number> =>
  (ask) => {
    const needs = ask.all({ opens: exhaustOpensDeg, speed });
    return primaryLengthM(needs.opens, needs.speed);
  };
const HEADER =
  '850 × (180 + exhaust opening) ÷ speed − 3 inches, from the head’s face. A. Graham Bell, Four-Stroke Performance Tuning (from memory).';

/** The primaries as they are, else as long as peak torque wants them. */
const primaryM = firstOf(one('exhaust.primaryLength'), primaryFor(torqueSpeed));

const suitedBoreM: Need<number> = (ask) => {
  const needs = ask.all({ volume: cylinderM3, length: primaryM });
  return primaryBoreM(needs.volume, needs.length);
};

/** How many primaries one collector joins: those of a bank, by halves where that is more than four. */
const joined = (ask: Ask): number => {
  const bank = ask.layout.cylinders / countOf('bank', ask.layout);
  return bank > 4 && bank % 2 === 0 ? bank / 2 : bank;
};
const hasCollector = (ask: Ask) => [2, 3, 4].includes(joined(ask));
const isFourStroke = (ask: Ask) => ask.layout.cycle === 4;

export const TUNING_FIGURES: readonly FigureSpec[] = [
  ...orderFigures,
  {
    id: 'runnerEcho',
    section: 'induction',
    label: 'Runner for peak torque, by the echo',
    shown: 'pipe',
    how: `A wave that is back after ${RAM_TRAVEL_RANGE_DEG.join(' to ')}°: degrees × speed of sound ÷ (12 × speed), less the end. ${RULE} H. Heisler, Advanced Engine Technology ch. 6 (from memory).`,
    compute: (ask) => {
      const speed = torqueSpeed(ask);
      const [low, high] = RAM_TRAVEL_RANGE_DEG;
      const at = (deg: number) =>
        runnerToMakeM(ask, reflectedWaveLengthM(SOUND_M_PER_S, speed, deg));
      return {
        value: at((low + high) / 2),
        range: {
          low: at(low) * (1 - TUNING_UNCERTAINTY_SHARE),
          high: at(high) * (1 + TUNING_UNCERTAINTY_SHARE),
        },
        notes: [CAUTION],
      };
    },
  },
  {
    id: 'runnerRam',
    section: 'induction',
    label: 'Runner for peak torque, by the ram',
    shown: 'pipe',
    how: RAM,
    compute: tunedOf((ask) => {
      const needs = ask.all({ resonator, speed: torqueSpeed });
      return runnerToMakeM(ask, ramRunnerLengthM(needs.resonator, needs.speed));
    }),
  },
  {
    id: 'runnerRamSpeed',
    section: 'induction',
    label: 'Speed of this runner, by the ram',
    shown: 'speed',
    how: RAM,
    compute: tunedOf((ask) => {
      const needs = ask.all({ resonator, runnerLengthM: acousticRunnerM });
      return ramSpeedRpm({ ...needs.resonator, runnerLengthM: needs.runnerLengthM });
    }),
  },
  {
    id: 'primaryForTorque',
    section: 'exhaust',
    label: 'Primary for peak torque',
    shown: 'pipe',
    how: HEADER,
    applies: isFourStroke,
    compute: tunedOf(primaryFor(torqueSpeed), openingNotes),
  },
  {
    id: 'primaryForPower',
    section: 'exhaust',
    label: 'Primary for peak power',
    shown: 'pipe',
    how: HEADER,
    applies: isFourStroke,
    compute: tunedOf(primaryFor(one('intent.peakPowerSpeed')), openingNotes),
  },
  {
    id: 'primarySpeed',
    section: 'exhaust',
    label: 'Speed that this primary suits',
    shown: 'speed',
    how: `${HEADER} Turned round.`,
    applies: isFourStroke,
    compute: tunedOf((ask) => {
      const needs = ask.all({ opens: exhaustOpensDeg, length: one('exhaust.primaryLength') });
      return primarySpeedRpm(needs.opens, needs.length);
    }, openingNotes),
  },
  {
    id: 'primaryBore',
    section: 'exhaust',
    label: 'Primary bore to suit',
    shown: 'pipe',
    how: '2.1 √(cylinder in cm³ ÷ (25 × (length + 3 in))) in inches, for the primary as it is, else for the one of peak torque. A. Graham Bell (from memory).',
    applies: isFourStroke,
    compute: tunedOf(suitedBoreM),
  },
  {
    id: 'collectorBore',
    section: 'exhaust',
    label: 'Collector bore to suit',
    shown: 'pipe',
    how: '2 √(2 × cylinder in cm³ ÷ (25 × (length + 3 in))) in inches, two to four primaries. A. Graham Bell (from memory, low confidence).',
    applies: (ask) => isFourStroke(ask) && hasCollector(ask),
    compute: tunedOf((ask) => {
      const needs = ask.all({ volume: cylinderM3, length: primaryM });
      return collectorBoreM(needs.volume, needs.length, joined(ask));
    }),
  },
];

export const TUNING_CHECKS: readonly CheckSpec[] = [
  {
    id: 'primaryBoreFitted',
    section: 'exhaust',
    label: 'Primary bore against the one to suit',
    shown: 'percent',
    decimals: 0,
    how: 'Bore as it is ÷ bore that suits cylinder and length.',
    window: 'primaryBore',
    applies: isFourStroke,
    compute: (ask) => {
      const needs = ask.all({ fitted: one('exhaust.primaryDiameter'), suited: suitedBoreM });
      return needs.fitted / needs.suited;
    },
    remedy: {
      low: 'A larger pipe where power at speed is wanted; a small one fills in low down.',
      high: 'A smaller pipe where torque low down is wanted; the dyno has the last word.',
    },
    weight: 1,
  },
  {
    id: 'collectorLength',
    section: 'exhaust',
    label: 'Collector length',
    shown: 'pipe',
    how: 'As measured.',
    window: 'collectorLength',
    applies: (ask) => isFourStroke(ask) && hasCollector(ask),
    compute: one('exhaust.collectorLength'),
    remedy: {
      low: 'Try a longer collector: it fills in below the peak.',
      high: 'Try a shorter collector: it may help above the peak.',
    },
    weight: 1,
  },
];

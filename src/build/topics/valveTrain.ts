import { lobeBendMPerDeg2, valveLiftM } from '../../trade/camshaft/index.ts';
import {
  effectiveRatio,
  massAtValveKg,
  nearestPushrod,
  pushrodLengthM,
  type SpringMargin,
  springLoadN,
  springMargin,
  springThrough,
  surgeFrequencyHz,
  surgeSwingsPerCamTurn,
  type ValveSpring,
} from '../../trade/valvetrain/index.ts';
import {
  type Ask,
  eachOf,
  firstOf,
  meanOf,
  type Need,
  NotMeasured,
  once,
  one,
  oneOrUsual,
  textOf,
} from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Said } from '../compute/types.ts';
import { byPlace, everywhere, numbersIn, orNone } from './basics.ts';
import { bySide, drivenValves, mostLiftM, type Side } from './flowValves.ts';
import { SIDE_NAMES, SIDES } from './liftCurve.ts';
import { highestSpeedRpm } from './motion.ts';

export const VALVES = { intake: 'intakeValve', exhaust: 'exhaustValve' } as const;
type ByPlace = readonly (number | null)[];

/** Largest lift of the valve [m]; asks for what it lacks. */
const liftM = bySide<number>((side) => (ask) => {
  const known = mostLiftM[side](ask);
  if (known !== null) return known;
  drivenValves[side](ask);
  throw new NotMeasured([`valveTrain.${side}LiftMeasured`]);
});

/** Largest lift of each valve [m]: as measured, else the same for all. */
const liftsM = bySide<ByPlace>((side) =>
  firstOf(eachOf(`valveTrain.${side}LiftMeasured`), everywhere(VALVES[side], liftM[side])),
);

const heightsM = (side: Side) => eachOf(`valveTrain.${side}InstalledHeight`);

/** Tallest and shortest of the tester's readings give the rate. */
const tested: Need<ValveSpring> = (ask) => {
  const readings = ask
    .rows('valveTrain.springCheck')
    .flatMap((row) => numbersIn(row, ['height', 'load']) ?? [])
    .sort((a, b) => b.height - a.height);
  const [tall, short] = [readings[0], readings.at(-1)];
  if (tall === undefined || short === undefined || readings.length < 2)
    throw new NotMeasured(['valveTrain.springCheck']);
  return springThrough(
    { heightM: tall.height, loadN: tall.load },
    { heightM: short.height, loadN: short.load },
  );
};

/** The spring: off the tester, else its rate through the seat load measured, else wanted, at installed height. */
const springs = bySide<ValveSpring>((side) =>
  firstOf(tested, (ask) => {
    const needs = ask.all({
      rate: one('valveTrain.springRate'),
      height: meanOf(heightsM(side)),
      load: firstOf(meanOf(eachOf(`valveTrain.${side}SeatLoad`)), one('valveTrain.seatLoadWanted')),
    });
    return { rateNPerM: needs.rate, heightM: needs.height, loadN: needs.load };
  }),
);

/** Loads [N] of each valve on its seat, or open: as measured, else by the spring at its height. */
const loadsN = (side: Side, at: 'Seat' | 'Open'): Need<ByPlace> =>
  once(
    firstOf(eachOf(`valveTrain.${side}${at}Load`), (ask) => {
      const needs = ask.all({
        spring: springs[side],
        heights: heightsM(side),
        lifts: liftsM[side],
      });
      return byPlace({ height: needs.heights, lift: needs.lifts }, ({ height, lift }) =>
        springLoadN(needs.spring, at === 'Seat' ? height : height - lift),
      );
    }),
  );

const coilBindM =
  (side: Side): Need<ByPlace> =>
  (ask) => {
    const needs = ask.all({
      heights: heightsM(side),
      lifts: liftsM[side],
      bind: one('valveTrain.coilBindHeight'),
    });
    return byPlace(
      { height: needs.heights, lift: needs.lifts },
      (at) => at.height - at.lift - needs.bind,
    );
  };

const retainerM =
  (side: Side): Need<ByPlace> =>
  (ask) => {
    const needs = ask.all({
      shut: eachOf(`valveTrain.${side}RetainerToSeal`),
      lifts: liftsM[side],
    });
    return byPlace({ shut: needs.shut, lift: needs.lifts }, ({ shut, lift }) => shut - lift);
  };

const isOverhead = (ask: Ask) => (ask.textOrNull('camshaft.lifter') ?? '').startsWith('overhead');
const isHydraulic = (ask: Ask) => (ask.textOrNull('camshaft.lifter') ?? '').startsWith('hydraulic');

/** What moves with one valve, as weight at the valve [kg]. */
export const massAtValve = bySide<number>((side) => (ask) => {
  const overhead = isOverhead(ask);
  const bucket = ask.textOrNull('camshaft.lifter') === 'overhead bucket';
  const parts = ask.all({
    valve: one(`valveTrain.${side}ValveMass`),
    retainer: one('valveTrain.retainerMass'),
    spring: one('valveTrain.springMass'),
    rocker: bucket ? () => 0 : one('valveTrain.rockerMassAtValve'),
    pushrod: overhead ? () => 0 : one('valveTrain.pushrodMass'),
    lifter: overhead && !bucket ? orNone('valveTrain.lifterMass') : one('valveTrain.lifterMass'),
    driven: drivenValves[side],
  });
  return massAtValveKg({
    valveKg: parts.valve,
    retainerKg: parts.retainer,
    locksKg: 0,
    springKg: parts.spring,
    // The sheet asks for the rocker's inertia over its arm squared, which is that of an arm of 1 m.
    rockerInertiaKgM2: parts.rocker,
    rockerValveArmM: 1,
    pushrodKg: parts.pushrod,
    lifterKg: parts.lifter,
    rockerRatio: parts.driven.rockerRatio,
  });
});

/** Angles looked at around the lobe [crank degrees]: the nose, where springs let go, is flat over many of them. */
const STEP_DEG = 2;

/** Spring against inertia at the highest speed. With one line of the card the flanks are no ground for it. */
const margins = bySide<SpringMargin>((side) => (ask) => {
  const needs = ask.all({
    valve: drivenValves[side],
    spring: springs[side],
    installed: meanOf(heightsM(side)),
    mass: massAtValve[side],
    speed: highestSpeedRpm,
  });
  const { valve } = needs;
  if (valve.lift.estimated === 'flank') throw new NotMeasured(['camshaft.card']);
  const motion = {
    of: 'crank' as const,
    liftM: (deg: number) => valveLiftM(valve, deg),
    accelerationMPerDeg2: (deg: number) => lobeBendMPerDeg2(valve.lift, deg) * valve.rockerRatio,
    fromDeg: valve.lift.beginsDeg,
    toDeg: valve.lift.endsDeg,
  };
  return springMargin(
    {
      motion,
      spring: needs.spring,
      installedHeightM: needs.installed,
      massKg: needs.mass,
      stepDeg: STEP_DEG,
    },
    needs.speed,
  );
});

const GUESS = {
  sentence:
    'The acceleration between the few lines of a card is a guess: more lines of the card, or the lobe as measured, count.',
  source: null,
};

const INERTIA =
  'Spring at each lift ÷ mass at the valve × acceleration of the lift curve; stiff parts, no surge. Real trains float 5 to 15 % earlier (from memory).';

/** Rocker ratio that each valve really has: its measured lift and lash over lobe lift. */
const ratios =
  (side: Side): Need<ByPlace> =>
  (ask) => {
    const needs = ask.all({
      lifts: eachOf(`valveTrain.${side}LiftMeasured`),
      lobe: one(`camshaft.${side}LobeLift`),
      driven: drivenValves[side],
    });
    return needs.lifts.map((lift) =>
      lift === null ? null : effectiveRatio(lift, needs.lobe, needs.driven.lashM),
    );
  };

function figuresOf(side: Side): FigureSpec[] {
  const name = SIDE_NAMES[side];
  const figure = (spec: Omit<FigureSpec, 'section'>): FigureSpec => ({
    section: 'valveTrain',
    ...spec,
  });
  return [
    figure({
      id: `${side}ValveLift`,
      label: `${name} valve lift`,
      shown: 'lift',
      how: 'As measured, else lobe lift × rocker ratio − lash.',
      compute: liftM[side],
    }),
    figure({
      id: `${side}EffectiveRatio`,
      label: `${name} rocker ratio, as it really is`,
      shown: 'ratio',
      per: VALVES[side],
      how: 'Measured valve lift and lash over lobe lift.',
      compute: ratios(side),
    }),
    figure({
      id: `${side}SeatLoad`,
      label: `${name} spring on its seat`,
      shown: 'force',
      per: VALVES[side],
      how: 'As measured, else the spring’s line at the installed height.',
      compute: loadsN(side, 'Seat'),
    }),
    figure({
      id: `${side}OpenLoad`,
      label: `${name} spring, valve open`,
      shown: 'force',
      per: VALVES[side],
      how: 'As measured, else the spring’s line at installed height less lift.',
      compute: loadsN(side, 'Open'),
    }),
    figure({
      id: `${side}MassAtValve`,
      label: `${name} train, as weight at the valve`,
      shown: 'partMass',
      how: 'Valve + retainer and locks + spring ÷ 3 + rocker + (pushrod + lifter) ÷ ratio². By kinetic energy.',
      compute: massAtValve[side],
    }),
    figure({
      id: `${side}FloatSpeed`,
      label: `${name} valve floats from`,
      shown: 'speed',
      how: INERTIA,
      compute: (ask): Said => ({ value: margins[side](ask).floatSpeedRpm, notes: [GUESS] }),
    }),
  ];
}

export const VALVE_TRAIN_FIGURES: readonly FigureSpec[] = [
  ...SIDES.flatMap(figuresOf),
  {
    id: 'pushrodWanted',
    section: 'valveTrain',
    label: 'Pushrod length asked for',
    shown: 'bore',
    how: 'Checking pushrod at no lash + preload of a hydraulic lifter. Geometry.',
    applies: (ask) => hasPushrod(ask),
    compute: (ask) => {
      const value = pushrodWantedM(ask);
      const { lengthM } = nearestPushrod(value);
      const inches = (lengthM / 0.0254).toFixed(3);
      return {
        value,
        notes: [
          {
            sentence: `Nearest of those sold: ${inches} in, ${(lengthM * 1000).toFixed(2)} mm.`,
            source: 'steps of 0.050 in: common practice, no source',
          },
        ],
      };
    },
  },
  {
    id: 'springSurge',
    section: 'valveTrain',
    label: 'Spring swings in a turn of the cam, highest speed',
    shown: 'ratio',
    decimals: 1,
    how: 'First resonance ½ √(rate ÷ weight) (Shigley) ÷ cam speed; general advice for springs is 13 or more, valve springs live with less.',
    compute: (ask) => {
      const needs = ask.all({
        rate: firstOf(one('valveTrain.springRate'), (at: Ask) => tested(at).rateNPerM),
        mass: one('valveTrain.springMass'),
        speed: highestSpeedRpm,
      });
      return surgeSwingsPerCamTurn(surgeFrequencyHz(needs.rate, needs.mass), needs.speed);
    },
  },
];

function checksOf(side: Side): CheckSpec[] {
  const name = SIDE_NAMES[side];
  const check = (spec: Omit<CheckSpec, 'section'>): CheckSpec => ({
    section: 'valveTrain',
    ...spec,
  });
  return [
    check({
      id: `${side}CoilBind`,
      label: `${name} spring, left to coil bind at full lift`,
      shown: 'bore',
      per: VALVES[side],
      how: 'Installed height − lift − height at coil bind.',
      window: 'coil-bind',
      compute: coilBindM(side),
      remedy: {
        low: 'A greater installed height, less lift, or a spring that binds lower.',
        high: 'Shim the spring: coils far from meeting damp each other less.',
      },
      weight: 3,
    }),
    check({
      id: `${side}RetainerSeal`,
      label: `${name} retainer to seal at full lift`,
      shown: 'bore',
      per: VALVES[side],
      how: 'Retainer to seal with the valve closed − lift.',
      window: 'retainer-to-seal',
      compute: retainerM(side),
      remedy: { low: 'Cut the guide down, a lower seal, or a longer valve.', high: '' },
      weight: 3,
    }),
    check({
      id: `${side}SpringInertia`,
      label: `${name} spring over what inertia needs, highest speed`,
      shown: 'ratio',
      how: INERTIA,
      window: 'springOverInertia',
      compute: (ask): Said => ({ value: margins[side](ask).leastRatio, notes: [GUESS] }),
      remedy: {
        low: 'More spring, lighter parts at the valve, or a lower limit of speed.',
        high: '',
      },
      weight: 3,
    }),
    check({
      id: `${side}RatioShare`,
      label: `${name} rocker ratio against its name`,
      shown: 'ratio',
      per: VALVES[side],
      how: 'Ratio by measured lift ÷ ratio as said.',
      window: 'rockerRatioShare',
      compute: (ask) => {
        const needs = ask.all({ real: ratios(side), said: one(`valveTrain.${side}RockerRatio`) });
        return needs.real.map((real) => (real === null ? null : real / needs.said));
      },
      remedy: {
        low: 'Look for flex, a wrong pushrod length or a worn lobe.',
        high: 'Measure again; then margins to piston, coil bind and seal by the lift as measured.',
      },
      weight: 1,
    }),
    check({
      id: `${side}SeatLoadShare`,
      label: `${name} seat load against what is wanted`,
      shown: 'ratio',
      per: VALVES[side],
      how: 'Seat load of each valve ÷ the one wanted.',
      window: 'seatLoadShare',
      compute: (ask) => {
        const needs = ask.all({
          loads: loadsN(side, 'Seat'),
          wanted: one('valveTrain.seatLoadWanted'),
        });
        return needs.loads.map((load) => (load === null ? null : load / needs.wanted));
      },
      remedy: { low: 'Shim the spring, and look at coil bind again.', high: 'Take shims out.' },
      weight: 2,
    }),
    check({
      id: `${side}RadialFit`,
      label: `${name} valve to the edge of its pocket`,
      shown: 'bore',
      how: 'As measured.',
      window: 'valveRadial',
      compute: one(`valveTrain.${side}Radial`),
      remedy: { low: 'Cut the pocket wider.', high: '' },
      weight: 2,
    }),
  ];
}

/** Plunger preload aimed at where the sheet says none [m]: the middle of the usual window; common practice, no source. */
const USUAL_PRELOAD_M = 0.04 * 0.0254;

/**
 * Pushrod length [m] that the geometry asks for: the checking pushrod's at no lash, longer by the preload of a hydraulic
 * lifter. With a solid one the adjuster makes the lash, and the checking length itself is asked for.
 */
const pushrodWantedM: Need<number> = (ask) => {
  const zeroM = one('valveTrain.checkingPushrod')(ask);
  const lifter = textOf('camshaft.lifter')(ask);
  if (!lifter.startsWith('hydraulic')) return zeroM;
  const preloadM = oneOrUsual('valveTrain.preload', USUAL_PRELOAD_M)(ask);
  return pushrodLengthM(zeroM, { preloadM: Math.max(0, preloadM) });
};

const hasPushrod = (ask: Ask) => !(ask.textOrNull('camshaft.lifter') ?? '').startsWith('overhead');

export const VALVE_TRAIN_CHECKS: readonly CheckSpec[] = [
  ...SIDES.flatMap(checksOf),
  {
    id: 'pushrodLengthFit',
    section: 'valveTrain',
    label: 'Pushrod against the length asked for',
    shown: 'bore',
    how: 'Length − (checking pushrod at no lash + preload of a hydraulic lifter). Geometry.',
    window: 'pushrodLength',
    applies: hasPushrod,
    compute: (ask) => {
      const { length, wanted } = ask.all({
        length: one('valveTrain.pushrodLength'),
        wanted: pushrodWantedM,
      });
      return length - wanted;
    },
    remedy: {
      low: 'A longer pushrod: a short one sweeps the tip across the stem and takes preload.',
      high: 'A shorter pushrod: a long one sweeps the tip across the stem and may hold the valve open.',
    },
    weight: 2,
  },
  {
    id: 'lifterPreload',
    section: 'valveTrain',
    label: 'Lifter preload',
    shown: 'bore',
    how: 'As measured, below the clip.',
    window: 'preload',
    applies: isHydraulic,
    compute: one('valveTrain.preload'),
    remedy: {
      low: 'A longer pushrod, or the adjuster further down.',
      high: 'A shorter pushrod, or the adjuster back.',
    },
    weight: 2,
  },
];

import { planPartTest } from '../src/compare/index.ts';
import { READS_HIGH_PERCENT } from './calibrations.ts';
import { simulateDay } from './cell.ts';
import type { EngineTruth } from './engine.ts';
import { DIALECTS, type Dialect, toText } from './logger.ts';
import { madeAt } from './shop-six.ts';
import type { DemoDay, DemoEngine } from './shop-types.ts';

const DATE = '2026-02-24';
/** From careful and rich, never more than one rung further in one of the two. */
const PLACES = [
  [24, 0.8],
  [26.5, 0.8],
  [26.5, 0.83],
  [29, 0.83],
  [24, 0.86],
  [29, 0.86],
  [31.5, 0.83],
  [31.5, 0.8],
  [26.5, 0.89],
  [29, 0.89],
  [31.5, 0.86],
  [26.5, 0.86],
] as const;

const ENGINE = {
  cylinders: 4,
  displacementM3: 1.998e-3,
  strokeM: 0.0861,
  compressionRatio: 10.8,
  peakBmepPa: 12.2e5,
  peakTorqueRpm: 4800,
  fall: 0.9,
  fallTilt: 0.3,
  humps: [{ height: 0.015, atRpm: 5600, widthRpm: 500 }],
  curvature: 9e-4,
  curvatureTiltPerKrpm: 0,
  shape: 'cosh',
  lean: 0.02,
  bestLeadDeg: 29.5,
  bestLeadSlopeDegPerKrpm: 0.8,
  bestLeadBendDegPerKrpm2: 0,
} satisfies Partial<EngineTruth>;

const KNOBS = {
  mixture: { bestLambda: 0.875, curvature: 2, ridgeDeg: 10 },
  fromRpm: 2900,
  toRpm: 7100,
  bandRpm: [4500, 6800],
  sweepRpmPerS: 520,
  offsetSdPercent: 0.25,
  whitePercent: 0.6,
  wanderPercent: 0.25,
  slowWanderPercent: 0.08,
  inertiaKgM2: 0.42,
  calibrationPercent: READS_HIGH_PERCENT.one,
  sensorLagS: 0.08,
  whiteKeep: 0.3,
  spikeChance: 0,
  rateHz: 25,
  exhaustChannels: 1,
  air: { pressureAbsPa: 101_200, temperatureK: 290.65, humidity: 0.5 },
} as const;

const DIALECT: Dialect = {
  ...DIALECTS['semicolon comma'],
  names: { speed: 'Speed', torque: 'Brake torque', airTemperature: 'Intake air temp' },
};

const TRIED = ['paper air cleaner', 'no air cleaner'] as const;
/** What leaving the air cleaner out truly gives in torque [%]. */
export const NO_CLEANER_GIVES_PERCENT = 1.6;

/** The day before: does the air cleaner cost anything? By turns, at the careful setting with which the tables began. */
function airCleaner(): DemoDay {
  const date = '2026-02-23';
  const [leadDeg, lambda] = PLACES[0];
  // A gain of 2 % where pulls scatter by 0.35 %: three of each.
  const plan = planPartTest(2, 0.35, 'by turns', false);
  const made = (seed: number, more: number) =>
    simulateDay({
      ...KNOBS,
      seed,
      engine: { ...ENGINE, peakBmepPa: more * ENGINE.peakBmepPa },
      leadsDeg: Array<number>(plan.blocks).fill(leadDeg),
      lambda,
      waterTemperatureK: 355.15,
    });
  const sides = { a: made(4123, 1), b: made(4131, 1 + NO_CLEANER_GIVES_PERCENT / 100) };
  const left = { a: [...toText(sides.a, DIALECT).files], b: [...toText(sides.b, DIALECT).files] };
  const files = plan.order.map((side, i) => ({
    ...left[side].shift()!,
    name: `four air ${String(i + 1).padStart(2, '0')}.csv`,
  }));
  return {
    day: {
      name: 'Air cleaner on and off',
      date,
      notes: 'What the cleaner costs, by turns, before the tables were begun.',
      octane: 98,
      inletTemperatureK: KNOBS.air.temperatureK,
      bandRpm: [4500, 6800],
      use: 'bursts',
    },
    cell: 'one',
    files,
    truth: sides.a.truth,
    knobs: sides.a.knobs,
    pulls: plan.order.map((side, i) => ({
      file: files[i]!.name,
      leadDeg,
      lambdaTarget: lambda,
      order: i,
      group: TRIED[side === 'a' ? 0 : 1],
      watched: 'ear',
      knockHeard: false,
      madeAt: madeAt(date, 10 * 60 + 5 + 9 * i),
    })),
    ladder: null,
    decisions: [],
    partTest: {
      name: 'Without the air cleaner',
      groupA: TRIED[0],
      groupB: TRIED[1],
      gainPercent: plan.gainPercent,
      repeatabilityPercent: 0.35,
      plan,
      who: 'the operator',
      madeAt: madeAt(date, 9 * 60 + 30),
    },
  };
}

/** Story 4: a sports four on a new controller: lead and lambda varied on one day, for its tables. */
export function four(): DemoEngine {
  const simulated = simulateDay({
    ...KNOBS,
    seed: 4117,
    engine: ENGINE,
    leadsDeg: PLACES.map(([lead]) => lead),
    lambdas: PLACES.map(([, lambda]) => lambda),
  });
  const files = toText(simulated, DIALECT).files.map((file, i) => ({
    ...file,
    name: `four ${String(i + 1).padStart(2, '0')}.csv`,
  }));
  return {
    engine: {
      name: 'Sports four',
      serial: 'PC-0031',
      owner: 'a hill-climb driver',
      notes: 'Two litres, four valves, injected. A new controller wants its tables.',
      cylinders: 4,
      displacementM3: 1.998e-3,
      strokeM: 0.0861,
      compressionRatio: 10.8,
      cycle: 4,
      aspiration: 'natural',
      fuel: 'gasoline',
    },
    builds: [
      {
        build: { name: 'New controller', notes: 'Engine as it was; injectors and controller new.' },
        days: [
          airCleaner(),
          {
            day: {
              name: 'Lead and lambda',
              date: DATE,
              notes: 'Both varied for the tables, careful and rich first.',
              octane: 98,
              inletTemperatureK: 290.65,
              bandRpm: [4500, 6800],
              use: 'bursts',
            },
            cell: 'one',
            files,
            truth: simulated.truth,
            knobs: simulated.knobs,
            pulls: PLACES.map(([leadDeg, lambdaTarget], i) => ({
              file: files[i]!.name,
              leadDeg,
              lambdaTarget,
              order: i,
              note: i === 7 ? 'sluggish off the bottom, black tailpipe' : '',
              watched: 'ear',
              knockHeard: false,
              specksOnPlug: false,
              madeAt: madeAt(DATE, 9 * 60 + 10 + 8 * i),
            })),
            ladder: { name: 'Spark lead', bandRpm: [4500, 6800], use: 'bursts', heldLambda: 0.86 },
            decisions: [],
          },
        ],
      },
    ],
  };
}

import { READS_HIGH_PERCENT } from './calibrations.ts';
import { simulateDay } from './cell.ts';
import type { EngineTruth } from './engine.ts';
import { DIALECTS, type Dialect, toText } from './logger.ts';
import type { DemoDay, DemoEngine } from './shop-types.ts';

const DIALECT: Dialect = {
  ...DIALECTS['semicolon comma'],
  names: {
    speed: 'Speed',
    torque: 'Brake torque',
    airTemperature: 'Intake air temp',
  },
};

const AS_IT_CAME: EngineTruth = {
  cylinders: 6,
  displacementM3: 2.912e-3,
  strokeM: 0.0889,
  compressionRatio: 9.4,
  peakBmepPa: 10.4e5,
  peakTorqueRpm: 3900,
  fall: 0.95,
  fallTilt: 0.35,
  humps: [
    { height: 0.018, atRpm: 3000, widthRpm: 420 },
    { height: -0.02, atRpm: 4500, widthRpm: 380 },
  ],
  curvature: 8.2e-4,
  curvatureTiltPerKrpm: 0.02,
  shape: 'linex',
  lean: 0.028,
  middleRpm: 4700,
  bestLeadDeg: 32.1,
  bestLeadSlopeDegPerKrpm: 0.9,
  bestLeadBendDegPerKrpm2: -0.06,
};

/** More compression, a later camshaft: stronger above 4000, weaker below, best with less lead. */
const REFRESHED: EngineTruth = {
  ...AS_IT_CAME,
  compressionRatio: 10.3,
  peakBmepPa: 11.3e5,
  peakTorqueRpm: 4300,
  fall: 0.9,
  humps: [
    { height: -0.022, atRpm: 3000, widthRpm: 380 },
    { height: 0.024, atRpm: 5200, widthRpm: 420 },
  ],
  curvature: 9.4e-4,
  bestLeadDeg: 30.4,
};

const CELL = {
  inertiaKgM2: 0.42,
  calibrationPercent: READS_HIGH_PERCENT.one,
  sensorLagS: 0.08,
  sweepRpmPerS: 300,
  fromRpm: 2250,
  toRpm: 6250,
  bandRpm: [3600, 5900],
  offsetSdPercent: 0.25,
  whitePercent: 0.6,
  wanderPercent: 0.25,
  slowWanderPercent: 0.08,
  whiteKeep: 0.3,
  spikeChance: 0.0006,
  rateHz: 50,
  exhaustChannels: 6,
} as const;

const CONFIGURATION = {
  exhaust: 'cell pipes, 3 into 1 twice',
  airCleaner: 'none, bell mouths',
  accessories: 'water pump driven, no fan, no alternator',
  oil: '20W-50 mineral',
  plugs: 'standard heat, 0.7 mm',
  leadSetBy: 'light on the damper mark at 3000 rpm',
};

function day(
  seed: number,
  engine: EngineTruth,
  leads: readonly number[],
  airC: number,
  about: Omit<DemoDay, 'files' | 'pulls' | 'truth' | 'knobs' | 'cell'> & {
    readonly prefix: string;
    readonly notes: readonly string[];
    readonly startMinute: number;
  },
): DemoDay {
  const simulated = simulateDay({
    ...CELL,
    seed,
    engine,
    leadsDeg: leads,
    air: { pressureAbsPa: 101_150, temperatureK: 273.15 + airC, humidity: 0.62 },
    airDriftKPerPull: 0.3,
    lambda: 0.88,
  });
  const { prefix, notes, startMinute, ...rest } = about;
  const { files } = toText(simulated, {
    ...DIALECT,
    preamble: ['Run file;cell 1', `Date;${rest.day.date ?? ''}`, ''],
  });
  const named = files.map((file, i) => ({
    ...file,
    name: `${prefix}-${String(i + 1).padStart(2, '0')}.csv`,
  }));
  return {
    ...rest,
    cell: 'one',
    files: named,
    truth: simulated.truth,
    knobs: simulated.knobs,
    pulls: leads.map((leadDeg, i) => ({
      file: named[i]!.name,
      leadDeg,
      order: i,
      lambdaTarget: 0.88,
      note: notes[i] ?? '',
      watched: 'ear',
      knockHeard: false,
      madeAt: madeAt(rest.day.date!, startMinute + 11 * i),
    })),
  };
}

/** The time of a pull, minutes after midnight, as the record keeps times. */
export function madeAt(date: string, minute: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date}T${two(Math.floor(minute / 60))}:${two(minute % 60)}:00.000Z`;
}

/** Story 1: a vintage rally six, two builds, three test days, a spark ladder that reached its knee. */
export function six(): DemoEngine {
  return {
    engine: {
      name: 'Rally six',
      serial: 'PC-0014',
      owner: 'a vintage rally crew',
      notes:
        'Inline six, two valves, three twin-choke carburettors. Stages of some minutes, full throttle in bursts.',
      cylinders: 6,
      displacementM3: 2.912e-3,
      strokeM: 0.0889,
      compressionRatio: 9.4,
      cycle: 4,
      aspiration: 'natural',
      fuel: 'gasoline',
    },
    builds: [
      {
        build: {
          name: 'As it came in',
          notes: 'Tired but sound. Leak-down 9 to 14 %. Measured before anything was changed.',
          compressionRatio: 9.4,
        },
        days: [
          day(6102, AS_IT_CAME, [30, 30, 32], 11, {
            prefix: 'six-a',
            startMinute: 9 * 60 + 40,
            notes: ['owner’s own setting', 'same again, to see how the cell repeats', ''],
            day: {
              name: 'Before the refresh',
              date: '2026-02-12',
              notes:
                'Baseline for the owner. Three pulls, nothing adjusted but the lead of the last.',
              octane: 98,
              fuelBatch: 'pump, forecourt A, bought 2026-02-11',
              inletTemperatureK: 284.15,
              configuration: CONFIGURATION,
              bandRpm: [3600, 5900],
              use: 'bursts',
              lambdaTarget: 0.88,
            },
            ladder: { name: 'Spark lead, as it came in', bandRpm: [3600, 5900] },
            decisions: [],
          }),
        ],
      },
      {
        build: {
          name: 'Refresh 2026',
          notes:
            'New pistons, head skimmed, seats recut, camshaft with later closing, same carburettors.',
          compressionRatio: 10.3,
        },
        days: [
          day(6202, REFRESHED, [26, 26], 14, {
            prefix: 'six-b',
            startMinute: 14 * 60 + 5,
            notes: ['first full pull after run-in, careful setting', 'same again, oil now warm'],
            day: {
              name: 'Run-in and first pulls',
              date: '2026-04-08',
              notes:
                'Run-in by the sheet, then two pulls at a careful lead. Jets two sizes up after the first look.',
              octane: 98,
              fuelBatch: 'pump, forecourt A, bought 2026-04-07',
              inletTemperatureK: 287.15,
              configuration: CONFIGURATION,
              bandRpm: [3600, 5900],
              use: 'bursts',
              lambdaTarget: 0.88,
            },
            ladder: null,
            decisions: [],
          }),
          day(6311, REFRESHED, [24, 26, 28, 30, 32, 34, 28], 15, {
            prefix: 'six-c',
            startMinute: 9 * 60 + 20,
            notes: [
              'start well below the last build’s setting',
              '',
              '',
              'plugs read: clean',
              'gain hardly to be seen on the screen',
              'no more, went back',
              'repeat of 28 to see what the day has done',
            ],
            day: {
              name: 'Spark ladder',
              date: '2026-04-09',
              notes:
                'One step of lead a pull, everything else left alone. Plugs read at 30 and 34.',
              octane: 98,
              fuelBatch: 'pump, forecourt A, bought 2026-04-07',
              inletTemperatureK: 288.15,
              configuration: CONFIGURATION,
              bandRpm: [3600, 5900],
              use: 'bursts',
              lambdaTarget: 0.88,
            },
            ladder: { name: 'Spark lead', bandRpm: [3600, 5900], use: 'bursts' },
            decisions: [
              {
                use: 'bursts',
                setting: 28,
                who: 'the operator',
                decidedAt: '2026-04-09T15:10:00.000Z',
                why: 'Two degrees and a little more below the best: stages are short, summer inlet is hotter than today.',
              },
            ],
          }),
        ],
      },
    ],
  };
}

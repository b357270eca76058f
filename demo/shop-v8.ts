import { READS_HIGH_PERCENT } from './calibrations.ts';
import { simulateDay } from './cell.ts';
import { DIALECTS, type Dialect, toText } from './logger.ts';
import { madeAt } from './shop-six.ts';
import type { DemoEngine } from './shop-types.ts';

const DIALECT: Dialect = {
  ...DIALECTS['comma us'],
  names: { speed: 'RPM', torque: 'Torque', exhaustTemperature: 'EGT', lambda: 'Lambda' },
};
const LEADS = [20, 22, 24, 26, 28, 30];
const DATE = '2026-05-20';

/** Story 2: an inshore rescue boat's V8. The knock channel cuts the ladder short; a blip, and a sensor that stuck. */
export function v8(): DemoEngine {
  const simulated = simulateDay({
    seed: 8808,
    engine: {
      cylinders: 8,
      displacementM3: 5.73e-3,
      strokeM: 0.0884,
      compressionRatio: 9.6,
      peakBmepPa: 11.2e5,
      peakTorqueRpm: 3500,
      fall: 0.85,
      fallTilt: 0.3,
      humps: [{ height: 0.015, atRpm: 4200, widthRpm: 400 }],
      curvature: 7.5e-4,
      curvatureTiltPerKrpm: 0.01,
      shape: 'phasing',
      lean: 0.03,
      bestLeadDeg: 32.6,
      bestLeadSlopeDegPerKrpm: 0.8,
      bestLeadBendDegPerKrpm2: -0.05,
    },
    limit: {
      leadDeg: 29.6,
      slopeDegPerKrpm: 0.7,
      countsPerSPerDeg: 12,
      backgroundPerS: 0.8,
      channel: true,
    },
    leadsDeg: LEADS,
    fromRpm: 2250,
    toRpm: 5500,
    bandRpm: [3600, 5000],
    sweepRpmPerS: 300,
    offsetSdPercent: 0.3,
    whitePercent: 0.7,
    wanderPercent: 0.3,
    slowWanderPercent: 0.1,
    inertiaKgM2: 0.71,
    calibrationPercent: READS_HIGH_PERCENT.two,
    sensorLagS: 0.06,
    whiteKeep: 0.3,
    spikeChance: 0.0006,
    rateHz: 50,
    exhaustChannels: 8,
    lambda: 0.86,
    air: { pressureAbsPa: 100_400, temperatureK: 293.65, humidity: 0.7 },
    airDriftKPerPull: 0.4,
    blips: [{ pull: 2, atRpm: 4150, depthPercent: 9, lengthS: 0.5 }],
    stuck: [{ pull: 3, channel: 'oilPressure', fromRpm: 2300 }],
  });
  const files = toText(simulated, {
    ...DIALECT,
    preamble: ['Cell 2 run file', `Recorded ${DATE}`, 'Operator: on duty', ''],
  }).files.map((file, i) => ({ ...file, name: `boat_v8_run${i + 1}.csv` }));
  const notes = [
    'careful start',
    '',
    'something coughed at about 4150, once',
    'oil pressure gauge on the desk was fine, logger stuck: wire chafed, mended',
    'knock channel quiet',
    'knock channel busy from the low end up: closed the ladder here',
  ];
  return {
    engine: {
      name: 'Rescue boat V8',
      serial: 'PC-0021',
      owner: 'an inshore rescue station',
      notes:
        'Inboard V8 with wet exhaust. Minutes of sustained full throttle with people depending on it.',
      cylinders: 8,
      displacementM3: 5.73e-3,
      strokeM: 0.0884,
      compressionRatio: 9.6,
      cycle: 4,
      aspiration: 'natural',
      fuel: 'gasoline',
    },
    builds: [
      {
        build: {
          name: 'Overhaul 2026',
          notes:
            'Bored to next size, new bearings, heads with hardened seats, knock sensors on both banks for the test.',
        },
        days: [
          {
            day: {
              name: 'Spark ladder',
              date: DATE,
              notes: 'Water heated to boat temperature. Station’s own fuel from its tank.',
              octane: 95,
              fuelBatch: 'station tank, sampled 2026-05-19',
              inletTemperatureK: 293.65,
              worstInletTemperatureK: 303.15,
              configuration: {
                exhaust: 'wet manifolds, dry pipes to the cell',
                airCleaner: 'flame arrester fitted',
                accessories: 'sea-water pump and alternator driven',
                oil: '15W-40',
                plugs: 'one step colder, 0.9 mm',
                leadSetBy: 'light on the damper tape at 3000 rpm, rechecked after each move',
              },
              bandRpm: [3600, 5000],
              use: 'sustained',
              lambdaTarget: 0.86,
            },
            cell: 'two',
            files,
            truth: simulated.truth,
            knobs: simulated.knobs,
            pulls: LEADS.map((leadDeg, i) => ({
              file: files[i]!.name,
              leadDeg,
              order: i,
              lambdaTarget: 0.86,
              note: notes[i]!,
              watched: 'sensor',
              knockHeard: false,
              madeAt: madeAt(DATE, 10 * 60 + 15 + 14 * i),
            })),
            ladder: { name: 'Spark lead', bandRpm: [3600, 5000], use: 'sustained' },
            decisions: [
              {
                use: 'sustained',
                setting: 22,
                who: 'the operator, with the station’s engineer',
                decidedAt: `${DATE}T14:25:00.000Z`,
                why: 'Minutes of full throttle in a hot engine room; what lies nearer the knock is not worth a rescue.',
              },
            ],
          },
        ],
      },
    ],
  };
}

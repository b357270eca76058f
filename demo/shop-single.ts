import { READS_HIGH_PERCENT } from './calibrations.ts';
import { simulateDay } from './cell.ts';
import { DIALECTS, toText } from './logger.ts';
import { madeAt } from './shop-six.ts';
import type { DemoEngine } from './shop-types.ts';

const LEADS = [24, 26, 28];
const DATE = '2026-06-03';

/** Story 3: a grass-track single whose ladder is not finished: three pulls, each still gaining. */
export function single(): DemoEngine {
  const simulated = simulateDay({
    seed: 1505,
    engine: {
      cylinders: 1,
      displacementM3: 4.97e-4,
      strokeM: 0.084,
      compressionRatio: 11.5,
      peakBmepPa: 12.1e5,
      peakTorqueRpm: 5600,
      fall: 1,
      fallTilt: 0.4,
      humps: [{ height: 0.025, atRpm: 6500, widthRpm: 600 }],
      curvature: 8.5e-4,
      curvatureTiltPerKrpm: 0,
      shape: 'cosh',
      lean: 0.03,
      bestLeadDeg: 34.5,
      bestLeadSlopeDegPerKrpm: 0.7,
      bestLeadBendDegPerKrpm2: -0.04,
    },
    leadsDeg: LEADS,
    fromRpm: 3500,
    toRpm: 8500,
    bandRpm: [5000, 8000],
    sweepRpmPerS: 480,
    offsetSdPercent: 0.3,
    whitePercent: 1.1,
    wanderPercent: 0.35,
    slowWanderPercent: 0.1,
    inertiaKgM2: 0.085,
    brakeRatio: 0.62,
    calibrationPercent: READS_HIGH_PERCENT.three,
    sensorLagS: 0.05,
    whiteKeep: 0.4,
    spikeChance: 0.0005,
    rateHz: 100,
    exhaustChannels: 1,
    lambda: 0.87,
    air: { pressureAbsPa: 101_900, temperatureK: 291.15, humidity: 0.55 },
  });
  const files = toText(simulated, {
    ...DIALECTS['tab units row'],
    names: { torque: 'Brake Torque' },
  }).files.map((file, i) => ({
    ...file,
    name: `single ${i + 1}.txt`,
  }));
  return {
    engine: {
      name: 'Grass-track single',
      serial: 'PC-0026',
      owner: 'a grass-track rider',
      notes: 'Single cylinder, four valves, total-loss ignition. Four laps at a time.',
      cylinders: 1,
      displacementM3: 4.97e-4,
      strokeM: 0.084,
      compressionRatio: 11.5,
      cycle: 4,
      aspiration: 'natural',
      fuel: 'gasoline',
    },
    builds: [
      {
        build: {
          name: 'Season 2026',
          notes: 'Piston and valves new, head cleaned, carburettor as it was.',
        },
        days: [
          {
            day: {
              name: 'Spark ladder, first morning',
              date: DATE,
              notes: 'Stopped for lunch after three pulls.',
              octane: 102,
              fuelBatch: 'race fuel, drum 2',
              inletTemperatureK: 291.15,
              configuration: {
                exhaust: 'track silencer',
                airCleaner: 'foam, oiled',
                oil: '10W-50',
                plugs: 'race, 0.6 mm',
                leadSetBy: 'degree plate and light at 4000 rpm',
              },
              bandRpm: [5000, 8000],
              use: 'bursts',
              lambdaTarget: 0.87,
            },
            cell: 'three',
            files,
            truth: simulated.truth,
            knobs: simulated.knobs,
            pulls: LEADS.map((leadDeg, i) => ({
              file: files[i]!.name,
              leadDeg,
              order: i,
              lambdaTarget: 0.87,
              note: ['', 'crisper to the ear', 'still pulling harder'][i]!,
              watched: 'plug',
              knockHeard: false,
              specksOnPlug: false,
              madeAt: madeAt(DATE, 10 * 60 + 30 + 9 * i),
            })),
            ladder: { name: 'Spark lead', bandRpm: [5000, 8000], use: 'bursts' },
            decisions: [],
          },
        ],
      },
    ],
  };
}

import type { Channel, Quantity, Recording } from '../src/pull/recording.ts';
import type { CurveOptions } from '../src/pull/types.ts';
import { bestLeadAtDeg, bestLeadOverBandDeg, trueMeanPowerW, trueTorqueNm } from './engine.ts';
import { type ChannelKey, type DayKnobs, type DayOptions, knobsOf } from './knobs.ts';
import { limitAtDeg, offsetOfPull, type Samples, samplesOfPull } from './sweep.ts';

/** What is true of a simulated day, whatever its cell recorded. */
export interface DayTruth {
  readonly bestLeadOverBandDeg: number;
  bestLeadAtDeg(speedRpm: number): number;
  /** Lead at which knock begins; null where there is no limit. */
  limitAtDeg(speedRpm: number): number | null;
  /** The lowest of these over the band; null where there is no limit. */
  readonly limitLeadDeg: number | null;
  /** Torque in standard air [N·m]. */
  torqueNm(speedRpm: number, leadDeg: number): number;
  /** Mean power in the band [W], standard air. */
  meanPowerW(leadDeg: number): number;
  /** Loss of mean power in the band against the best fixed lead [%]. */
  lossPercent(leadDeg: number): number;
  /** Loss at one speed against the best lead of that speed [%]. */
  lossAtPercent(speedRpm: number, leadDeg: number): number;
  /** Gain of mean power in the band of a lead that follows speed over the best fixed one [%]. */
  readonly followingGainPercent: number;
  readonly offsetSdPercent: number;
  /** Offset (drift in it) of each pull [%], as it came out. */
  readonly offsetsPercent: readonly number[];
  readonly calibrationPercent: number;
}

export interface SimulatedPull {
  readonly leadDeg: number;
  readonly recording: Recording;
  readonly samples: Samples;
}

export interface SimulatedDay {
  readonly knobs: DayKnobs;
  readonly truth: DayTruth;
  readonly pulls: readonly SimulatedPull[];
  readonly recordings: readonly Recording[];
  /** What a shop would have typed of this cell and engine: hand it to the pull room as it is. */
  readonly curveOptions: CurveOptions;
}

/** The truth of a day; also all that the curve-level simulation needs. */
export function truthOf(knobs: DayKnobs): DayTruth {
  const { engine, bandRpm, limit } = knobs;
  const best = bestLeadOverBandDeg(engine, bandRpm);
  const bestMeanW = trueMeanPowerW(engine, bandRpm, best);
  const limitAt = (speedRpm: number) =>
    limit === null ? null : limitAtDeg(limit, engine.middleRpm, speedRpm);
  return {
    bestLeadOverBandDeg: best,
    bestLeadAtDeg: (speedRpm) => bestLeadAtDeg(engine, speedRpm),
    limitAtDeg: limitAt,
    limitLeadDeg: limit === null ? null : Math.min(limitAt(bandRpm[0])!, limitAt(bandRpm[1])!),
    torqueNm: (speedRpm, leadDeg) => trueTorqueNm(engine, speedRpm, leadDeg),
    meanPowerW: (leadDeg) => trueMeanPowerW(engine, bandRpm, leadDeg),
    lossPercent: (leadDeg) => 100 * (1 - trueMeanPowerW(engine, bandRpm, leadDeg) / bestMeanW),
    lossAtPercent: (speedRpm, leadDeg) =>
      100 *
      (1 -
        trueTorqueNm(engine, speedRpm, leadDeg) /
          trueTorqueNm(engine, speedRpm, bestLeadAtDeg(engine, speedRpm))),
    get followingGainPercent() {
      const n = Math.max(2, Math.ceil((bandRpm[1] - bandRpm[0]) / 25));
      let sum = 0;
      for (let i = 0; i <= n; i++) {
        const rpm = bandRpm[0] + ((bandRpm[1] - bandRpm[0]) * i) / n;
        const w = i === 0 || i === n ? 0.5 : 1;
        sum += w * trueTorqueNm(engine, rpm, bestLeadAtDeg(engine, rpm)) * rpm;
      }
      return 100 * (((sum / n) * Math.PI) / 30 / bestMeanW - 1);
    },
    offsetSdPercent: knobs.offsetSdPercent,
    offsetsPercent: knobs.leadsDeg.map((_, pull) => 100 * offsetOfPull(knobs, pull)),
    calibrationPercent: knobs.calibrationPercent,
  };
}

/**
 * One test day on the simulated cell: its pulls as recordings in inside units and what is true of it.
 * The same options give the same numbers to the last bit; anything left out is drawn from the seed.
 */
export function simulateDay(options: DayOptions): SimulatedDay {
  const knobs = knobsOf(options);
  const pulls = knobs.leadsDeg.map((leadDeg, pull) => {
    const samples = samplesOfPull(knobs, pull);
    return { leadDeg, samples, recording: recordingOf(samples) };
  });
  return {
    knobs,
    truth: truthOf(knobs),
    pulls,
    recordings: pulls.map((pull) => pull.recording),
    curveOptions: curveOptionsOf(knobs),
  };
}

function curveOptionsOf(knobs: DayKnobs): CurveOptions {
  const { engine } = knobs;
  return {
    standard: 'SAE J1349',
    cell: {
      inertiaKgM2: knobs.inertiaKgM2,
      sensorLagS: knobs.sensorLagS,
      ratio: knobs.brakeRatio,
      torqueIs: { air: 'observed', inertia: 'out' },
      calibrationRelSd: knobs.calibrationSdPercent / 100,
    },
    engine: {
      name: 'engine under test',
      cylinders: engine.cylinders,
      displacementM3: engine.displacementM3,
      strokeM: engine.strokeM,
      compressionRatio: engine.compressionRatio,
      cycle: 4,
      aspiration: 'natural',
      fuel: 'gasoline',
    },
    lambdaTarget: knobs.lambda,
  };
}

interface ChannelForm {
  readonly name: string;
  readonly unit: string;
}

/** Headers of the fast path: plain names, inside units. */
const INSIDE_FORMS: Readonly<Record<ChannelKey, ChannelForm>> = {
  time: { name: 'Time', unit: 's' },
  speed: { name: 'Engine Speed', unit: 'rpm' },
  torque: { name: 'Brake Torque', unit: 'N·m' },
  lambda: { name: 'Lambda', unit: '-' },
  lead: { name: 'Spark Lead', unit: 'deg' },
  throttle: { name: 'Throttle', unit: '-' },
  oilPressure: { name: 'Oil Pressure', unit: 'Pa' },
  oilTemperature: { name: 'Oil Temp', unit: 'K' },
  waterTemperature: { name: 'Water Temp', unit: 'K' },
  airTemperature: { name: 'Inlet Air Temp', unit: 'K' },
  barometer: { name: 'Barometer', unit: 'Pa' },
  humidity: { name: 'Humidity', unit: '-' },
  manifoldPressure: { name: 'Manifold Pressure', unit: 'Pa' },
  fuelFlow: { name: 'Fuel Flow', unit: 'kg/s' },
  exhaustTemperature: { name: 'EGT', unit: 'K' },
  knock: { name: 'Knock', unit: 'counts' },
};

function recordingOf(samples: Samples): Recording {
  const channels: Channel[] = [];
  for (const [key, values] of samples.values) {
    const { name, unit } = INSIDE_FORMS[key];
    const quantity: Quantity = key;
    const header = `${name} (${unit})`;
    channels.push(
      key === 'torque'
        ? { header, quantity, unit, values, basis: { air: 'observed', inertia: 'out' } }
        : key === 'oilPressure'
          ? { header, quantity, unit, values, pressureReference: 'gauge' }
          : key === 'barometer' || key === 'manifoldPressure'
            ? { header, quantity, unit, values, pressureReference: 'absolute' }
            : { header, quantity, unit, values },
    );
  }
  samples.exhaustK.forEach((values, i) => {
    channels.push({
      header: `EGT ${i + 1} (K)`,
      quantity: 'exhaustTemperature',
      unit: 'K',
      values,
      cylinder: i + 1,
    });
  });
  return {
    kind: 'time series',
    rows: samples.rows,
    channels,
    lineOfRow: Uint32Array.from({ length: samples.rows }, (_, i) => i + 2),
    warnings: [],
  };
}

export type { DayKnobs, DayOptions } from './knobs.ts';

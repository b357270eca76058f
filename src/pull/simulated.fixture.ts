import { gaussian } from '../numerics/simulated.fixture.ts';
import { AIR_CORRECTIONS, vapourPressureFromHumidityPa } from '../trade/index.ts';
import { defaultCell } from './cell.ts';
import type { Channel, Quantity, Recording } from './recording.ts';
import type { CurveOptions, EngineSetup } from './types.ts';

/** A small cell for tests: hold at part throttle, open, sweep at full throttle, close, fall off. */
export interface SimulatedPull {
  readonly seed?: number;
  /** Crank torque in the reference air of SAE J1349 [N·m]. */
  readonly truth?: (speedRpm: number) => number;
  readonly inertiaKgM2?: number;
  readonly lagS?: number;
  /** Time constant with which the charge follows the throttle. */
  readonly fillingS?: number;
  readonly fromRpm?: number;
  readonly toRpm?: number;
  readonly rateRpmPerS?: number;
  readonly hertz?: number;
  /** Relative sd of white noise and of a wander that forgets itself in 0.1 s. */
  readonly noise?: number;
  readonly wander?: number;
  readonly speedNoiseRpm?: number;
  readonly throttle?: boolean;
  readonly fallsOff?: boolean;
  readonly air?: { pressureAbsPa: number; temperatureK: number; humidity: number };
  readonly pulls?: number;
  /** Seconds at rest, brake unloaded, before and after; the load cell then reads `zeroNm`. */
  readonly restS?: number;
  readonly zeroNm?: number;
}

export const TRUTH = (rpm: number) =>
  420 - 1.6e-5 * (rpm - 4600) ** 2 + 6 * Math.sin((rpm - 2500) / 500);

export const AIR = { pressureAbsPa: 97_000, temperatureK: 301.15, humidity: 0.4 };

export const ENGINE: EngineSetup = {
  name: 'test engine',
  cylinders: 6,
  displacementM3: 0.0042,
  strokeM: 0.086,
  compressionRatio: 10,
  cycle: 4,
  aspiration: 'natural',
  fuel: 'gasoline',
};

export function options(changes: Partial<CurveOptions> = {}, inertiaKgM2 = 0.5): CurveOptions {
  const cell = { ...defaultCell(), inertiaKgM2 };
  return { standard: 'SAE J1349', cell, engine: ENGINE, ...changes };
}

export function channel(
  quantity: Quantity,
  values: ArrayLike<number>,
  more: Partial<Channel> = {},
): Channel {
  return { header: quantity, quantity, unit: null, values: Float64Array.from(values), ...more };
}

export function recordingOf(
  channels: readonly Channel[],
  kind: Recording['kind'] = 'time series',
): Recording {
  const rows = channels[0]!.values.length;
  return { kind, rows, channels, lineOfRow: new Uint32Array(rows), warnings: [] };
}

/** The recording with one channel's values made anew. */
export function changed(
  recording: Recording,
  quantity: Quantity,
  change: (value: number, row: number) => number,
): Recording {
  return {
    ...recording,
    channels: recording.channels.map((each) =>
      each.quantity === quantity ? { ...each, values: each.values.map(change) } : each,
    ),
  };
}

export function airFactor(air = AIR): number {
  return AIR_CORRECTIONS['SAE J1349'].factor({
    ...air,
    vapourPressurePa: vapourPressureFromHumidityPa(air.temperatureK, air.humidity),
  });
}

interface Moment {
  readonly speedRpm: number;
  readonly rateRpmPerS: number;
  readonly open: boolean;
  readonly atRest?: boolean;
}

export function simulatedPull(given: SimulatedPull = {}): Recording {
  const {
    seed = 1,
    truth = TRUTH,
    inertiaKgM2 = 0.5,
    lagS = 0.06,
    fillingS = 0,
    fromRpm = 2500,
    toRpm = 6500,
    rateRpmPerS = 400,
    hertz = 50,
    noise = 0.01,
    wander = 0.006,
    speedNoiseRpm = 5,
    throttle = true,
    fallsOff = true,
    air = AIR,
    pulls = 1,
    restS = 0,
    zeroNm = 0,
  } = given;
  const normal = gaussian(seed);
  const sweepS = Math.abs(toRpm - fromRpm) / rateRpmPerS;
  const phases = {
    open: 0.8,
    sweep: 1.3,
    close: 1.3 + sweepS,
    end: 1.3 + sweepS + (fallsOff ? 1.2 : 0),
  };
  const sign = Math.sign(toRpm - fromRpm);
  const momentOf = (t: number): Moment => {
    if (t < phases.sweep) return { speedRpm: fromRpm, rateRpmPerS: 0, open: t >= phases.open };
    if (t < phases.close) {
      const speedRpm = fromRpm + sign * rateRpmPerS * (t - phases.sweep);
      return { speedRpm, rateRpmPerS: sign * rateRpmPerS, open: true };
    }
    return { speedRpm: toRpm - 900 * (t - phases.close), rateRpmPerS: -900, open: false };
  };
  const columns: Record<string, number[]> = {};
  const put = (name: string, value: number) => {
    columns[name] ??= [];
    columns[name].push(value);
  };
  const fine = 4;
  const dt = 1 / hertz / fine;
  let [sensor, drift, clock, share] = [0, 0, 0, 0.15];
  const phi = Math.exp(-1 / hertz / 0.1);
  const row = (moment: Moment, brakeNm: number) => {
    put('time', clock);
    put('speed', moment.atRest ? 0 : moment.speedRpm + speedNoiseRpm * normal());
    put('torque', brakeNm + zeroNm);
    put('throttle', moment.open ? 1 : moment.atRest ? 0 : 0.25);
    put('lambda', 0.87 + 0.004 * normal());
    put('oilPressure', 150_000 + 60 * moment.speedRpm + 4000 * normal());
    put('oilTemperature', 368 + 0.2 * normal());
    put('waterTemperature', 355 + 0.2 * normal());
    put('airTemperature', air.temperatureK + 0.2 * normal());
    put('barometer', air.pressureAbsPa + 10 * normal());
    put('humidity', air.humidity);
    put(
      'fuelFlow',
      7e-6 * Math.max(1, moment.speedRpm) * (moment.open ? 0.4 : 0.1) * (1 + 0.01 * normal()),
    );
    clock += 1 / hertz;
  };
  const rest = () => {
    for (let i = 0; i < restS * hertz; i++) {
      row({ speedRpm: 0, rateRpmPerS: 0, open: false, atRest: true }, 0.3 * normal());
    }
  };
  rest();
  for (let pull = 0; pull < pulls; pull++) {
    for (let i = 0; i < phases.end * hertz; i++) {
      for (let part = 1; part <= fine; part++) {
        const at = momentOf(i / hertz - (fine - part) * dt);
        const fills = fillingS > 0 ? 1 - Math.exp(-dt / fillingS) : 1;
        share += fills * ((at.open ? 1 : 0.15) - share);
        const engineNm = (truth(at.speedRpm) * share) / airFactor(air);
        const brakeNm = engineNm - inertiaKgM2 * at.rateRpmPerS * (Math.PI / 30);
        const gain = lagS > 0 ? 1 - Math.exp(-dt / lagS) : 1;
        sensor = i === 0 && part === 1 ? brakeNm : sensor + gain * (brakeNm - sensor);
      }
      drift = phi * drift + wander * Math.sqrt(1 - phi * phi) * normal();
      row(momentOf(i / hertz), sensor * (1 + drift + noise * normal()));
    }
  }
  rest();
  if (!throttle) delete columns.throttle;
  return recordingOf(
    Object.entries(columns).map(([name, values]) => channel(name as Quantity, values)),
  );
}

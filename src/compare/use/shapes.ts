import { InputError } from '../../errors.ts';
import type { Use, UsePoint } from './types.ts';

/*
 * The uses that can be chosen. Each is a shape over engine speed as a part of the speed of peak power, since that is
 * what an engine is geared by. But for the propeller they are common practice and no source: typed figures or a log of
 * the owner's own drive are better where there are any.
 */

export const SHAPE_NAMES = [
  'cruise',
  'towing',
  'marine',
  'circuit',
  'drag pass',
  'sustained full throttle',
] as const;
export type ShapeName = (typeof SHAPE_NAMES)[number];
export const isShape = (name: string): name is ShapeName =>
  (SHAPE_NAMES as readonly string[]).includes(name);

interface Shape {
  readonly reason: string;
  /** Speed as a part of the speed of peak power, and how much time is spent there (any unit). */
  readonly time: readonly (readonly [part: number, time: number])[];
  readonly load: (part: number) => number;
}

const SHAPES: Readonly<Record<ShapeName, Shape>> = {
  cruise: {
    reason:
      'Held road speed in a high gear: most of the time between a third and six tenths of the speed of peak power at a third of the load, with short bursts above (common practice, no source).',
    time: [
      [0.25, 0],
      [0.33, 3],
      [0.45, 4],
      [0.6, 1.5],
      [0.75, 0.4],
      [0.95, 0.1],
      [1, 0],
    ],
    load: (part) => Math.min(1, 0.33 + Math.max(0, part - 0.6) * 2.2),
  },
  towing: {
    reason:
      'A load held up grades: long at high load between half and eight tenths of the speed of peak power, where the gearbox keeps the engine (common practice, no source).',
    time: [
      [0.38, 0],
      [0.5, 3],
      [0.62, 4],
      [0.78, 2],
      [0.95, 0.3],
      [1, 0],
    ],
    load: (part) => Math.min(1, 0.75 + 0.3 * Math.max(0, part - 0.5)),
  },
  marine: {
    reason:
      'A propeller takes torque by a law of its speed: 100, 80, 60 and 40 % of full speed with 100, 71.6, 46.5 and 25.3 % of the torque, for 6, 14, 15 and 25 parts of the time (duty cycle E4 for propulsion marine engines, 40 CFR part 1045, appendix II; idle left out).',
    // Each mode stands for the speeds about it.
    time: [
      [0.3, 0],
      [0.4, 25],
      [0.5, 19],
      [0.6, 15],
      [0.8, 14],
      [0.9, 9],
      [1, 6],
      [1.02, 0],
    ],
    load: (part) => Math.min(1, part ** 1.5),
  },
  circuit: {
    reason:
      'Between the speed a shift drops to and the highest that is used, more time high than low, two thirds of it at full throttle (common practice, no source).',
    time: [
      [0.6, 0],
      [0.72, 2],
      [0.85, 4],
      [0.97, 5],
      [1.06, 2],
      [1.1, 0],
    ],
    load: () => 1,
  },
  'drag pass': {
    reason:
      'Full throttle from the launch through every gear, from the speed a shift drops to up to just past peak power; least time in the first metres (common practice, no source; a vehicle says it better).',
    time: [
      [0.55, 0],
      [0.66, 1],
      [0.78, 3],
      [0.9, 4],
      [1.02, 4],
      [1.08, 0],
    ],
    load: () => 1,
  },
  'sustained full throttle': {
    reason:
      'Minutes at full throttle about the speed of peak power, as up a long hill or at top speed (common practice, no source).',
    time: [
      [0.86, 0],
      [0.92, 2],
      [1, 4],
      [1.04, 1],
      [1.06, 0],
    ],
    load: () => 1,
  },
};

const STEP_RPM = 50;

/**
 * A chosen use.
 * @param peakPowerRpm  speed of peak power that the shape is laid over, of the builds together
 */
export function chosenUse(name: ShapeName, peakPowerRpm: number): Use {
  if (!(peakPowerRpm > 0))
    throw new InputError(
      `invalid speed of peak power: ${peakPowerRpm} rev/min; expected more than 0`,
    );
  const { reason, time, load } = SHAPES[name];
  const [from, to] = [time[0]![0] * peakPowerRpm, time.at(-1)![0] * peakPowerRpm];
  const points: UsePoint[] = [];
  for (let speed = STEP_RPM * Math.ceil(from / STEP_RPM); speed <= to; speed += STEP_RPM) {
    const part = speed / peakPowerRpm;
    const i = time.findIndex(([place]) => place >= part);
    if (i < 1) continue;
    const [a, b] = [time[i - 1]!, time[i]!];
    const share = a[1] + ((part - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
    if (share > 0) points.push({ speedRpm: speed, share, load: load(part) });
  }
  return { name, from: 'chosen', points: normalised(points), reason, notes: [] };
}

/** Shares that sum to 1, speeds rising. */
export function normalised(points: readonly UsePoint[]): UsePoint[] {
  const total = points.reduce((sum, { share }) => sum + share, 0);
  return [...points]
    .sort((a, b) => a.speedRpm - b.speedRpm)
    .map((point) => ({ ...point, share: point.share / total }));
}

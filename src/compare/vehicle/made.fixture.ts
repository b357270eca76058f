import { engineOf } from './engine.ts';
import type { Vehicle } from './types.ts';

/** Torque of an invented engine [N·m]: a hump. */
export const humpNm = (speedRpm: number, top = 420, at = 4700): number =>
  top - 1.8e-5 * (speedRpm - at) ** 2;

export const tableOf = (
  torque: (speedRpm: number) => number,
  [fromRpm, toRpm]: readonly [number, number] = [2500, 7000],
  points = 61,
) => ({
  fromRpm,
  toRpm,
  torqueNm: Float64Array.from({ length: points }, (_, i) =>
    torque(fromRpm + ((toRpm - fromRpm) * i) / (points - 1)),
  ),
});

export const humpEngine = engineOf(tableOf(humpNm));

/** An invented vehicle with a clutch. */
export const COUPE: Vehicle = {
  name: 'the coupe',
  massKg: 1588,
  wheelInertiaKgM2: 5,
  engineInertiaKgM2: 0.25,
  gears: [2.97, 2.07, 1.43, 1, 0.8],
  finalDrive: 3.55,
  tyreRadiusM: 0.33,
  tyreGrowthS2PerM2: 0.02 / 60 ** 2,
  efficiency: [0.94, 0.94, 0.94, 0.96, 0.94],
  dragTorqueNm: 5,
  coupling: { kind: 'clutch', launchRpm: 3500, capacityNm: null },
  dragAreaM2: 0.7,
  rollingResistance: 0.013,
  traction: {
    coefficient: 1,
    driven: 'rear',
    drivenShare: 0.48,
    centreHeightM: 0.5,
    wheelbaseM: 2.6,
  },
  shift: { speedsRpm: null, timeS: 0.3, limitRpm: null },
  airDensityKgPerM3: 1.17,
  grade: 0,
  rolloutM: 0.3048,
};

/** The same with a converter. */
export const AUTOMATIC: Vehicle = {
  ...COUPE,
  name: 'the automatic',
  gears: [2.48, 1.48, 1, 0.7],
  efficiency: [0.93, 0.93, 0.95, 0.93],
  shift: { speedsRpm: null, timeS: 0, limitRpm: null },
  coupling: {
    kind: 'converter',
    stallRpm: 3000,
    stallTorqueNm: 400,
    launchRpm: null,
    curve: [
      { speedRatio: 0, torqueRatio: 2, capacity: 1 },
      { speedRatio: 0.88, torqueRatio: 1, capacity: 0.7 },
      { speedRatio: 0.95, torqueRatio: 1, capacity: 0.35 },
      { speedRatio: 1, torqueRatio: 1, capacity: 0 },
    ],
  },
};

/** Nothing but mass: one gear, no losses, no resistance, no inertia that turns. */
export const BARE: Vehicle = {
  ...COUPE,
  name: 'a mass',
  massKg: 1500,
  wheelInertiaKgM2: 0,
  engineInertiaKgM2: 0,
  gears: [1],
  finalDrive: 4,
  tyreRadiusM: 0.3,
  tyreGrowthS2PerM2: 0,
  efficiency: [1],
  dragTorqueNm: 0,
  dragAreaM2: 0,
  rollingResistance: 0,
  traction: null,
  shift: { speedsRpm: null, timeS: 0, limitRpm: null },
  rolloutM: 0,
};

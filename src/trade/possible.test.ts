import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../errors.ts';
import * as balance from './balance/index.ts';
import * as calibration from './calibration/index.ts';
import * as clearance from './clearance/index.ts';
import * as fastener from './fastener/index.ts';
import { count, finite, notNegative, positive, within } from './possible.ts';
import * as valvetrain from './valvetrain/index.ts';

describe('gates', () => {
  it('let through what can be and name what cannot', () => {
    expect(positive('bore', 0.1, 'm')).toBe(0.1);
    expect(() => positive('bore', 0, 'm')).toThrow('invalid bore: 0 m; expected more than 0');
    expect(() => notNegative('lash', -1, 'm')).toThrow(/lash/);
    expect(() => within('share', 1.1, '', [0, 1])).toThrow('expected 0 to 1');
    expect(() => count('rods', 1.5)).toThrow(/whole number/);
    expect(() => finite('lift', Number.NaN, 'm')).toThrow(NonPhysicalError);
  });
});

const parts = {
  rodBigEndKg: 0.4,
  rodBearingsKg: 0.04,
  rodSmallEndKg: 0.2,
  pistonKg: 0.5,
  pinKg: 0.1,
  locksKg: 0.002,
  ringsKg: 0.05,
  oilPerThrowKg: 0.004,
};
const rule = { rodsPerThrow: 2, reciprocatingShare: 0.5 };
const slider = { reciprocatingKg: 0.7, crankRadiusM: 0.045, rodLengthM: 0.15, speedRpm: 6000 };
const cylinders = [{ bankDeg: 0, pinDeg: 0, positionM: 0 }];
const bolt = { sections: [{ lengthM: 0.04, areaM2: 6e-5 }], modulusPa: 2e11 };
const how = { majorM: 0.01, nutFactor: 0.15, scatter: 0.3 };
const stiffness = { boltNPerM: 3e8, jointNPerM: 9e8 };
const turn = {
  snug: { lowN: 4000, preloadN: 5000, highN: 6000 },
  angleDeg: 60,
  angleUncertaintyDeg: 2,
  pitchM: 0.001,
};
const spring = { rateNPerM: 6e4, heightM: 0.048, loadN: 600 };
const rocker = { valveArmM: 0.042, pushrodArmM: 0.026, valveLiftM: 0.015, seatAngleDeg: 10 };
const train = {
  valveKg: 0.1,
  retainerKg: 0.02,
  locksKg: 0.01,
  springKg: 0.1,
  rockerInertiaKgM2: 6e-5,
  rockerValveArmM: 0.04,
  pushrodKg: 0.07,
  lifterKg: 0.1,
  rockerRatio: 1.6,
};
const warm = { diameterM: 0.1, expansionPerK: 12e-6, temperatureK: 370 };
const lashPart = {
  name: 'valve',
  lengthM: 0.1,
  expansionPerK: 12e-6,
  temperatureK: 370,
  opensBy: -1,
};
const measured = { diametersM: [0.0555, 0.0556], standardUncertaintyM: 1e-6 };
const shaft = { diametersM: [0.0554, 0.0553], standardUncertaintyM: 1e-6 };
const line = { x: 1, y: 2 };
const points = [line, { x: 2, y: 3.1 }, { x: 4, y: 5.2 }];
const arm = { lengthM: 0.5, gravityMPerS2: 9.81, offLevelDeg: 1 };
const weights = [0, 100, 200, 300].map((appliedNm) => ({
  appliedNm,
  readingNm: appliedNm * 1.01 + 1,
  direction: 'up',
}));

/** Functions with arguments that can be; each number in them is spoiled in turn. */
// biome-ignore lint/suspicious/noExplicitAny: the arguments are spoiled on purpose, below any type
const CALLS: readonly (readonly [(...args: any[]) => unknown, readonly unknown[]])[] = [
  [balance.bobweight, [parts, rule]],
  [balance.bobweightChange, [parts, { ...parts, pistonKg: 0.45 }, rule, 0.045]],
  [balance.throwResidual, [[{ angleDeg: 0, positionM: 0 }]]],
  [balance.unbalanceKgM, [0.01, 0.05]],
  [balance.unbalanceForceN, [1e-4, 6000]],
  [balance.balanceGradeMmPerS, [1e-4, 20, 6000]],
  [balance.permissibleUnbalanceKgM, [6.3, 20, 6000]],
  [balance.gradeKept, [5]],
  [balance.reciprocatingForceN, [slider, 30]],
  [balance.shakingForces, [slider, cylinders, 0.3]],
  [balance.matchSet, ['piston', [0.5, 0.501]]],
  [clearance.spreadOf, ['weight', [1, 2]]],
  [
    clearance.roundness,
    [
      [
        [0.1, 0.1001],
        [0.1, 0.1],
      ],
    ],
  ],
  [clearance.clearanceBetween, [measured, shaft]],
  [clearance.thermalGrowthM, [{ lengthM: 0.1, expansionPerK: 12e-6, temperatureK: 370 }, 293]],
  [clearance.warmClearanceM, [warm, { ...warm, diameterM: 0.0999 }, 293]],
  [clearance.lashChange, [[lashPart], 293]],
  [clearance.coldLashM, [5e-4, { changeM: 1e-4, byPart: [] }]],
  [clearance.windowLimits, [{ per: 'bore', low: 0.001, high: 0.002 }, { boreM: 0.1 }]],
  [clearance.judgeClearance, [5e-5, { lowM: 4e-5, highM: 6e-5 }, { below: 'stop', above: 'stop' }]],
  [fastener.tensileAreaM2, [{ form: 'metric', majorM: 0.01, pitchM: 0.0015 }]],
  [fastener.boltGrade, ['8.8', 0.01]],
  [fastener.proofLoadN, [{ form: 'inch', majorM: 0.01, pitchM: 0.0015 }, 6e8]],
  [fastener.preloadFromTorque, [50, how]],
  [fastener.torqueForPreload, [30_000, how]],
  [fastener.boltStiffnessNPerM, [bolt]],
  [fastener.preloadFromStretch, [1e-4, 2e8, 5e-6]],
  [fastener.stretchFromPreloadM, [20_000, 2e8]],
  [fastener.jointStiffnessNPerM, [{ majorM: 0.01, gripM: 0.03, modulusPa: 2e11 }]],
  [fastener.preloadFromAngle, [turn, stiffness]],
  [fastener.jointUnderLoad, [20_000, 5000, stiffness]],
  [fastener.utilisation, [20_000, 6e-5, 6e8]],
  [
    fastener.rodBoltMargin,
    [
      {
        preloadPerBoltN: 4e4,
        separatingForceN: 2e4,
        bolts: 2,
        bendingFactor: 1.3,
        wantedMargin: 1.5,
      },
    ],
  ],
  [valvetrain.springThrough, [spring, { heightM: 0.035, loadN: 1300 }]],
  [valvetrain.springsTogether, [[spring, spring]]],
  [valvetrain.springLoadN, [spring, 0.04]],
  [
    valvetrain.springLoads,
    [spring, { installedHeightM: 0.048, valveLiftM: 0.014, coilBindHeightM: 0.03 }],
  ],
  [valvetrain.surgeFrequencyHz, [6e4, 0.1]],
  [valvetrain.surgeSwingsPerCamTurn, [400, 6000]],
  [valvetrain.massAtValveKg, [train]],
  [valvetrain.valveLiftWithLashM, [0.01, 1.5, 5e-4]],
  [valvetrain.lobeLiftSpentM, [5e-4, 1.5]],
  [valvetrain.preloadFromTurnsM, [{ turns: 0.5, pitchM: 1e-3, at: 'stud', rockerRatio: 1.5 }]],
  [valvetrain.preloadFromPushrodM, [0.19, 0.189]],
  [valvetrain.effectiveRatio, [0.0145, 0.01, 5e-4]],
  [valvetrain.rockerSweep, [rocker]],
  [valvetrain.midLiftCorrection, [rocker]],
  [valvetrain.pushrodLengthM, [0.19, { preloadM: 1e-3 }]],
  [valvetrain.pushrodLengthM, [0.19, { lashM: 5e-4, rockerRatio: 1.6 }]],
  [valvetrain.nearestPushrod, [0.19, 0.00127]],
  [calibration.straightLine, [points]],
  [calibration.localGravityMPerS2, [45, 300]],
  [calibration.armTorqueNm, [10, arm]],
  [calibration.massForTorqueKg, [100, arm]],
  [
    calibration.armRelativeUncertainty,
    [{ massRelative: 1e-4, armLengthRelative: 1e-4, gravityRelative: 1e-5, offLevelLimitDeg: 1 }],
  ],
  [calibration.calibrateTorque, [weights, { armRelative: 3e-4, resolutionNm: 0.1 }]],
  [calibration.torqueUncertaintyNm, [{ constantNm: 0.5, fraction: 1e-3 }, 400]],
  [
    calibration.sensorAgainstReference,
    [points.map(({ x, y }) => ({ reading: x, reference: y })), 0.1],
  ],
];

/** The value with each of its numbers replaced in turn. */
function spoiled(value: unknown, by: number): unknown[] {
  if (typeof value === 'number') return [by];
  if (Array.isArray(value))
    return value.flatMap((item, i) =>
      spoiled(item, by).map((bad) => value.map((other, j) => (j === i ? bad : other))),
    );
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) =>
    spoiled(item, by).map((bad) => ({ ...value, [key]: bad })),
  );
}

function holdsNaN(value: unknown): boolean {
  if (typeof value === 'number') return Number.isNaN(value);
  if (typeof value !== 'object' || value === null) return false;
  return Object.values(value).some(holdsNaN);
}

describe('no number that is none comes out (identity)', () => {
  it.each(CALLS.map(([call, args]) => [call.name, call, args] as const))('%s', (_, call, args) => {
    expect(holdsNaN(call(...args))).toBe(false);
    for (const by of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, -1])
      for (const bad of spoiled(args, by) as unknown[][]) {
        let answer: unknown = null;
        try {
          answer = call(...bad);
        } catch (error) {
          expect(error).toBeInstanceOf(NonPhysicalError);
        }
        expect(holdsNaN(answer), JSON.stringify(bad)).toBe(false);
      }
  });
});

import { FormatError, PullbookError } from '../../errors.ts';
import { findUnit } from '../../units/index.ts';
import { answerMeasured } from './answer.ts';
import { ARM_ANGLE_RANGE_DEG } from './torqueArm.ts';

/** What was read off in a calibration; what follows from it is computed (`answerMeasured`). */
export type Measured = DeadWeights | SensorCheck;

/** Weights on the torque arm, put on and taken off, in the order they were read. */
export interface DeadWeights {
  readonly kind: 'dead weights';
  readonly arm: {
    readonly lengthM: number;
    readonly gravityMPerS2: number;
    readonly offLevelDeg: number;
  };
  /** Relative standard uncertainties, and the most that the arm may be out of level. */
  readonly uncertainty: {
    readonly massRelative: number;
    readonly armLengthRelative: number;
    readonly gravityRelative: number;
    readonly offLevelLimitDeg: number;
  };
  readonly resolutionNm: number;
  readonly points: readonly WeightPoint[];
}
export interface WeightPoint {
  readonly massKg: number;
  readonly readingNm: number;
  readonly direction: 'up' | 'down';
}

/** A sensor beside a reference, both in the sensor's own unit. */
export interface SensorCheck {
  readonly kind: 'sensor';
  readonly sensor: string;
  readonly unit: string;
  readonly reference: string;
  /** Standard uncertainty of the reference, in the same unit. */
  readonly referenceUncertainty: number;
  readonly points: readonly { readonly reading: number; readonly reference: number }[];
}

const MOST_POINTS = 500;
/** Arms of any dynamometer lie well inside; millimetres taken for metres do not. */
const ARM_LENGTH_RANGE_M = [0.02, 10] as const;
const MASS_RANGE_KG = [0, 5000] as const;
/** A standard uncertainty above this is no calibration. */
const MOST_RELATIVE = 0.1;

/**
 * What was read off, checked field by field; nothing is kept of which no answer follows.
 * @throws FormatError  naming the first field that is wrong, such as `measured.points[3].massKg`
 */
export function readMeasured(given: unknown, at = 'measured'): Measured {
  const whole = objectAt(given, at);
  if (whole.kind === 'dead weights') return answered(deadWeightsAt(whole, at), at);
  if (whole.kind === 'sensor') return answered(sensorAt(whole, at), at);
  return refuse(`${at}.kind`, whole.kind, '"dead weights" or "sensor"');
}

function deadWeightsAt(whole: Given, at: string): DeadWeights {
  only(whole, at, ['kind', 'arm', 'uncertainty', 'resolutionNm', 'points']);
  const arm = objectAt(whole.arm, `${at}.arm`);
  only(arm, `${at}.arm`, ['lengthM', 'gravityMPerS2', 'offLevelDeg']);
  const uncertainty = objectAt(whole.uncertainty, `${at}.uncertainty`);
  const parts = ['massRelative', 'armLengthRelative', 'gravityRelative'] as const;
  only(uncertainty, `${at}.uncertainty`, [...parts, 'offLevelLimitDeg']);
  const relative = (part: (typeof parts)[number]) =>
    numberAt(uncertainty[part], `${at}.uncertainty.${part}`, [0, MOST_RELATIVE], '');
  return {
    kind: 'dead weights',
    arm: {
      lengthM: numberAt(arm.lengthM, `${at}.arm.lengthM`, ARM_LENGTH_RANGE_M, 'm'),
      gravityMPerS2: numberAt(arm.gravityMPerS2, `${at}.arm.gravityMPerS2`, [9.7, 9.9], 'm/s²'),
      offLevelDeg: numberAt(
        arm.offLevelDeg,
        `${at}.arm.offLevelDeg`,
        ARM_ANGLE_RANGE_DEG,
        'degrees',
      ),
    },
    uncertainty: {
      massRelative: relative('massRelative'),
      armLengthRelative: relative('armLengthRelative'),
      gravityRelative: relative('gravityRelative'),
      offLevelLimitDeg: numberAt(
        uncertainty.offLevelLimitDeg,
        `${at}.uncertainty.offLevelLimitDeg`,
        [0, 10],
        'degrees',
      ),
    },
    resolutionNm: numberAt(whole.resolutionNm, `${at}.resolutionNm`, [0, 1000], 'N·m'),
    points: pointsAt(whole.points, `${at}.points`, 3, (point, where) => {
      only(point, where, ['massKg', 'readingNm', 'direction']);
      const { direction } = point;
      if (direction !== 'up' && direction !== 'down')
        return refuse(`${where}.direction`, direction, '"up" or "down"');
      return {
        massKg: numberAt(point.massKg, `${where}.massKg`, MASS_RANGE_KG, 'kg'),
        readingNm: numberAt(point.readingNm, `${where}.readingNm`, [-1e5, 1e5], 'N·m'),
        direction,
      };
    }),
  };
}

function sensorAt(whole: Given, at: string): SensorCheck {
  only(whole, at, ['kind', 'sensor', 'unit', 'reference', 'referenceUncertainty', 'points']);
  const unit = textAt(whole.unit, `${at}.unit`, 1, 40);
  if (findUnit(unit) === undefined)
    refuse(`${at}.unit`, unit, 'a unit such as "°C", "kPa", "rpm", "kg/h" or "λ"');
  return {
    kind: 'sensor',
    sensor: textAt(whole.sensor, `${at}.sensor`, 1, 100),
    unit,
    reference: textAt(whole.reference, `${at}.reference`, 0, 200),
    referenceUncertainty: numberAt(
      whole.referenceUncertainty,
      `${at}.referenceUncertainty`,
      [0, 1e9],
      unit,
    ),
    points: pointsAt(whole.points, `${at}.points`, 1, (point, where) => {
      only(point, where, ['reading', 'reference']);
      return {
        reading: numberAt(point.reading, `${where}.reading`, [-1e12, 1e12], unit),
        reference: numberAt(point.reference, `${where}.reference`, [-1e12, 1e12], unit),
      };
    }),
  };
}

/** Each field by itself may be right and the whole no calibration: all at one weight, a cell that reads backwards. */
function answered<M extends Measured>(measured: M, at: string): M {
  try {
    answerMeasured(measured);
  } catch (error) {
    if (!(error instanceof PullbookError)) throw error;
    throw new FormatError(`${at}.points: ${error.message}`, {
      ...error.place,
      column: `${at}.points`,
    });
  }
  return measured;
}

type Given = Readonly<Record<string, unknown>>;

function refuse(path: string, found: unknown, expected: string): never {
  const shown = found === undefined ? 'nothing' : (JSON.stringify(found) ?? String(found));
  const short = shown.length > 60 ? `${shown.slice(0, 57)}...` : shown;
  throw new FormatError(`${path}: ${short}; expected ${expected}`, {
    column: path,
    found: short,
    expected,
  });
}

function objectAt(given: unknown, at: string): Given {
  return typeof given === 'object' && given !== null && !Array.isArray(given)
    ? (given as Given)
    : refuse(at, given, 'an object');
}

function only(given: Given, at: string, known: readonly string[]): void {
  for (const key of Object.keys(given))
    if (!known.includes(key))
      refuse(`${at}.${key.slice(0, 60)}`, given[key], `one of ${known.join(', ')}`);
}

function numberAt(
  given: unknown,
  at: string,
  [low, high]: readonly [number, number],
  unit: string,
): number {
  return typeof given === 'number' && given >= low && given <= high
    ? given
    : refuse(at, given, `a number from ${low} to ${high}${unit === '' ? '' : ` ${unit}`}`);
}

function textAt(given: unknown, at: string, least: number, most: number): string {
  return typeof given === 'string' && given.trim().length >= least && given.length <= most
    ? given
    : refuse(at, given, `a text of ${least} to ${most} letters`);
}

function pointsAt<P>(
  given: unknown,
  at: string,
  least: number,
  read: (point: Given, where: string) => P,
): readonly P[] {
  if (!Array.isArray(given) || given.length < least || given.length > MOST_POINTS)
    return refuse(
      at,
      Array.isArray(given) ? given.length : given,
      `${least} to ${MOST_POINTS} points`,
    );
  return given.map((point, index) => read(objectAt(point, `${at}[${index}]`), `${at}[${index}]`));
}

import { resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { readRunFile } from '../intake/index.ts';
import { curveOf, findPulls } from '../pull/index.ts';
import type { CurveOptions, Mark } from '../pull/types.ts';
import { NEW_CELL, NEW_ENGINE } from '../record/defaults.ts';
import { type CurveObject, curveObject } from '../report/index.ts';
import { AIR_STANDARDS, type AirStandard, fuelNamed, standardNamed } from '../trade/index.ts';
import { type Dimension, findUnit, parseQuantity, type UnitSystem } from '../units/index.ts';
import { eachFile } from './eachFile.ts';
import type { CommandIo } from './io.ts';
import type { Progress } from './progress.ts';
import { showCurve } from './show/curve.ts';

export interface CurveFlags {
  readonly json?: boolean;
  readonly standard: AirStandard;
  readonly inertia?: string;
  readonly lag?: string;
  readonly ratio?: string;
  readonly torqueIs?: string;
  readonly torqueInertia?: 'in' | 'out';
  readonly displacement?: string;
  readonly fuel: string;
  readonly aspiration: 'natural' | 'boosted' | 'nitrous';
  readonly correctBoosted?: boolean;
  readonly pressure?: string;
  readonly temperature?: string;
  readonly humidity?: string;
  readonly units: UnitSystem;
}

/** `pullbook curve`: one curve a pull; a file that is refused makes the exit code 1 and the others go on. */
export async function curve(
  files: readonly string[],
  flags: CurveFlags,
  io: CommandIo,
): Promise<number> {
  const options = optionsOf(flags);
  return eachFile(
    files,
    io,
    flags.json === true,
    (file, progress) => curvesOf(file, options, flags.torqueIs !== undefined, io, progress),
    (one) => showCurve(one, flags.units, io.columns),
  );
}

async function curvesOf(
  file: string,
  options: CurveOptions,
  torqueSaid: boolean,
  io: CommandIo,
  progress: Progress,
): Promise<readonly CurveObject[]> {
  const { recording, questions } = await readRunFile(resolve(io.cwd, file), {
    fileName: file,
    ...(torqueSaid ? { torqueIs: options.cell.torqueIs } : {}),
    fuel: options.engine.fuel,
    signal: io.signal,
    onProgress: (done, total) => progress.share(file, done, total),
  });
  const silent = !torqueSaid && questions.some(({ key }) => key === 'torqueIs');
  return findPulls(recording).map((span, index) => {
    const object = curveObject(file, index + 1, curveOf(recording, span, options));
    return silent ? { ...object, marks: [...object.marks, TAKEN_AS_OBSERVED] } : object;
  });
}

/** Nobody can be asked here, so what was assumed is said. */
const TAKEN_AS_OBSERVED: Mark = {
  kind: 'basis',
  severity: 'note',
  sentence:
    'The header does not say what its torque is: it was taken as observed, with inertia out (--torque-is and --torque-inertia say otherwise).',
};

/** Flags as the computation wants them. @throws UsageError  naming the flag */
function optionsOf(flags: CurveFlags): CurveOptions {
  const quantity = (name: string, text: string | undefined, dimension: Dimension) =>
    text === undefined ? undefined : flag(name, () => parseQuantity(text, dimension));
  const displacementM3 = quantity('displacement', flags.displacement, 'volume');
  const pressureAbsPa = quantity('pressure', flags.pressure, 'pressure');
  const temperatureK = quantity('temperature', flags.temperature, 'temperature');
  const humidity =
    flags.humidity === undefined
      ? undefined
      : flag('humidity', () =>
          parseQuantity(flags.humidity!, 'fraction', { assume: findUnit('%')! }),
        );
  return {
    standard: flags.standard,
    cell: {
      inertiaKgM2: notNegative('inertia', quantity('inertia', flags.inertia, 'inertia')),
      sensorLagS: notNegative('lag', quantity('lag', flags.lag, 'time')),
      ratio: ratioOf(flags.ratio),
      torqueIs: { air: airOf(flags.torqueIs ?? 'observed'), inertia: flags.torqueInertia ?? 'out' },
      calibrationRelSd: NEW_CELL.calibrationRelSd,
    },
    engine: {
      name: 'engine',
      cylinders: null,
      displacementM3: displacementM3 ?? null,
      strokeM: null,
      compressionRatio: null,
      cycle: NEW_ENGINE.cycle,
      aspiration: flags.aspiration,
      fuel: flag('fuel', () => fuelNamed(flags.fuel).name),
    },
    ...(flags.correctBoosted ? { correctBoosted: true } : {}),
    air: {
      ...(pressureAbsPa === undefined ? {} : { pressureAbsPa }),
      ...(temperatureK === undefined ? {} : { temperatureK }),
      ...(humidity === undefined ? {} : { humidity }),
    },
  };
}

function notNegative(name: string, value: number | undefined): number | null {
  if (value !== undefined && value < 0)
    throw new UsageError(`--${name}: it cannot be below zero; expected zero or more`);
  return value ?? null;
}

function airOf(text: string): 'observed' | AirStandard {
  if (text === 'observed') return text;
  const standard = standardNamed(text);
  if (standard === undefined || standard === 'none')
    throw new UsageError(
      `--torque-is: "${text}" is neither observed nor a standard; expected observed, ${AIR_STANDARDS.slice(0, -1).join(', ')}`,
    );
  return standard;
}

function ratioOf(text: string | undefined): number {
  const ratio = text === undefined ? 1 : Number(text);
  if (!(ratio > 0 && Number.isFinite(ratio)))
    throw new UsageError(`--ratio: "${text}" is not a ratio; expected a number above 0`);
  return ratio;
}

/** A flag's value, or wrong usage that names the flag. */
function flag<T>(name: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw new UsageError(`--${name}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

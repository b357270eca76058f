import { resolve } from 'node:path';
import {
  type GoalId,
  isGoal,
  isShape,
  orRefuse,
  readUse,
  readVehicle,
  SHAPE_NAMES,
} from '../compare/index.ts';
import { UsageError } from '../errors.ts';
import { readJsonFile } from '../intake/index.ts';
import {
  answerUses,
  loggedUseFrom,
  publishedUses,
  refusedObject,
  type UseWanted,
} from '../report/index.ts';
import { bandOf, type CompareFlags, fileOf, namedSide, questionOfSides } from './compare.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showRefusal } from './show/look.ts';
import { showUse } from './show/use.ts';

export interface UseFlags extends CompareFlags {
  readonly use?: string;
  readonly log?: string;
  readonly vehicle?: string;
  readonly above?: string;
  readonly over?: string;
}

/** `pullbook use`: builds, of files or of the shop, under a use and in a vehicle; a refusal makes the exit code 1. */
export async function use(
  named: readonly string[],
  flags: UseFlags,
  io: CommandIo,
): Promise<number> {
  const band = flags.band === undefined ? undefined : bandOf(flags.band);
  const goal = goalOf(flags.over);
  const aboveRpm = flags.above === undefined ? undefined : speedOf(flags.above);
  if (flags.use !== undefined && flags.log !== undefined)
    throw new UsageError('--use and --log are two uses; expected one of them');
  if (flags.use !== undefined && !isShape(flags.use) && !/\.json$/i.test(flags.use))
    throw new UsageError(
      `--use: "${flags.use}" is no use that is known; expected ${SHAPE_NAMES.map((name) => `"${name}"`).join(', ')}, or a file of the format use/1 (.json)`,
    );
  const progress = new Progress(io);
  try {
    const written =
      flags.vehicle === undefined
        ? null
        : orRefuse(readVehicle(await json(flags.vehicle, 'vehicle/1', io)), flags.vehicle);
    const wanted = await wantedUse(flags, written !== null, io);
    const sides = await Promise.all(named.map((one) => namedSide(one, io)));
    const question = await questionOfSides(
      sides,
      {
        leastSides: 1,
        ...(band === undefined ? {} : { bandRpm: band }),
        ...(flags.standard === undefined ? {} : { standard: flags.standard }),
        ...(flags.correctBoosted ? { correctBoosted: true } : {}),
        signal: io.signal,
        onFile: (file, at, count) => progress.part(file, at, count),
      },
      () => recordFolder(flags.data, io),
    );
    const work = answerUses(question, {
      use: wanted,
      vehicle: written?.vehicle ?? null,
      goal,
      ...(aboveRpm === undefined ? {} : { aboveRpm }),
    });
    progress.clear();
    const object = publishedUses(work, written?.assumed ?? []);
    io.out(flags.json ? jsonLine(object) : showUse(object, flags.units, io.columns));
    return EXIT.done;
  } catch (error) {
    progress.clear();
    if (io.signal.aborted || error instanceof UsageError) throw error;
    const object = refusedObject(fileOf(error) ?? named.join(', '), error);
    if (flags.json) io.out(jsonLine(object));
    else io.err(showRefusal(object));
    return EXIT.refused;
  }
}

const json = (file: string, format: string, io: CommandIo) =>
  readJsonFile(resolve(io.cwd, file), { fileName: file, format });

/** What is said; where nothing is, the vehicle's own run, or without one all that can be chosen. */
async function wantedUse(flags: UseFlags, hasVehicle: boolean, io: CommandIo): Promise<UseWanted> {
  if (flags.log !== undefined)
    return loggedUseFrom(resolve(io.cwd, flags.log), { fileName: flags.log, signal: io.signal });
  if (flags.use === undefined) return hasVehicle ? null : 'all';
  return isShape(flags.use)
    ? flags.use
    : orRefuse(readUse(await json(flags.use, 'use/1', io)), flags.use);
}

function goalOf(text: string | undefined): GoalId {
  if (text === undefined) return 'quarterMile';
  const named = { '1/4 mile': 'quarterMile', '1/8 mile': 'eighthMile' }[text] ?? text;
  if (isGoal(named)) return named;
  throw new UsageError(
    `--over: "${text}" is no distance or stretch of speed; expected "1/4 mile", "1/8 mile", 1000ft, 1km, 60ft, 0-60mph, 0-100kmh, 60-130mph, 100-200kmh`,
  );
}

function speedOf(text: string): number {
  const speed = Number(/^\s*(\d{3,5}(?:\.\d+)?)\s*(?:rpm)?\s*$/i.exec(text)?.[1]);
  if (!(speed > 0))
    throw new UsageError(`--above: "${text}" is no engine speed; expected one such as 5200`);
  return speed;
}

import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import {
  compareObject,
  compareParts,
  compareSources,
  refusedObject,
  type Source,
} from '../report/index.ts';
import type { AirStandard } from '../trade/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showCompare } from './show/compare.ts';
import { showRefusal } from './show/look.ts';

export interface CompareFlags {
  readonly json?: boolean;
  readonly band?: string;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly units: UnitSystem;
}

/** `pullbook compare`: two files, or the two groups of one session; a refusal makes the exit code 1. */
export async function compare(
  files: readonly string[],
  flags: CompareFlags,
  io: CommandIo,
): Promise<number> {
  if (files.length > 2)
    throw new UsageError(`${files.length} files are named; expected two, or one part test`);
  const band = flags.band === undefined ? undefined : bandOf(flags.band);
  const progress = new Progress(io);
  try {
    const sources = await Promise.all(files.map((file) => sourceOf(file, io)));
    const options = {
      ...(band === undefined ? {} : { bandRpm: band }),
      ...(flags.standard === undefined ? {} : { standard: flags.standard }),
      ...(flags.correctBoosted ? { correctBoosted: true } : {}),
      signal: io.signal,
      onFile: (file: string, at: number, count: number) => progress.part(file, at, count),
    };
    const [a, b] = sources;
    const work =
      b === undefined ? await compareParts(a!, options) : await compareSources([a!, b], options);
    progress.clear();
    const object = compareObject(work);
    io.out(flags.json ? jsonLine(object) : showCompare(object, flags.units, io.columns));
    return EXIT.done;
  } catch (error) {
    progress.clear();
    if (io.signal.aborted || error instanceof UsageError) throw error;
    const object = refusedObject(fileOf(error) ?? files.join(', '), error);
    if (flags.json) io.out(jsonLine(object));
    else io.err(showRefusal(object));
    return EXIT.refused;
  }
}

export const fileOf = (error: unknown): string | undefined =>
  (error as { place?: { file?: string } }).place?.file;

/** A folder stands for the session file in it; what ends in .json is a session. */
export async function sourceOf(given: string, io: CommandIo): Promise<Source> {
  const found = await stat(resolve(io.cwd, given)).catch(() => null);
  const name = found?.isDirectory() ? join(given, 'session.json') : given;
  return {
    name,
    path: resolve(io.cwd, name),
    kind: /\.json$/i.test(name) ? 'session' : 'run file',
  };
}

/** `4500-7000` in rev/min. @throws UsageError */
export function bandOf(text: string): readonly [number, number] {
  const ends = /^\s*(\d{2,6}(?:\.\d+)?)\s*(?:-|–|to)\s*(\d{2,6}(?:\.\d+)?)\s*(?:rpm)?\s*$/i.exec(
    text,
  );
  const [from, to] = [Number(ends?.[1]), Number(ends?.[2])];
  if (!(to > from))
    throw new UsageError(
      `--band: "${text}" is no band of speeds; expected the lower speed first, such as 4500-7000`,
    );
  return [from, to];
}

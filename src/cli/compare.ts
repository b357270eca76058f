import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { WORTH_PERCENT } from '../ladder/index.ts';
import type { SideWanted } from '../record/index.ts';
import {
  answerQuestion,
  type CompareOptions,
  type CompareQuestion,
  type CompareWork,
  compareObjects,
  compareParts,
  type FileSide,
  filesInOrder,
  questionOf,
  type ReadSide,
  readFileSide,
  refusedObject,
  type Source,
} from '../report/index.ts';
import type { AirStandard } from '../trade/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { type Address, addressOf, readingShop, sideAt } from './shop.ts';
import { showCompared } from './show/compare.ts';
import { showRefusal } from './show/look.ts';

export interface CompareFlags {
  readonly json?: boolean;
  readonly band?: string;
  readonly standard?: AirStandard;
  readonly correctBoosted?: boolean;
  readonly data?: string;
  readonly units: UnitSystem;
}

/** `pullbook compare`: files or things in the shop, or the two groups of one session; a refusal makes the exit code 1. */
export async function compare(
  named: readonly string[],
  flags: CompareFlags,
  io: CommandIo,
): Promise<number> {
  const band = flags.band === undefined ? undefined : bandOf(flags.band);
  const progress = new Progress(io);
  const options: CompareOptions = {
    ...(band === undefined ? {} : { bandRpm: band }),
    ...(flags.standard === undefined ? {} : { standard: flags.standard }),
    ...(flags.correctBoosted ? { correctBoosted: true } : {}),
    signal: io.signal,
    onFile: (file, at, count) => progress.part(file, at, count),
  };
  try {
    const sides = await Promise.all(named.map((one) => namedSide(one, io)));
    const work = await worked(sides, options, () => recordFolder(flags.data, io));
    progress.clear();
    const objects = compareObjects(work, flags.json ? 'metric' : flags.units);
    if (flags.json) for (const object of objects) io.out(jsonLine(object));
    else io.out(showCompared(objects, flags.units, io.columns));
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

type NamedSide = Source | Address;
const isFile = (side: NamedSide): side is Source => 'name' in side;

async function worked(
  sides: readonly NamedSide[],
  options: CompareOptions,
  folder: () => string,
): Promise<CompareWork> {
  const [first] = sides;
  if (sides.length === 1) {
    if (isFile(first!)) return compareParts(first, options);
    throw new UsageError('one thing of the shop is compared with nothing; name a second one');
  }
  return answerQuestion(await questionOfSides(sides, options, folder));
}

export interface SidesOptions extends CompareOptions {
  /** One, where a use or a vehicle is asked about. */
  readonly leastSides?: 1 | 2;
}

/**
 * Files and things of the shop, brought together in the order in which they were named.
 * @param folder  where the shop is; asked only where one of its things is named
 * @throws InputError, FormatError  a file that is refused, nothing of that name in the shop, or sides that cannot be
 *   brought together
 */
export async function questionOfSides(
  sides: readonly NamedSide[],
  options: SidesOptions,
  folder: () => string,
): Promise<CompareQuestion> {
  const read: { at: number; side: FileSide }[] = [];
  for (const [at, side] of sides.entries())
    if (isFile(side)) read.push({ at, side: await readFileSide(side, options) });
  const { inOrder, warnings } =
    sides.length > 1
      ? filesInOrder(read.map(({ side }) => side))
      : { inOrder: read.map(({ side }) => side), warnings: [] };
  const { bandRpm, standard, correctBoosted, leastSides } = options;
  const wish = {
    ...(bandRpm === undefined ? {} : { bandRpm }),
    ...(standard === undefined ? {} : { standard }),
    ...(correctBoosted === undefined ? {} : { correctBoosted }),
    ...(leastSides === undefined ? {} : { leastSides }),
  };
  const question = sides.every(isFile)
    ? questionOf(inOrder, { worthPercent: WORTH_PERCENT, ...wish })
    : await questionInShop(
        sides,
        wish,
        read.map(({ at }, i) => ({ at, side: inOrder[i]! })),
        folder(),
      );
  return { ...question, warnings: [...new Set([...warnings, ...question.warnings])] };
}

/** Sides of the shop, and files among them. */
async function questionInShop(
  sides: readonly NamedSide[],
  wish: Omit<SidesOptions, 'signal' | 'onFile'>,
  files: readonly { readonly at: number; readonly side: ReadSide }[],
  folder: string,
): Promise<CompareQuestion> {
  // The server's side of the program is loaded only where the shop is asked.
  const { bringTogether, Curves, Readings } = await import('../service/work/index.ts');
  return readingShop(folder, async (record) => {
    const wanted: SideWanted[] = [];
    for (const side of sides) if (!isFile(side)) wanted.push(await sideAt(record, side));
    const curves = new Curves(record, new Readings(record));
    return (await bringTogether(record, curves, { sides: wanted, ...wish }, files)).question;
  });
}

export const fileOf = (error: unknown): string | undefined =>
  (error as { place?: { file?: string } }).place?.file;

/**
 * What one word of the command names. A file that is there comes first; then `kind:name`; else a word that cannot be a
 * file's is an engine of the shop.
 */
export async function namedSide(given: string, io: CommandIo): Promise<NamedSide> {
  const found = await stat(resolve(io.cwd, given)).catch(() => null);
  if (found === null) {
    const address = addressOf(given);
    if (address !== null) return address;
    if (!/[./\\]/.test(given)) return { kind: 'engine', path: [given], at: null };
  }
  return sourceOf(given, io);
}

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

import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join, resolve } from 'node:path';
import { InputError } from '../errors.ts';
import type { ReplayWanted } from '../figures.ts';
import { frameName, framesOf, README, readmeOf } from '../replay.ts';
import { type Language, printable, SHAPES, type Shape } from '../report/index.ts';
import { shippedReplay } from '../service/figures.ts';
import { choiceOf } from '../service/work/handOverKept.ts';
import { freezeHandOver } from '../service/work/handover.ts';
import { Readings } from '../service/work/index.ts';
import { replayOfHandOver } from '../service/work/replays.ts';
import type { AirStandard } from '../trade/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine, plain } from './io.ts';
import { pixelMaker } from './pixels.ts';
import { buildNamed, heldAgainst, pathOf, readingShop } from './shop.ts';
import { version } from './version.ts';

export interface ReplayFlags {
  readonly out: string;
  readonly against?: string;
  readonly size: Shape;
  readonly fps: number;
  readonly language?: Language;
  readonly standard?: AirStandard;
  readonly units?: UnitSystem;
  readonly data?: string;
  readonly json?: boolean;
}

/** `pullbook replay`: the curve of a build in the time of its pull, as numbered pictures for a film. */
export async function replay(wanted: string, flags: ReplayFlags, io: CommandIo): Promise<number> {
  const folder = resolve(io.cwd, flags.out);
  await mustBeFree(folder, flags.out);
  const replay = await readingShop(recordFolder(flags.data, io), async (record) => {
    const build = await buildNamed(record, pathOf(wanted));
    const choice = await choiceOf(record, build.id, {
      ...(await heldAgainst(record, flags.against)),
      standard: flags.standard,
      units: flags.units,
    });
    // As a hand-over would stand today; nothing is kept of it.
    const handOver = await freezeHandOver(record, choice, {
      madeAt: new Date().toISOString(),
      pullbook: version(),
      signal: io.signal,
    });
    return replayOfHandOver(record, new Readings(record), handOver, flags);
  });
  await mkdir(folder, { recursive: true });
  // A name in signs that our letters have not stands as their numbers, as it does on paper.
  const drawable = JSON.parse(printable(JSON.stringify(replay))) as ReplayWanted;
  const count = await writeFrames(drawable, folder, flags, io);
  await writeFile(join(folder, README), readmeOf(replay, SHAPES[flags.size], flags.fps));
  const { width, height } = SHAPES[flags.size];
  if (flags.json)
    io.out(
      jsonLine({
        ok: true,
        folder: flags.out,
        frames: count,
        perSecond: flags.fps,
        widthPx: width,
        heightPx: height,
        durationS: replay.durationS,
        told: replay.told,
      }),
    );
  else {
    io.out(
      `${count} pictures of ${width} × ${height}, ${flags.fps} a second, and ${README} in ${plain(flags.out)}\n`,
    );
    for (const line of replay.told) io.out(`${plain(line)}\n`);
  }
  return EXIT.done;
}

/** What is in a folder already must never be mixed up with the pictures, or written over by them. */
async function mustBeFree(folder: string, name: string): Promise<void> {
  let held: readonly string[];
  try {
    held = await readdir(folder);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return;
    throw new InputError(
      code === 'ENOTDIR'
        ? `${name} is a file; the pictures need a folder.`
        : `The folder ${name} cannot be looked into.`,
      {},
      error,
    );
  }
  if (held.length > 0)
    throw new InputError(
      `The folder ${name} is not empty; name a new one for the pictures, or empty it first.`,
      { found: `${held.length} ${held.length === 1 ? 'entry' : 'entries'}` },
    );
}

/** Some pictures at once, each let go of as soon as it is written: memory does not grow with their number. */
async function writeFrames(
  replay: ReplayWanted,
  folder: string,
  { size, fps }: ReplayFlags,
  io: CommandIo,
): Promise<number> {
  const draw = await shippedReplay();
  const { pixelsOf, letGo } = await pixelMaker();
  const frames = framesOf(replay, fps);
  const shape = SHAPES[size];
  let still: Promise<Uint8Array> | null = null;
  let [next, done, shown] = [0, 0, -1];
  const write = async (frame: number) => {
    const picture = () => pixelsOf(draw(replay, shape, frames.timeS(frame)));
    const isStill = frame >= frames.firstStill;
    if (isStill) still ??= picture();
    const bytes = isStill ? await still! : await picture();
    await writeFile(join(folder, frameName(frame, frames.count)), bytes);
    done += 1;
    if (done % LET_GO_EVERY === 0) await letGo();
    const percent = Math.floor((100 * done) / frames.count);
    if (percent !== shown && io.progressTerminal) io.err(`\rdrawing ${percent} %`);
    shown = percent;
  };
  const worker = async () => {
    while (next < frames.count) {
      io.signal.throwIfAborted();
      await write(next++);
    }
  };
  await Promise.all(Array.from({ length: Math.min(4, availableParallelism()) }, worker));
  if (io.progressTerminal) io.err(`\r${' '.repeat('drawing 100 %'.length)}\r`);
  return frames.count;
}

const LET_GO_EVERY = 8;

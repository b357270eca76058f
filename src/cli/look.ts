import { resolve } from 'node:path';
import { readRunFile } from '../intake/index.ts';
import { findPulls } from '../pull/index.ts';
import { type LookObject, lookObject, type RefusedObject, refusedObject } from '../report/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showLook, showRefusal } from './show/look.ts';

export interface LookFlags {
  readonly json?: boolean;
  readonly units: UnitSystem;
}

/** `pullbook look`: every file is answered, a refused one makes the exit code 1. */
export async function look(
  files: readonly string[],
  flags: LookFlags,
  io: CommandIo,
): Promise<number> {
  let refused = false;
  const progress = new Progress(io);
  for (const [index, file] of files.entries()) {
    progress.file(file, index, files.length);
    const answer = await lookAt(file, io, progress);
    progress.clear();
    refused ||= !answer.ok;
    if (flags.json) io.out(jsonLine(answer));
    else if (answer.ok) io.out(showLook(answer, flags.units, io.columns));
    else io.err(showRefusal(answer));
  }
  return refused ? EXIT.refused : EXIT.done;
}

async function lookAt(
  file: string,
  io: CommandIo,
  progress: Progress,
): Promise<LookObject | RefusedObject> {
  try {
    const { recording, questions } = await readRunFile(resolve(io.cwd, file), {
      fileName: file,
      signal: io.signal,
      onProgress: (done, total) => progress.share(file, done, total),
    });
    return lookObject(file, recording, findPulls(recording), questions);
  } catch (error) {
    if (io.signal.aborted) throw error;
    return refusedObject(file, error);
  }
}

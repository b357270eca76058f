import { resolve } from 'node:path';
import { readRunFile } from '../intake/index.ts';
import { findPulls } from '../pull/index.ts';
import { lookObject } from '../report/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { eachFile } from './eachFile.ts';
import type { CommandIo } from './io.ts';
import { showLook } from './show/look.ts';

export interface LookFlags {
  readonly json?: boolean;
  readonly units: UnitSystem;
}

/** `pullbook look`: every file is answered, a refused one makes the exit code 1. */
export function look(files: readonly string[], flags: LookFlags, io: CommandIo): Promise<number> {
  return eachFile(
    files,
    io,
    flags.json === true,
    async (file, progress) => {
      const { recording, questions } = await readRunFile(resolve(io.cwd, file), {
        fileName: file,
        signal: io.signal,
        onProgress: (done, total) => progress.share(file, done, total),
      });
      return [lookObject(file, recording, findPulls(recording), questions)];
    },
    (object) => showLook(object, flags.units, io.columns),
  );
}

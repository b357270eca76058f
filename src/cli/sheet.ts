import { resolve } from 'node:path';
import { answerSheet } from '../build/index.ts';
import { readBuildFile } from '../intake/index.ts';
import { refusedObject, sheetObject } from '../report/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showRefusal } from './show/look.ts';
import { showSheet } from './show/sheet.ts';

export interface SheetFlags {
  readonly json?: boolean;
  readonly units: UnitSystem;
  readonly use?: string;
}

/** `pullbook sheet`: what follows from each build file; one that is refused makes the exit code 1. */
export async function sheet(
  files: readonly string[],
  flags: SheetFlags,
  io: CommandIo,
): Promise<number> {
  let refused = false;
  const progress = new Progress(io);
  for (const [index, file] of files.entries()) {
    progress.file(file, index, files.length);
    try {
      const read = await readBuildFile(resolve(io.cwd, file), { fileName: file });
      const one = flags.use === undefined ? read : { ...read, use: flags.use };
      const object = sheetObject(file, one, answerSheet(one));
      progress.clear();
      io.out(flags.json ? jsonLine(object) : showSheet(object, flags.units, io.columns));
    } catch (error) {
      if (io.signal.aborted) throw error;
      progress.clear();
      refused = true;
      const object = refusedObject(file, error);
      if (flags.json) io.out(jsonLine(object));
      else io.err(showRefusal(object));
    }
  }
  return refused ? EXIT.refused : EXIT.done;
}

import { resolve } from 'node:path';
import { answerSheet, readWindows, WINDOWS_FORMAT, type WindowRule } from '../build/index.ts';
import { readBuildFile, readJsonFile } from '../intake/index.ts';
import { sheetObject } from '../report/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { eachFile } from './eachFile.ts';
import type { CommandIo } from './io.ts';
import { showSheet } from './show/sheet.ts';

export interface SheetFlags {
  readonly json?: boolean;
  readonly units: UnitSystem;
  readonly use?: string;
  /** File of the shop's own windows. */
  readonly windows?: string;
}

/**
 * `pullbook sheet`: what follows from each build file; one that is refused makes the exit code 1.
 * @throws InputError, FormatError  where the windows cannot be read; then no sheet is judged by other ones
 */
export async function sheet(
  files: readonly string[],
  flags: SheetFlags,
  io: CommandIo,
): Promise<number> {
  const own = flags.windows === undefined ? [] : await windowsIn(flags.windows, io);
  return eachFile(
    files,
    io,
    flags.json === true,
    async (file) => {
      const read = await readBuildFile(resolve(io.cwd, file), { fileName: file });
      const one = flags.use === undefined ? read : { ...read, use: flags.use };
      return [sheetObject(file, one, answerSheet(one, own))];
    },
    (object) => showSheet(object, flags.units, io.columns),
  );
}

async function windowsIn(file: string, io: CommandIo): Promise<readonly WindowRule[]> {
  const how = { fileName: file, format: WINDOWS_FORMAT };
  return readWindows(await readJsonFile(resolve(io.cwd, file), how), file);
}

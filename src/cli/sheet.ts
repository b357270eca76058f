import { writeFile } from 'node:fs/promises';
import { extname, resolve } from 'node:path';
import {
  answerSheet,
  readWindows,
  type Sheet,
  sheetTable,
  WINDOWS_FORMAT,
  type WindowRule,
  writeSheet,
} from '../build/index.ts';
import { UsageError } from '../errors.ts';
import { readBuildFile, readJsonFile } from '../intake/index.ts';
import { sheetObject } from '../report/index.ts';
import { csvText } from '../units/export/csv.ts';
import { xlsxOfRows } from '../units/export/xlsx.ts';
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
  /** New file that the one sheet is written to: .json, .csv or .xlsx by its ending. */
  readonly out?: string;
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
  if (flags.out !== undefined && files.length > 1)
    throw new UsageError('--out takes one sheet: each would write over the last.');
  const own = flags.windows === undefined ? [] : await windowsIn(flags.windows, io);
  return eachFile(
    files,
    io,
    flags.json === true,
    async (file) => {
      const read = await readBuildFile(resolve(io.cwd, file), { fileName: file });
      const one = flags.use === undefined ? read : { ...read, use: flags.use };
      if (flags.out !== undefined) await writeSheetFile(flags.out, one, io);
      return [sheetObject(file, one, answerSheet(one, own))];
    },
    (object) => showSheet(object, flags.units, io.columns),
  );
}

/** Writes the sheet as what the ending says; each reads back as the same sheet, photos and files aside. */
async function writeSheetFile(path: string, sheet: Sheet, io: CommandIo): Promise<void> {
  const bytes = await bytesFor(path, sheet);
  await writeFile(resolve(io.cwd, path), bytes);
  io.err(`the sheet is in ${path}\n`);
}

async function bytesFor(path: string, sheet: Sheet): Promise<string | Uint8Array> {
  switch (extname(path).toLowerCase()) {
    case '.json':
      return writeSheet(sheet);
    case '.csv':
      return csvText(sheetTable(sheet));
    case '.xlsx':
      return xlsxOfRows(sheetTable(sheet), 'Build sheet');
    default:
      throw new UsageError(`A sheet is written as .json, .csv or .xlsx; "${path}" ends in none.`);
  }
}

async function windowsIn(file: string, io: CommandIo): Promise<readonly WindowRule[]> {
  const how = { fileName: file, format: WINDOWS_FORMAT };
  return readWindows(await readJsonFile(resolve(io.cwd, file), how), file);
}

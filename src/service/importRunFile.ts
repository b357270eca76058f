/** One run file into a record without HTTP, by the same way: for the command, the demo and tests. */
import type { Change, Id, PullbookRecord } from '../record/index.ts';
import { sha256Of } from '../record/index.ts';
import { type ImportedFile, type ImportWatch, importFile } from './work/imports.ts';
import { Readings } from './work/readings.ts';

/**
 * Reads the bytes of a run file, finds its pulls and stores both in a day.
 * @throws FormatError, InputError when it is no run file or holds no pull; nothing is stored then
 */
export function importRunFile(
  record: PullbookRecord,
  dayId: Id,
  fileName: string,
  bytes: Uint8Array,
  change: Change = {},
  watch: ImportWatch = {},
): Promise<ImportedFile> {
  const file = { sha256: sha256Of(bytes), file: bytes, source: bytes };
  return importFile(record, new Readings(record), dayId, fileName, file, change, watch);
}

import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { InputError } from '../../errors.ts';
import type { Change, Id, PullbookRecord } from '../../record/index.ts';
import { type ImportedFile, importFile } from '../../service/work/imports.ts';
import type { Readings } from '../../service/work/readings.ts';

/** Up to this size a file is held in memory while it is taken in [bytes]. */
const IN_MEMORY_BYTES = 16 * 1024 * 1024;

export interface Into {
  readonly record: PullbookRecord;
  readonly readings: Readings;
  readonly change: Change;
  readonly signal: AbortSignal;
  readonly onShare: (share: number | null) => void;
}

/**
 * One run file from disk into a day of the record, the way an upload takes too.
 * @throws InputError, FormatError  refused: nothing is stored
 */
export async function importRunFile(
  path: string,
  shownName: string,
  dayId: Id,
  { record, readings, change, signal, onShare }: Into,
): Promise<ImportedFile> {
  const spooled = await fromDisk(path, shownName);
  return importFile(record, readings, dayId, basename(path), spooled, change, {
    signal,
    onStage: (_stage, share) => onShare(share),
  });
}

async function fromDisk(path: string, shownName: string) {
  try {
    const { size } = await stat(path);
    if (size <= IN_MEMORY_BYTES) {
      const bytes = new Uint8Array(await readFile(path));
      return {
        sha256: createHash('sha256').update(bytes).digest('hex'),
        file: bytes,
        source: bytes,
      };
    }
    const digest = createHash('sha256');
    for await (const chunk of createReadStream(path)) digest.update(chunk as Uint8Array);
    const sha256 = digest.digest('hex');
    const file = { sha256, sizeBytes: size, read: () => createReadStream(path) };
    return { sha256, file, source: path };
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new InputError(
      missing ? 'there is no such file' : 'the file cannot be read',
      { file: shownName },
      error,
    );
  }
}

/** Copies of the whole record: made while it is in use, checked before they are trusted. */
import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import { StoreError } from '../errors.ts';
import { checkDatabase, databaseFile, INCOMING } from './check.ts';
import { openDatabase } from './engine.ts';
import { lockFolder } from './lock.ts';
import { storeErrorOf, WHOLE_DATABASE } from './store.ts';

/**
 * Writes a consistent copy of the record in a folder to a new file, also while a server has it open: the copy
 * is what stood at one moment, whatever is written meanwhile.
 * @throws StoreError when there is no record, or the file exists (a backup is never overwritten).
 */
export async function backupRecord(
  folder: string,
  toFile: string,
  progress: (share: number) => void = () => {},
): Promise<void> {
  const source = databaseFile(folder);
  if (!existsSync(source)) {
    throw new StoreError(`There is no record in ${folder}; nothing to back up.`, {
      file: source,
      expected: 'a folder that Pullbook keeps its record in',
    });
  }
  if (existsSync(toFile)) {
    throw new StoreError(`${toFile} exists; name a new file, a backup is never overwritten.`, {
      file: toFile,
      expected: 'the name of a new file',
    });
  }
  const part = `${toFile}.part`;
  try {
    rmSync(part, { force: true });
    const db = openDatabase(source, { readonly: true, timeout: 5000 });
    try {
      // The open read transaction pins one moment, so writers neither wait nor make the copy start over.
      db.exec('BEGIN');
      db.prepare('SELECT count(*) FROM sqlite_schema').get();
      await db.backup(part, {
        progress({ totalPages, remainingPages }) {
          progress(totalPages === 0 ? 0 : 1 - remainingPages / totalPages);
          return 1000;
        },
      });
    } finally {
      db.close();
    }
    const copy = openDatabase(part);
    copy.pragma('journal_mode = DELETE');
    copy.close();
    checkDatabase(part);
    flush(part);
    renameSync(part, toFile);
    progress(1);
  } catch (error) {
    throw storeErrorOf(error, source);
  } finally {
    rmSync(part, { force: true });
  }
}

/**
 * Puts a backup in the place of the record of a folder. The backup is checked first; what it replaces is kept.
 * @returns the folder in which the replaced record lies, or null where there was none.
 * @throws StoreError when the backup is damaged or no record of ours, or a server has the folder open.
 */
export function restoreRecord(folder: string, fromFile: string, now: Date): string | null {
  if (!statSync(fromFile, { throwIfNoEntry: false })?.isFile()) {
    throw new StoreError(`There is no file ${fromFile}.`, {
      file: fromFile,
      expected: 'a backup that Pullbook made',
    });
  }
  checkBackup(fromFile);
  mkdirSync(folder, { recursive: true });
  const unlock = lockFolder(folder);
  try {
    const target = databaseFile(folder);
    const incoming = join(folder, INCOMING);
    copyFileSync(fromFile, incoming);
    flush(incoming);
    const aside = setAside(folder, target, now);
    renameSync(incoming, target);
    flush(folder);
    return aside;
  } finally {
    unlock();
  }
}

/** As checkDatabase, but of a damaged backup there is nothing to restore: another one is wanted. */
function checkBackup(file: string): void {
  try {
    checkDatabase(file);
  } catch (error) {
    if (!(error instanceof StoreError && error.place.expected === WHOLE_DATABASE)) throw error;
    throw new StoreError(
      `${file} is damaged or no backup that Pullbook made; the record was left as it is. Name another backup.`,
      { ...error.place, expected: 'a backup that Pullbook made' },
      error,
    );
  }
}

/** Moves the standing database with its journal into a folder of its own. */
function setAside(folder: string, target: string, now: Date): string | null {
  if (!existsSync(target)) return null;
  const stamp = now.toISOString().replace(/[:.]/g, '-');
  const aside = join(folder, `replaced-${stamp}`);
  mkdirSync(aside);
  for (const end of ['-wal', '-shm', '']) {
    if (existsSync(target + end)) renameSync(target + end, join(aside, `pullbook.sqlite${end}`));
  }
  flush(aside);
  return aside;
}

/** The name of a renamed file is only safe once its folder has reached the disk. */
function flush(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } catch (error) {
    // Some systems do not flush folders; the files themselves always are.
    if ((error as NodeJS.ErrnoException).code !== 'EPERM') throw error;
  } finally {
    closeSync(handle);
  }
}

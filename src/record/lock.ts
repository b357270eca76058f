/**
 * One Pullbook a folder. The lock is a lock of the operating system on a file of its own, so that it ends
 * with the process however that ends, and a backup can still read the database beside it.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { StoreError } from '../errors.ts';
import { openDatabase } from './engine.ts';
import { InUseError } from './errors.ts';

/** Takes the folder for this process; the returned function gives it back. @throws StoreError when another has it. */
export function lockFolder(folder: string): () => void {
  const holderFile = join(folder, 'pullbook.holder');
  const lock = openDatabase(join(folder, 'pullbook.lock'), { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock.close();
    if ((error as { code?: string }).code !== 'SQLITE_BUSY') {
      throw new StoreError(
        `The folder ${folder} cannot be locked; check that its disk takes locks and that you may write there.`,
        { file: folder },
        error,
      );
    }
    throw new InUseError(
      `Another Pullbook${holderWords(holderFile)} has the folder ${folder} open; use that one, or stop it first.`,
      { file: folder, expected: 'a folder that no other Pullbook has open' },
    );
  }
  writeFileSync(holderFile, `process ${process.pid}\n`);
  return () => lock.close();
}

function holderWords(holderFile: string): string {
  try {
    return ` (${readFileSync(holderFile, 'utf8').trim()})`;
  } catch {
    return '';
  }
}

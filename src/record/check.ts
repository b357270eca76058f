/** Whether a file is a whole database of ours. */
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { StoreError } from '../errors.ts';
import { openDatabase } from './engine.ts';
import { appliedMigrations, refuseStrangeHistory } from './migrate.ts';
import { damaged, storeErrorOf } from './store.ts';

export const databaseFile = (folder: string) => join(folder, 'pullbook.sqlite');
/** A backup on its way in; left behind only where a restore was interrupted. */
export const INCOMING = 'pullbook.sqlite.incoming';

/** @throws StoreError when damaged, another program's, or from a history we do not know. */
export function checkDatabase(file: string): void {
  let db: Database.Database | null = null;
  try {
    db = openDatabase(file, { readonly: true, fileMustExist: true });
    checkOpen(db, file);
    const applied = appliedMigrations(db, file);
    if (applied.length === 0) {
      throw new StoreError(`${file} is empty; it is no record of Pullbook.`, { file });
    }
    refuseStrangeHistory(applied, file);
  } catch (error) {
    throw storeErrorOf(error, file);
  } finally {
    db?.close();
  }
}

/** Pages, indices and references of an open database. @throws StoreError naming the file and what to do. */
export function checkOpen(db: Database.Database, file: string): void {
  let found: unknown;
  try {
    found = db.pragma('quick_check(1)', { simple: true });
  } catch (error) {
    throw damaged(file, error);
  }
  if (found !== 'ok') throw damaged(file, undefined, String(found));
  const [dangling] = db.pragma('foreign_key_check') as { table: string; parent: string }[];
  if (dangling !== undefined) {
    throw damaged(file, undefined, `a ${dangling.table} without its ${dangling.parent}`);
  }
}

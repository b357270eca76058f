/** Brings a database forward, one migration a transaction, each together with its row of bookkeeping. */
import type Database from 'better-sqlite3';
import { StoreError } from '../errors.ts';
import { MIGRATIONS, type Migration } from './migrations/index.ts';

/** Marks the file as one of ours: "Pull" in ASCII. */
const APPLICATION_ID = 0x50756c6c;

/** Names of the applied migrations, in order; empty for a new file. @throws StoreError when the file is another program's. */
export function appliedMigrations(db: Database.Database, file: string): readonly string[] {
  const tables = db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  if (tables.length === 0) return [];
  if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID) {
    throw new StoreError(
      `${file} is a database of another program; move it away or choose another folder.`,
      { file, expected: 'a database that Pullbook made' },
    );
  }
  return db.prepare('SELECT name FROM migration ORDER BY position').pluck().all() as string[];
}

/**
 * Applies what is missing. Returns how many were applied.
 * @throws StoreError when the history is not the beginning of ours: newer, or unknown. Nothing is changed then.
 */
export function migrate(
  db: Database.Database,
  file: string,
  nowIso: string,
  migrations: readonly Migration[] = MIGRATIONS,
): number {
  const applied = appliedMigrations(db, file);
  refuseStrangeHistory(applied, file, migrations);
  const missing = migrations.slice(applied.length);
  missing.forEach((migration, index) => {
    db.transaction(() => {
      if (applied.length + index === 0) {
        db.pragma(`application_id = ${APPLICATION_ID}`);
        db.exec(
          'CREATE TABLE migration (position INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at TEXT NOT NULL) STRICT',
        );
      }
      db.exec(migration.sql);
      db.prepare('INSERT INTO migration VALUES (?, ?, ?)').run(
        applied.length + index + 1,
        migration.name,
        nowIso,
      );
    }).immediate();
  });
  return missing.length;
}

/** @throws StoreError where the applied migrations are not the beginning of ours. */
export function refuseStrangeHistory(
  applied: readonly string[],
  file: string,
  migrations: readonly Migration[] = MIGRATIONS,
): void {
  const strange = applied.findIndex((name, index) => migrations[index]?.name !== name);
  if (strange === -1) return;
  const known = migrations.map((migration) => migration.name);
  const newer = strange === known.length;
  throw new StoreError(
    newer
      ? `${file} was written by a newer Pullbook; start that version or a later one. Nothing was changed.`
      : `${file} has a history that this Pullbook does not know; open it with the Pullbook that made it, or restore a backup. Nothing was changed.`,
    {
      file,
      found: `migration ${applied[strange]}`,
      expected: newer ? `none after ${known.at(-1)}` : `migration ${known[strange]}`,
    },
  );
}

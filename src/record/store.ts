/** The two connections of one open record, and the one place where SQLite's own errors become sentences. */
import type Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { InputError, PullbookError, StoreError } from '../errors.ts';
import type { Row } from './codec.ts';
import { openDatabase } from './engine.ts';

export type Tables = Record<string, Row>;
export type Store = Kysely<Tables>;

export interface Connections {
  readonly file: string;
  /** One writer: whoever writes waits for the transaction before it. */
  readonly writing: Store;
  /** Readers do not wait for a long import. */
  readonly reading: Store;
  /** The clock of the record. */
  now(): Date;
  newId(kind: string): string;
}

export const kyselyOver = (database: Database.Database): Store =>
  new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });

/** Opens a file as the record wants it: nothing acknowledged before it is on the disk. */
export function openConnection(file: string, options: { readonly?: boolean } = {}) {
  const db = openDatabase(file, { readonly: options.readonly ?? false, timeout: 5000 });
  if (!db.readonly) {
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
  }
  db.pragma('foreign_keys = ON');
  return db;
}

/** What SQLite throws, as an error of ours with what to do; errors of ours pass. */
export function storeErrorOf(error: unknown, file: string): unknown {
  if (error instanceof PullbookError) return error;
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string' || !code.startsWith('SQLITE_')) return error;
  if (code.startsWith('SQLITE_CONSTRAINT')) {
    return new InputError(
      'The record refuses this change: a value is missing, of the wrong kind, or names something that is not there.',
      { found: (error as Error).message },
      error,
    );
  }
  if (code === 'SQLITE_FULL') {
    return new StoreError(
      'The disk is full; nothing of this change was stored. Make room and try again.',
      { file },
      error,
    );
  }
  if (code === 'SQLITE_CORRUPT' || code === 'SQLITE_NOTADB') return damaged(file, error);
  return new StoreError(
    `The database could not be read or written (${code}); nothing of this change was stored.`,
    { file },
    error,
  );
}

/** What a damaged file is not. */
export const WHOLE_DATABASE = 'a whole SQLite database';

export function damaged(file: string, cause: unknown, found?: string): StoreError {
  return new StoreError(
    `The database ${file} is damaged; restore your newest backup with \`pullbook restore FILE\`, which keeps the damaged one aside.`,
    {
      file,
      found: found ?? (cause instanceof Error ? cause.message : String(cause)),
      expected: WHOLE_DATABASE,
    },
    cause,
  );
}

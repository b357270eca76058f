/**
 * The one door to the database engine. It is one package in two lines: 12 for Node 20, whose native interface
 * ends at version 9; 13 for every later Node. Line 12 would abort Node 24.19 and later at the first statement
 * collected (their header of native classes unhooks each object on deletion, which needs a context that a
 * collection has not), and line 13 ends Node 20 with a fault. npm chooses by each line's own `engines`, but
 * a folder installed by one Node may be run by another, and neither end leaves a word: so it is looked at here.
 */
import { createRequire } from 'node:module';
import Database from 'better-sqlite3';
import { StoreError } from '../errors.ts';

const require = createRequire(import.meta.url);

/**
 * Opens a database file.
 * @throws StoreError where the engine is not the one for this Node. @throws SqliteError where the file is the trouble.
 */
export function openDatabase(file: string, options: Database.Options = {}): Database.Database {
  const { version } = require('better-sqlite3/package.json') as { version: string };
  if (!engineRuns(version, process.versions)) throw notForThisNode();
  try {
    return new Database(file, options);
  } catch (error) {
    const { code, tries } = error as { code?: unknown; tries?: unknown };
    const notFound = code === 'MODULE_NOT_FOUND' || tries !== undefined;
    throw notFound || code === 'ERR_DLOPEN_FAILED' ? notForThisNode(error) : error;
  }
}

/** Whether a version of the engine runs on a Node of this version and native interface. */
export function engineRuns(engine: string, on: { node: string; napi?: string | undefined }) {
  const line = Number.parseInt(engine, 10);
  return line >= 13 ? Number(on.napi) >= 10 : Number.parseInt(on.node, 10) < 24;
}

function notForThisNode(cause?: unknown): StoreError {
  return new StoreError(
    `The database engine (better-sqlite3) was not installed for Node ${process.versions.node}; install Pullbook again with this Node (in a clone of its sources: npm start).`,
    {},
    cause,
  );
}

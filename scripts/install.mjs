/** Installs what a fresh clone lacks: the packages, and the native part of the database where it does not load. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { nodeTrouble } from '../bin/node.mjs';

export const root = resolve(import.meta.dirname, '..');
const lockFile = join(root, 'package-lock.json');
/** npm writes this one whenever it has installed what the lock file asks for. */
const installedLock = join(root, 'node_modules', '.package-lock.json');

/** Runs a command with its output on the terminal; throws a sentence when it fails. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
    ...options,
  });
  if (result.error) throw new Error(`${command} could not be started: ${result.error.message}`);
  if (result.status !== 0)
    throw new Error(`${command} ${args.join(' ')} ended with ${result.status}`);
}

function packagesAreCurrent() {
  return existsSync(installedLock) && statSync(installedLock).mtimeMs >= statSync(lockFile).mtimeMs;
}

/**
 * The version of the database engine for this Node; `src/record/engine.ts` says why there are two lines of it.
 * The lock file holds 12.11.1, which Node 20 compiles; 13 brings its native part with it.
 */
const ENGINE = Number(process.versions.napi) >= 10 ? '13.2.0' : '12.11.1';
const QUIET = ['--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];

function engineIsForThisNode() {
  const file = join(root, 'node_modules', 'better-sqlite3', 'package.json');
  if (!existsSync(file)) return false;
  const { version } = JSON.parse(readFileSync(file, 'utf8'));
  return Number.parseInt(version, 10) === Number.parseInt(ENGINE, 10);
}

/** Packages only, their install scripts left for `ensureInstalled`. */
export function ensurePackages() {
  const trouble = nodeTrouble();
  if (trouble !== null) throw new Error(trouble);
  const npm = (...args) =>
    run('npm', [...args, ...QUIET], { stdio: ['ignore', 'ignore', 'inherit'] });
  if (!packagesAreCurrent()) {
    process.stderr.write('installing packages …\n');
    npm('ci');
  }
  if (!engineIsForThisNode()) npm('install', '--no-save', `better-sqlite3@${ENGINE}`);
}

export function nativeWorks() {
  const probe = "new (require('better-sqlite3'))(':memory:').close()";
  return spawnSync(process.execPath, ['-e', probe], { cwd: root, stdio: 'ignore' }).status === 0;
}

/** The database's native part: fetched ready-made where that is possible, compiled otherwise. */
export const nativeCommand = ['npm', ['rebuild', 'better-sqlite3']];

/** The same code compiled in less than half the time, for a check that throws its engine away. */
export const QUICK_COMPILE = { CFLAGS: '-O1', CXXFLAGS: '-O1' };

export async function ensureInstalled() {
  ensurePackages();
  if (nativeWorks()) return;
  process.stderr.write(
    'preparing the database engine (a minute or two where it must be compiled) …\n',
  );
  run(nativeCommand[0], nativeCommand[1], { stdio: ['ignore', 'ignore', 'inherit'] });
  if (!nativeWorks()) {
    throw new Error(
      'The database engine (better-sqlite3) does not load. Install a C++ compiler, make and Python, then try again.',
    );
  }
}

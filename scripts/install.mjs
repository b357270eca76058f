/** Installs what a fresh clone lacks: the packages, and the native part of the database where it does not load. */
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';

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

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new Error(
      `Node ${process.versions.node} is too old; Pullbook needs Node 20.19 or later.`,
    );
  }
}

/** Packages only, their install scripts left for `ensureNative`. */
export function ensurePackages() {
  checkNode();
  if (packagesAreCurrent()) return;
  process.stderr.write('installing packages …\n');
  run('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}

export function nativeWorks() {
  const probe = "new (require('better-sqlite3'))(':memory:').close()";
  return spawnSync(process.execPath, ['-e', probe], { cwd: root, stdio: 'ignore' }).status === 0;
}

/** The database's native part: fetched ready-made where that is possible, compiled otherwise. */
export const nativeCommand = ['npm', ['rebuild', 'better-sqlite3']];

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

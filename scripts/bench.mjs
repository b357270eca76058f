/** Runs every bench/*.bench.ts and prints one table; each row is a ratio against a named peer in this run. */
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { ensureInstalled } from './install.mjs';

await ensureInstalled();
const root = resolve(import.meta.dirname, '..');
const result = spawnSync(
  process.execPath,
  ['--expose-gc', '--import', 'tsx', 'bench/run.ts', ...process.argv.slice(2)],
  {
    cwd: root,
    stdio: 'inherit',
  },
);
process.exit(result.status ?? 1);

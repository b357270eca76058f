/** `npm start`: install what is missing, build what is stale, then serve. Options go on to `pullbook serve`. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { build, isStale } from './build.mjs';
import { ensureInstalled, root } from './install.mjs';

try {
  await ensureInstalled();
  if (isStale()) {
    process.stderr.write('building …\n');
    await build();
  }
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}

const child = spawn(
  process.execPath,
  [join(root, 'dist', 'cli.js'), 'serve', '--open', ...process.argv.slice(2)],
  {
    stdio: 'inherit',
  },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
child.on('exit', (code, signal) => process.exit(code ?? (signal === 'SIGINT' ? 130 : 1)));

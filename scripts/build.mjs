/** Builds dist/: the browser's side by Vite, the command by esbuild with its packages left outside. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages, root } from './install.mjs';

const SOURCES = ['src', 'web', 'demo', 'package-lock.json', 'vite.config.ts', 'scripts'];
const OUTPUTS = [join('dist', 'cli.js'), join('dist', 'web', 'index.html')];

function newestMs(path) {
  if (!existsSync(path)) return 0;
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce(
    (newest, name) => Math.max(newest, newestMs(join(path, name))),
    0,
  );
}

/** True when something that goes into dist/ is newer than dist/. */
export function isStale() {
  const built = OUTPUTS.map((path) => newestMs(join(root, path)));
  const source = Math.max(...SOURCES.map((path) => newestMs(join(root, path))));
  return built.some((time) => time < source);
}

export async function build() {
  ensurePackages();
  const { build: bundle } = await import('esbuild');
  await bundle({
    absWorkingDir: root,
    // The demo lies beside the command, loaded on the first run only.
    entryPoints: { cli: 'src/cli/main.ts', demo: 'demo/load.ts' },
    outdir: 'dist',
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    sourcemap: true,
    logLevel: 'warning',
  });
  // The report's pictures: what draws them without a browser, and what gives them a cursor in a page of their own.
  const drawn = {
    absWorkingDir: root,
    bundle: true,
    jsx: 'automatic',
    minify: true,
    logLevel: 'warning',
  };
  const define = { 'process.env.NODE_ENV': '"production"' };
  await bundle({
    ...drawn,
    define,
    entryPoints: { figures: 'web/print/figures.tsx' },
    outdir: 'dist',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
  });
  await bundle({
    ...drawn,
    define,
    entryPoints: { page: 'web/print/page.tsx' },
    outdir: 'dist',
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    charset: 'ascii',
  });
  const { build: buildWeb } = await import('vite');
  await buildWeb({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build();

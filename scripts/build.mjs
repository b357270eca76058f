/** Builds dist/: the browser's side by Vite, the command by esbuild. */
import { existsSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages, root } from './install.mjs';

const SOURCES = ['src', 'web', 'demo', 'package-lock.json', 'vite.config.ts', 'scripts'];
const OUTPUTS = [join('dist', 'cli.js'), join('dist', 'web', 'index.html')];

/**
 * Packages that stay where npm put them: those with machine code or files of their own beside their code, those written
 * for `require`, and those that few commands load. The others go into dist/, since loading their hundreds of files
 * costs each command more than running them does.
 */
const OUTSIDE = [
  '@expo-google-fonts/inter',
  '@hono/node-server',
  '@myriaddreamin/typst-ts-node-compiler',
  '@resvg/resvg-js',
  'better-sqlite3',
  'commander',
  'dejavu-fonts-ttf',
  'file-type',
  'hyparquet',
  'hyparquet-compressors',
  'hyparquet-writer',
  'open',
  'read-excel-file',
];
/** Parts of the command: named by what is in them, so that those of the last build would stay for ever. */
const PART = /^part-.*\.js(\.map)?$/;

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
  const dist = join(root, 'dist');
  if (existsSync(dist))
    for (const name of readdirSync(dist)) if (PART.test(name)) rmSync(join(dist, name));
  await bundle({
    absWorkingDir: root,
    // The demo lies beside the command, loaded on the first run only.
    entryPoints: { cli: 'src/cli/main.ts', demo: 'demo/load.ts' },
    outdir: 'dist',
    bundle: true,
    // Each command loads only its own part; all beside cli.js, from where they find figures.js and the like.
    splitting: true,
    chunkNames: 'part-[hash]',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    external: OUTSIDE,
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

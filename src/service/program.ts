/** Which program exactly this is: two that carry one version number may still set the same words otherwise. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

/** What computes, draws and prints; beside each other where they are built. The command names its parts by their contents. */
const BUILT = ['cli.js', 'figures.js', 'page.js'];
/** Packages whose version shows in the bytes of what is made. */
const PACKAGES = [
  '@myriaddreamin/typst-ts-node-compiler',
  '@expo-google-fonts/inter',
  'dejavu-fonts-ttf',
  'fflate',
  'hyparquet-writer',
];

let build: string | null = null;

/** `0.1.0+3f2a91c07b44`: the version, and the start of the SHA-256 of what was built; `+source` where nothing is built. */
export function programOf(version: string): string {
  build ??= buildBeside(import.meta.dirname);
  return `${version}+${build}`;
}

function buildBeside(folder: string): string {
  const files = BUILT.map((name) => join(folder, name));
  if (!files.every((file) => existsSync(file))) return 'source';
  const digest = createHash('sha256');
  for (const file of files) digest.update(readFileSync(file));
  const { resolve } = createRequire(import.meta.url);
  for (const name of PACKAGES) digest.update(readFileSync(packageFile(name, resolve)));
  return digest.digest('hex').slice(0, 12);
}

/** Not every package lets its description be asked for by name. */
function packageFile(name: string, resolve: NodeJS.RequireResolve): string {
  for (const folder of resolve.paths(name) ?? []) {
    const file = join(folder, name, 'package.json');
    if (existsSync(file)) return file;
  }
  throw new Error(`${name} is not installed`);
}

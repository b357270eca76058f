#!/usr/bin/env node
// The command: the built one where there is one, else straight from the sources.
import { existsSync } from 'node:fs';
import { nodeTrouble } from './node.mjs';

const trouble = nodeTrouble();
const built = new URL('../dist/cli.js', import.meta.url);
if (trouble !== null) {
  process.stderr.write(`${trouble}\n`);
  process.exitCode = 1;
} else if (existsSync(built)) {
  await import(built.href);
} else {
  const { register } = await import('tsx/esm/api');
  register();
  await import(new URL('../src/cli/main.ts', import.meta.url).href);
}

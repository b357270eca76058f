import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The order in which imports may run: a room may import the rooms before it. */
const ROOMS = [
  'numerics',
  'units',
  'trade',
  'pull',
  'ladder',
  'compare',
  'build',
  'intake',
  'record',
  'report',
  'service',
  'cli',
] as const;
const COMPUTING = new Set(['numerics', 'units', 'trade', 'pull', 'ladder', 'compare', 'build']);
const root = resolve(import.meta.dirname, '..');
const importPattern = /(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g;

function sourceFiles(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return sourceFiles(path);
    return /\.tsx?$/.test(name) ? [path] : [];
  });
}

function importsOf(file: string): string[] {
  return [...readFileSync(file, 'utf8').matchAll(importPattern)].map((match) => match[1]!);
}

/** `src/pull/curve.ts` → `pull`; `web/app.tsx` → `web`; `src/errors.ts` → ``. */
function roomOf(file: string): string {
  const parts = relative(root, file).split(sep);
  if (parts[0] !== 'src') return parts[0]!;
  return parts.length > 2 ? parts[1]! : '';
}

const isTest = (file: string) => /\.test\.tsx?$/.test(file);

describe('the arrows between the rooms', () => {
  const files = sourceFiles(join(root, 'src')).filter((file) => !isTest(file));

  it('finds every room with its README', () => {
    for (const room of ROOMS) {
      const lines = readFileSync(join(root, 'src', room, 'README.md'), 'utf8')
        .trim()
        .split('\n');
      expect(lines.length, `src/${room}/README.md`).toBeGreaterThan(1);
    }
  });

  it('runs only downwards', () => {
    const upward: string[] = [];
    for (const file of files) {
      const from = ROOMS.indexOf(roomOf(file) as (typeof ROOMS)[number]);
      for (const target of importsOf(file).filter((name) => name.startsWith('.'))) {
        const room = roomOf(resolve(file, '..', target));
        const to = room === '' ? -1 : ROOMS.indexOf(room as (typeof ROOMS)[number]);
        const outside = room !== '' && to === -1;
        if (outside || (from !== -1 && to > from))
          upward.push(`${relative(root, file)} → ${target}`);
      }
    }
    expect(upward).toEqual([]);
  });

  it('keeps the browser out of record, service, intake, report and cli', () => {
    const allowed = new Set(['', 'web', ...COMPUTING]);
    const crossing = sourceFiles(join(root, 'web'))
      .filter((file) => !isTest(file))
      .flatMap((file) =>
        importsOf(file)
          .filter((name) => name.startsWith('.'))
          .filter((name) => !allowed.has(roomOf(resolve(file, '..', name))))
          .map((name) => `${relative(root, file)} → ${name}`),
      );
    expect(crossing).toEqual([]);
  });

  it('keeps input, output, clock and chance out of the computing rooms', () => {
    const impure = /from ['"]node:|Date\.now|new Date\(\)|Math\.random|better-sqlite3|process\./;
    const guilty = files
      .filter((file) => COMPUTING.has(roomOf(file)))
      .filter((file) => impure.test(readFileSync(file, 'utf8')))
      .map((file) => relative(root, file));
    expect(guilty).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../src/cli/program.ts';
import { testFolder } from '../src/cli/testFiles.ts';
import { testIo } from '../src/cli/testIo.ts';
import { readUse, readVehicle } from '../src/compare/index.ts';

/** What the documents tell people to type must be something that the command knows. */
const root = resolve(import.meta.dirname, '..');
const folder = testFolder();
afterAll(() => folder.remove());

function examplesIn(file: string): string[][] {
  const text = readFileSync(join(root, file), 'utf8');
  const blocks = [...text.matchAll(/```(?:sh)?\n([\s\S]*?)```/g)].map((match) => match[1]!);
  const inline = [...text.matchAll(/`(?:npx )?(pullbook [a-z]+ [^`]*)`/g)].map(
    (match) => match[1]!,
  );
  return [...blocks.flatMap((block) => block.split('\n')), ...inline]
    .filter((line) =>
      /^pullbook (look|curve|ladder|compare|parttest|use|sheet|handover|replay|verify|import|backup|restore) /.test(
        line,
      ),
    )
    .map((line) =>
      [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((word) => word[1] ?? word[2]!).slice(1),
    );
}

describe.each([
  'README.md',
  'docs/command.md',
  'docs/session.md',
  'docs/sheet.md',
  'docs/use.md',
  'docs/compare.md',
  'docs/handover.md',
])('commands in %s', (file) => {
  it('are found there', () => {
    expect(examplesIn(file).length).toBeGreaterThan(0);
  });

  it.each(examplesIn(file))('pullbook %s … is known', async (...args) => {
    const { io, err } = testIo(folder.folder, { PULLBOOK_HOME: join(folder.folder, 'home') });
    // The files named are mostly not there, which is a refusal and no wrong usage.
    expect(await run(args, io), err()).not.toBe(2);
  });
});

const blocksIn = (file: string, kind: string) =>
  [
    ...readFileSync(join(root, file), 'utf8').matchAll(
      new RegExp(`\`\`\`${kind}\\n([\\s\\S]*?)\`\`\``, 'g'),
    ),
  ].map((match) => match[1]!);

describe('examples in docs/sheet.md', () => {
  it('are a build file that is read, and an answer with the keys of a real one', async () => {
    const [build, answer] = blocksIn('docs/sheet.md', 'json');
    folder.add('build.json', build!);
    const { io, objects, err } = testIo(folder.folder);
    expect(await run(['sheet', '--json', 'build.json'], io), err()).toBe(0);
    const real = objects()[0] as Record<string, unknown[]>;
    const shown = JSON.parse(answer!) as typeof real;
    expect(Object.keys(shown)).toEqual(Object.keys(real));
    for (const list of ['figures', 'checks', 'measureNext'])
      expect(Object.keys(shown[list]![0] as object).sort()).toEqual(
        Object.keys(real[list]![0] as object).sort(),
      );
  });

  it('are tables that are read, together and the first alone', async () => {
    const tables = blocksIn('docs/sheet.md', 'csv');
    expect(tables).toHaveLength(3);
    folder.add('first.csv', tables[0]!);
    folder.add('all.csv', tables.join('\n'));
    const { io, err } = testIo(folder.folder);
    expect(await run(['sheet', '--json', 'first.csv', 'all.csv'], io), err()).toBe(0);
  });
});

describe('examples in docs/use.md', () => {
  it('are a use and a vehicle that are read whole', () => {
    const [use, vehicle] = blocksIn('docs/use.md', 'json').map((text) => JSON.parse(text));
    expect(readUse(use)).toHaveProperty('value');
    const read = readVehicle(vehicle);
    expect('problems' in read ? read.problems : read.value.assumed).toEqual([]);
  });
});

describe('JSON in docs/command.md', () => {
  it('is JSON', () => {
    const text = readFileSync(join(root, 'docs/command.md'), 'utf8');
    const blocks = [...text.matchAll(/```json\n([\s\S]*?)```/g)].map((match) => match[1]!);
    expect(blocks.length).toBeGreaterThan(3);
    for (const block of blocks) expect(() => JSON.parse(block), block).not.toThrow();
  });
});

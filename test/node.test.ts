import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..');
// A variable, because the file is plain JavaScript without types: an old Node must be able to read it.
const script: string = '../bin/node.mjs';
const { nodeTrouble } = (await import(script)) as {
  nodeTrouble: (version?: string) => string | null;
};

describe('a Node', () => {
  it.each(['20.19.0', '20.20.2', '22.14.0', '22.23.3', '24.0.0', '24.21.0', '26.1.0'])(
    '%s runs Pullbook',
    (version) => {
      expect(nodeTrouble(version)).toBeNull();
    },
  );

  it.each(['18.20.8', '20.18.3', '21.7.3', '22.13.1', '23.11.1'])('%s is told so', (version) => {
    expect(nodeTrouble(version)).toBe(
      `Node ${version} cannot run Pullbook; install Node 20.19 or later, 22.14 or later, or 24 or later.`,
    );
  });

  it('that runs these tests is one of those', () => {
    expect(nodeTrouble()).toBeNull();
  });

  it('is asked of npm in the same words', () => {
    const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(engines).toEqual({ node: '^20.19.0 || ^22.14.0 || >=24.0.0' });
  });
});

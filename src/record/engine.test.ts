import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { engineRuns } from './engine.ts';

describe('the database engine', () => {
  it('lives through the collection of statements and databases that are no longer used', () => {
    const script = `
      const Database = require('better-sqlite3');
      const kept = new Database(':memory:');
      for (let n = 0; n < 2000; n += 1) kept.prepare('SELECT ' + n).get();
      for (let n = 0; n < 20; n += 1) new Database(':memory:').close();
      gc();
      // Once more from the event loop, where no script stands above the collection.
      setImmediate(() => {
        gc();
        process.stdout.write('alive');
      });`;
    const child = spawnSync(process.execPath, ['--expose-gc', '-e', script], {
      cwd: import.meta.dirname,
      encoding: 'utf8',
    });
    expect(child.stderr).toBe('');
    expect(child).toMatchObject({ stdout: 'alive', status: 0 });
  });

  // Node-API of a Node: its release notes. What each line does elsewhere was tried by hand on 20.20, 22.23 and 24.21.
  it.each([
    ['12.11.1', '20.20.2', '9', true],
    ['13.2.0', '20.20.2', '9', false],
    ['12.11.1', '22.23.3', '10', true],
    ['13.2.0', '22.23.3', '10', true],
    ['12.11.1', '24.21.0', '10', false],
    ['13.2.0', '24.21.0', '10', true],
    ['13.2.0', '22.13.1', '9', false],
  ])('of version %s on Node %s, Node-API %s: %s', (engine, node, napi, runs) => {
    expect(engineRuns(engine, { node, napi })).toBe(runs);
  });
});

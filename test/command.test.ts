import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { speedTable, TYPED_PEAKS } from '../src/cli/testFiles.ts';

/** The command as a process of its own: exit codes, and what goes to which stream. */
const root = resolve(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'pullbook-command-'));
writeFileSync(join(folder, 'a.csv'), speedTable());
writeFileSync(join(folder, 'peaks.json'), TYPED_PEAKS);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function pullbook(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', 'tsx', join(root, 'src', 'cli', 'main.ts'), ...args],
    {
      encoding: 'utf8',
      // tsx is found from the checkout; the command itself is given whole paths.
      cwd: root,
      env: { ...process.env, PULLBOOK_HOME: join(folder, 'home') },
    },
  );
  return { status, stdout, stderr };
}
const at = (name: string) => join(folder, name);

describe('the command as a process', () => {
  it('ends with 0 when all is done, JSON on standard output alone', () => {
    const { status, stdout } = pullbook('ladder', '--json', at('peaks.json'), at('peaks.json'));
    expect(status).toBe(0);
    expect(
      stdout
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line).setting),
    ).toEqual(['lead', 'lead']);
  });

  it('ends with 1 when one input is refused, the others answered, progress on standard error', () => {
    const { status, stdout, stderr } = pullbook('look', '--json', at('gone.csv'), at('a.csv'));
    expect(status).toBe(1);
    expect(
      stdout
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line).ok),
    ).toEqual([false, true]);
    expect(stderr).toMatch(/a\.csv \(2 of 2\)/);
  });

  it('ends with 2 on wrong usage, nothing on standard output', () => {
    const { status, stdout, stderr } = pullbook('curve', '--wrong', at('a.csv'));
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/unknown option/);
  });

  it('refuses to back up a record that is not there', () => {
    const { status, stderr } = pullbook('backup', at('copy.sqlite'));
    expect(status).toBe(1);
    expect(stderr).toMatch(/nothing to back up/);
  });
});

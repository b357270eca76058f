import { describe, expect, it } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { run } from './program.ts';
import { testIo } from './testIo.ts';

async function called(...args: string[]) {
  const test = testIo(process.cwd());
  return { code: await run(args, test.io), out: test.out(), err: test.err() };
}

describe('the command itself', () => {
  it('says its version', async () => {
    expect(await called('--version')).toEqual({
      code: 0,
      out: `${packageJson.version}\n`,
      err: '',
    });
  });

  it('helps with examples, and for each command', async () => {
    const { code, out } = await called('--help');
    expect(code).toBe(0);
    expect(out).toContain('pullbook ladder day-a/session.json');
    for (const name of [
      'look',
      'curve',
      'ladder',
      'sheet',
      'import',
      'backup',
      'restore',
      'serve',
    ]) {
      expect(out).toContain(`  ${name} `);
      const help = await called(name, '--help');
      expect(help.code).toBe(0);
      expect(help.out).toContain(`pullbook ${name}`);
    }
  });

  it.each([
    [['nonsense']],
    [[]],
    [['look']],
    [['look', 'x.csv', '--wrong']],
    [['curve', '--standard', 'SAE J9999', 'x.csv']],
    [['ladder', '--units', 'cubits', 'x.json']],
  ])('answers wrong usage %j with exit code 2 and says so on standard error only', async (args) => {
    const { code, out, err } = await called(...args);
    expect(code).toBe(2);
    expect(err).not.toBe('');
    expect(out).toBe('');
  });
});

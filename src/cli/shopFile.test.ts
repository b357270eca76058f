import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { openRecord } from '../record/index.ts';
import { oneDay } from '../record/testing.ts';
import { run } from './program.ts';
import { testIo } from './testIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'pullbook-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('takes one engine from shop to shop by the command', async () => {
  const record = await openRecord(join(folder, 'here'));
  await oneDay(record);
  await record.engines.create({ name: 'Stays' });
  await record.close();
  const called = async (...args: string[]) => {
    const at = testIo(folder);
    return { code: await run(args, at.io), out: at.out(), err: at.err() };
  };
  const out = await called('export', 'one.zip', '--engine', 'engine', '--data', 'here');
  expect(out).toMatchObject({ code: 0, out: 'exported to one.zip\n' });
  expect(await called('export', 'one.zip', '--data', 'here')).toMatchObject({ code: 1 });
  expect((await called('export', 'x.zip', '--engine', 'no', '--data', 'here')).err).toMatch(
    /no engine/,
  );
  const look = await called('take', 'one.zip', '--look', '--data', 'there');
  expect(look.out).toMatch(/^1 engine, 1 build, 1 test day, 1 cell would come in/);
  expect((await called('take', 'one.zip', '--data', 'there')).out).toMatch(/came in/);
  expect((await called('take', 'one.zip', '--data', 'there')).out).toMatch(/already/);
  expect((await called('take', 'none.zip', '--data', 'there')).code).toBe(1);
  const there = await openRecord(join(folder, 'there'));
  expect((await there.engines.list()).map(({ name }) => name)).toEqual(['Engine']);
  await there.close();
});

import { afterAll, describe, expect, it } from 'vitest';
import { run } from './program.ts';
import { speedTable, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

const session = (pulls: readonly object[], more: object = {}) =>
  JSON.stringify({
    pullbook: 'session/1',
    engine: { name: 'engine under test', fuel: 'gasoline' },
    day: '2026-05-17',
    pulls,
    ...more,
  });
const folder = testFolder({
  'a1.csv': speedTable(),
  'a2.csv': speedTable(1.001),
  'b1.csv': speedTable(1.04),
  'b2.csv': speedTable(1.041),
});
const lead = '30 deg';
folder.add(
  'part.json',
  session([
    { file: 'a1.csv', lead, group: 'a' },
    { file: 'b1.csv', lead, group: 'b' },
    { file: 'b2.csv', lead, group: 'b' },
    { file: 'a2.csv', lead, group: 'a' },
  ]),
);
folder.add(
  'before.json',
  session([
    { file: 'a1.csv', lead },
    { file: 'a2.csv', lead: '32 deg' },
  ]),
);
folder.add('after.json', session([{ file: 'b1.csv', lead }], { day: '2026-05-18' }));
folder.add(
  'unknown.json',
  session([{ file: 'b1.csv', lead }], {
    cell: { torqueIs: { air: 'SAE 60F dry', inertia: 'in' } },
  }),
);
afterAll(() => folder.remove());

interface Answer {
  a: string;
  b: string;
  standard: string;
  band: {
    fromRpm: number;
    gainPercent: number;
    lowPercent: number;
    highPercent: number;
    word: string;
  };
  bySpeed: { gainPercent: number }[];
  finding: string;
  warnings: string[];
  pulls: { a: string[]; b: string[] };
}
async function answered(...args: string[]): Promise<Answer> {
  const { io, objects, err } = testIo(folder.folder);
  expect(await run(['compare', '--json', ...args], io), err()).toBe(0);
  return objects()[0] as unknown as Answer;
}

describe('pullbook compare', () => {
  it('compares the groups of a part test, its keys as published', async () => {
    const answer = await answered('part.json');
    expect(Object.keys(answer).slice(0, 8)).toEqual([
      'a',
      'b',
      'standard',
      'band',
      'bySpeed',
      'crossings',
      'peaks',
      'finding',
    ]);
    expect([answer.a, answer.b, answer.standard]).toEqual(['a', 'b', 'SAE J1349']);
    // 1.0405 / 1.0005 by construction.
    expect(answer.band.gainPercent).toBeCloseTo(4.0, 1);
    expect(answer.band.word).toBe('real');
    expect(answer.bySpeed[10]!.gainPercent).toBeCloseTo(4.0, 1);
    expect(answer.pulls).toEqual({ a: ['a1.csv', 'a2.csv'], b: ['b1.csv', 'b2.csv'] });
  });

  it('takes the setting that both sides have, and says so', async () => {
    const answer = await answered('before.json', 'after.json', '--band', '4000-6000');
    expect(answer.pulls).toEqual({ a: ['a1.csv'], b: ['b1.csv'] });
    expect(answer.finding).toContain('all at 30 degrees of lead');
    expect(answer.band.fromRpm).toBe(4000);
    expect(answer.warnings.join(' ')).toContain('32 degrees of lead for before.json');
    expect(answer.warnings.join(' ')).toContain('different days');
  });

  it('compares run files, each of a day of its own, with gain and loss changing places', async () => {
    const there = await answered('a1.csv', 'b1.csv');
    const back = await answered('b1.csv', 'a1.csv');
    expect(there.band.gainPercent).toBeCloseTo(4, 1);
    expect(back.band.gainPercent).toBeCloseTo(100 / 1.04 - 100, 1);
    expect(there.warnings.join(' ')).toContain('day of its own');
  });

  it('shows the finding first, in the units asked for', async () => {
    const { io, out } = testIo(folder.folder);
    expect(await run(['compare', 'part.json'], io)).toBe(0);
    expect(out()).toMatch(/^b gives 4\.0 % more mean power/);
    expect(out()).toMatch(/Peak power is \d+\.\d hp/);
    const metric = testIo(folder.folder);
    await run(['compare', 'part.json', '--units', 'metric'], metric.io);
    expect(metric.out()).toMatch(/Peak power is \d+\.\d kW/);
  });

  it('refuses with 1 what cannot be compared and with 2 what was typed wrongly', async () => {
    const code = async (...args: string[]) => {
      const { io, out, err } = testIo(folder.folder);
      return [await run(['compare', ...args], io), out() + err()] as const;
    };
    expect((await code('before.json'))[0]).toBe(1);
    expect((await code('a1.csv'))[0]).toBe(1);
    expect((await code('gone.csv', 'a1.csv'))[0]).toBe(1);
    const [refused, why] = await code('before.json', 'unknown.json');
    expect(refused).toBe(1);
    expect(why).toMatch(/[Ii]nertia is out of the torque/);
    expect((await code('part.json', '--band', '7000-4500'))[0]).toBe(2);
  });
});

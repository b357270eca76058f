import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openRecord } from '../record/index.ts';
import { openBundle } from '../report/index.ts';
import { sweep } from '../service/testingDays.ts';
import { run } from './program.ts';
import { addressOf, KINDS } from './shop.ts';
import { speedTable, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

const session = (engine: string, day: string, pulls: readonly object[]) =>
  JSON.stringify({
    pullbook: 'session/1',
    engine: { name: engine, fuel: 'gasoline' },
    cell: { inertia: '0.4 kg m^2' },
    day,
    pulls,
  });
const folder = testFolder({
  'a1.csv': speedTable(),
  'a2.csv': speedTable(1.02),
  'b1.csv': speedTable(1.05),
  'c1.csv': speedTable(0.95),
  'six.json': session('Six', '2026-05-17', [
    { file: 'a1.csv', lead: '28 deg' },
    { file: 'a2.csv', lead: '30 deg' },
  ]),
  'd1.csv': sweep(),
  'nine.json': session('Nine', '2026-05-19', [{ file: 'd1.csv', lead: '30 deg' }]),
  'eight.json': session('Eight', '2026-05-18', [{ file: 'b1.csv', lead: '30 deg' }]),
});
const home = join(folder.folder, 'home');
const called = async (...args: string[]) => {
  const test = testIo(folder.folder, { PULLBOOK_HOME: home });
  return { code: await run(args, test.io), ...test };
};
beforeAll(async () => {
  expect((await called('import', 'six.json', 'eight.json')).code).toBe(0);
});
afterAll(() => folder.remove());

describe('things of the shop at the command', () => {
  it('are compared by their plain names, with files among them', async () => {
    const { code, objects, err } = await called(
      'compare',
      '--json',
      'day:2026-05-17@28',
      'day:2026-05-17@30',
    );
    expect(code, err()).toBe(0);
    const [rungs] = objects();
    expect(Object.keys(rungs!).slice(0, 8)).toEqual([
      'a',
      'b',
      'standard',
      'band',
      'bySpeed',
      'crossings',
      'peaks',
      'finding',
    ]);
    expect([rungs!.a, rungs!.b]).toEqual(['28 degrees of lead', '30 degrees of lead']);
    // 1.02 / 1 by construction.
    expect((rungs!.band as { gainPercent: number }).gainPercent).toBeCloseTo(2, 1);

    const three = await called('compare', '--json', 'engine:six', 'Eight', 'c1.csv');
    const [, , ranked] = three.objects();
    expect(three.objects()).toHaveLength(3);
    expect((ranked!.ranking as { name: string }[]).map(({ name }) => name)).toEqual([
      'Eight',
      'Six',
      'c1.csv',
    ]);
    const shown = await called('compare', 'Six', 'Eight', 'c1.csv');
    expect(shown.out()).toMatch(/the strongest first:/);
    expect(shown.out()).toMatch(/of different engines/);
  });

  it('are named near to what was misspelled, and refused with what there is', async () => {
    const refused = async (...args: string[]) => {
      const { code, err } = await called('compare', ...args);
      expect(code).toBe(1);
      return err();
    };
    expect(await refused('engine:Eigth', 'Six')).toMatch(/did you mean "Eight"\?/);
    expect(await refused('engine:zzzzzz', 'Six')).toMatch(
      /There is no engine "zzzzzz".*Eight and Six/,
    );
    expect(await refused('day:2026-05-17@29', 'Six')).toMatch(/there are pulls at 28 and 30/);
    expect(await refused('build:first build', 'Six')).toMatch(
      /2 builds; say which: build:.*\/first build/,
    );
    expect(await refused('left:Six/first build', 'Six')).toMatch(/Nobody has decided yet/);
    expect((await called('compare', 'Six')).code).toBe(2);
    const gone = testIo(folder.folder, { PULLBOOK_HOME: join(folder.folder, 'nowhere') });
    expect(await run(['compare', 'Six', 'Eight'], gone.io)).toBe(1);
    expect(gone.err()).toMatch(/There is no shop in/);
  });

  it('are read from a copy while another Pullbook has the record open', async () => {
    const open = await openRecord(home);
    try {
      const { code, out } = await called('compare', 'build:Six/first build@30', 'Eight');
      expect(code).toBe(0);
      expect(out().replaceAll('\n', ' ')).toMatch(
        /Taken were 1 pull of first build at 30 degrees of lead and 1 pull of Eight at 30/,
      );
    } finally {
      await open.close();
    }
  });
});

describe('pullbook use', () => {
  it('takes things of the shop, and files among them, with the same refusals', async () => {
    const json = async (...args: string[]) => {
      const { code, objects, err } = await called('use', '--json', ...args);
      expect(code, err()).toBe(0);
      return objects()[0] as unknown as {
        builds: string[];
        uses: { pairs: { b: string; gainPercent: { value: number } }[] }[];
      };
    };
    const gain = async (...args: string[]) =>
      (await json('--use', 'circuit', ...args)).uses[0]!.pairs.map(({ b, gainPercent }) => [
        b,
        gainPercent.value,
      ]);
    // The tables differ by a factor, so every use gains as much: 1.02 / 1, and 1.05 / 1.02.
    const rungs = await gain('day:2026-05-17@28', 'day:2026-05-17@30');
    expect(rungs).toEqual([['30 degrees of lead', expect.closeTo(2, 1)]]);
    const [[name, value]] = (await gain('build:Six/first build@30', 'b1.csv')) as [
      [string, number],
    ];
    expect(name).toBe('b1.csv');
    expect(value).toBeCloseTo(100 * (1.05 / 1.02 - 1), 1);
    expect((await json('Six', '--use', 'circuit')).builds).toEqual(['Six']);
    const refused = await called('use', 'engine:Eigth', 'Six');
    expect(refused.code).toBe(1);
    expect(refused.err()).toMatch(/did you mean "Eight"\?/);
    expect((await called('use', 'day:2026-05-17@29')).err()).toMatch(
      /there are pulls at 28 and 30/,
    );
  });
});

describe('an address', () => {
  it('is read from any text, or is none, and keeps what was typed', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string().map((text) => `day:${text}`),
        ),
        (text) => {
          const address = addressOf(text);
          if (address === null) return;
          expect(KINDS).toContain(address.kind);
          expect(address.path.length).toBeGreaterThan(0);
          if (!/[/@\s]/.test(text)) expect(`${address.kind}:${address.path[0]}`).toBe(text);
        },
      ),
    );
    expect(addressOf('build:Six/Refresh 2026@28')).toEqual({
      kind: 'build',
      path: ['Six', 'Refresh 2026'],
      at: '28',
    });
    expect(addressOf('C:\\runs\\a.csv')).toBeNull();
  });
});

describe('pullbook parttest', () => {
  it('answers how many pulls of each, in which order, and when to stop', async () => {
    const planned = await called('parttest', '--gain', '1', '--json');
    const [plan] = planned.objects();
    expect(plan).toMatchObject({
      gainPercent: 1,
      repeatabilityPercent: 0.4,
      action: 'go on',
      next: 'a',
    });
    expect(plan!.order).toHaveLength(2 * (plan!.most as number));
    expect(plan!.plan).toMatch(/as is usual/);
    const better = await called('parttest', '--gain', '1', '--repeatability', '0.2', '--json');
    expect(better.objects()[0]!.most).toBeLessThan(plan!.most as number);
    const cell = await called('parttest', '--gain', '1', '--cell', 'cell');
    expect(cell.out()).toMatch(/No pull was repeated on cell yet/);
    expect((await called('parttest', '--gain', '1', '--order', 'drawn')).code).toBe(1);
    const long = await called('parttest', '--gain', '0.5', '--order', 'a-b-a');
    expect(long.code).toBe(1);
    expect(long.err()).toMatch(/more than 8 pulls of each.*by turns/s);
    const drawn = ['parttest', '--gain', '1', '--order', 'drawn', '--ran-clean', '--json'];
    const [one, other] = [
      await called(...drawn, '--seed', '1'),
      await called(...drawn, '--seed', '2'),
    ].map(({ objects }) => objects()[0]!.order);
    expect(one).not.toEqual(other);
    expect((await called('parttest')).code).toBe(2);
  });

  it('reads a session after each pull', async () => {
    const pulls: object[] = [];
    const look = async () => {
      folder.add('part.json', session('Six', '2026-05-20', pulls));
      const { objects, err, code } = await called(
        'parttest',
        'part.json',
        '--gain',
        '2',
        '--repeatability',
        '0.3',
        '--json',
      );
      expect(code, err()).toBe(0);
      return objects()[0]!;
    };
    pulls.push({ file: 'p0.csv', lead: '30 deg', group: 'a' });
    folder.add('p0.csv', speedTable(1));
    let now = await look();
    expect(now).toMatchObject({
      action: 'go on',
      sideBySide: null,
      next: 'b',
      made: { a: 1, b: 0 },
    });
    for (let i = 1; now.action === 'go on' && i < 20; i++) {
      const side = now.next as string;
      folder.add(`p${i}.csv`, speedTable((side === 'b' ? 1.03 : 1) * (1 + 0.001 * Math.sin(i))));
      pulls.push({ file: `p${i}.csv`, lead: '30 deg', group: side });
      now = await look();
    }
    expect(now).toMatchObject({ action: 'stop', word: 'gain', next: null });
    const { low, high } = now.gain as { low: number; high: number };
    expect(low).toBeLessThan(3);
    expect(high).toBeGreaterThan(3);
    expect(now.chanceAhead).toBeGreaterThan(0.99);
    const shown = await called('parttest', 'part.json', '--gain', '2', '--repeatability', '0.3');
    expect(shown.out()).toMatch(/Stop here\./);
    const ofDay = await called('parttest', 'day:2026-05-17', '--gain', '2', '--json');
    expect(ofDay.objects()[0]).toMatchObject({ action: 'go on', made: { a: 0, b: 0 } });
  });

  it('hand a build over as a signed bundle that is kept in the shop, and refuse what is no file of it', async () => {
    const { code, err, objects } = await called(
      'handover',
      'Eight/first build',
      '--out',
      'eight.zip',
      '--json',
    );
    expect(code, err()).toBe(0);
    const bytes = new Uint8Array(readFileSync(join(folder.folder, 'eight.zip')));
    const { problems, manifest, signedBy } = openBundle(bytes, 'eight.zip');
    expect(problems).toEqual([]);
    expect(signedBy).not.toBeNull();
    expect(manifest.engine).toBe('Eight');
    const record = await openRecord(home);
    try {
      expect((await record.handOvers.list({ buildId: objects()[0]!.build as string })).length).toBe(
        1,
      );
    } finally {
      await record.close();
    }
    expect((await called('handover', 'Eight/first build', '--out', 'eight.doc')).code).toBe(2);
    expect((await called('handover', 'Seven', '--out', 'seven.zip')).code).toBe(1);
  });

  it('draw a build in the time of its pull as numbered pictures, and only into a folder of their own', async () => {
    expect((await called('import', 'nine.json')).code).toBe(0);
    const replay = (build: string, ...more: string[]) =>
      called('replay', build, '--size', 'square', '--fps', '2', ...more);
    const { code, err, objects } = await replay('Nine/first build', '--out', 'frames', '--json');
    expect(code, err()).toBe(0);
    const told = objects()[0] as { frames: number; durationS: number };
    // 3000 to 6000 rev/min at 500 a second, then two seconds of the finished picture.
    expect(told.durationS).toBeCloseTo(6, 0);
    expect(told.frames).toBe(Math.ceil(2 * told.durationS) + 4);
    const names = readdirSync(join(folder.folder, 'frames'));
    expect(names.filter((name) => /^frame-\d{4}\.png$/.test(name))).toHaveLength(told.frames);
    const frame = (at: number) =>
      readFileSync(join(folder.folder, 'frames', `frame-${String(at).padStart(4, '0')}.png`));
    // Width and height stand in the header of a PNG (ISO/IEC 15948, 11.2.2).
    expect([frame(1).readUInt32BE(16), frame(1).readUInt32BE(20)]).toEqual([1080, 1080]);
    expect(frame(told.frames - 1).equals(frame(told.frames))).toBe(true);
    expect(frame(3).equals(frame(4))).toBe(false);
    expect(readFileSync(join(folder.folder, 'frames', 'README.txt'), 'utf8')).toContain(
      '2 a second',
    );
    const again = await replay('Nine/first build', '--out', 'frames');
    expect([again.code, again.err()]).toEqual([1, expect.stringContaining('is not empty')]);
    // A table by speed has no time.
    const timeless = await replay('Eight/first build', '--out', 'none');
    expect([timeless.code, timeless.err()]).toEqual([1, expect.stringContaining('own time')]);
    expect((await replay('Nine/first build', '--out', 'x', '--fps', '0')).code).toBe(2);
  });
});

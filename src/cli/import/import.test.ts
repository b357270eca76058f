import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { openRecord, type PullbookRecord } from '../../record/index.ts';
import { Curves } from '../../service/work/curves.ts';
import { readLadder } from '../../service/work/ladders.ts';
import { Readings } from '../../service/work/readings.ts';
import { run } from '../program.ts';
import { speedTable, TYPED_PEAKS, testFolder } from '../testFiles.ts';
import { testIo } from '../testIo.ts';

const folders: ReturnType<typeof testFolder>[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

const SESSION = {
  pullbook: 'session/1',
  engine: { name: 'Inline six', cylinders: 6, displacement: '3.0 L', fuel: 'gasoline' },
  cell: { inertia: '0.4 kg m^2' },
  band: ['3500 rpm', '6000 rpm'],
  standard: 'ISO 1585',
  day: '2026-05-17',
  pulls: [
    { file: 'a.csv', lead: '28 deg', watched: 'ear' },
    {
      file: 'b.csv',
      lead: '30 deg',
      note: 'new plugs',
      knockHeard: '5200 rpm',
      configuration: { plugs: 'colder', mascot: 'on' },
    },
    { lead: '32 deg', peakPower: '300 hp' },
  ],
};

const OIL_GAUGE = {
  doneOn: '2026-03-01',
  who: 'Ann',
  intervalMonths: 2,
  measured: {
    kind: 'sensor',
    sensor: 'Oil pressure',
    unit: 'bar',
    reference: 'gauge of the workshop',
    referenceUncertainty: 0.02,
    points: [{ reading: 4.1, reference: 4 }],
  },
} as const;

function shopFolder() {
  const folder = testFolder({
    's.json': JSON.stringify(SESSION),
    'a.csv': speedTable(1),
    'b.csv': speedTable(1.02),
    'bad.csv': 'not, a\nrun, file\n',
    'peaks.json': TYPED_PEAKS,
  });
  folders.push(folder);
  const home = join(folder.folder, 'home');
  const called = async (...args: string[]) => {
    const test = testIo(folder.folder, { PULLBOOK_HOME: home });
    return { code: await run(args, test.io), ...test };
  };
  const record = async <T>(ask: (record: PullbookRecord) => Promise<T>): Promise<T> => {
    const open = await openRecord(home);
    try {
      return await ask(open);
    } finally {
      await open.close();
    }
  };
  return { ...folder, home, called, record };
}

const whole = async (record: PullbookRecord) => ({
  cells: await record.cells.list(),
  engines: await record.engines.list(),
  builds: await record.builds.list(),
  days: await record.days.list(),
  pulls: await record.pulls.list(),
});

describe('pullbook import', () => {
  it('gives each part test of a session its ladder, once', async () => {
    const shop = shopFolder();
    const pulls = ['a', 'a', 'b', 'b'].map((group, at) => ({
      lead: `${30 + 2 * at} deg`,
      peakPower: `${300 + at} hp`,
      group,
    }));
    const session = { ...SESSION, pulls };
    shop.add('parts.json', JSON.stringify(session));
    const parts = async () =>
      shop.record(async (record) =>
        (await record.ladders.list()).map(({ name, group }) => [name, group]),
      );
    await shop.called('import', 'parts.json');
    expect(await parts()).toEqual([
      ['Spark lead', 'a'],
      ['Spark lead, part test b', 'b'],
    ]);
    await shop.called('import', 'parts.json');
    expect(await parts()).toHaveLength(2);
    const mixed = { ...session, day: '2026-05-18', pulls: [...SESSION.pulls.slice(2), ...pulls] };
    shop.add('mixed.json', JSON.stringify(mixed));
    await shop.called('import', 'mixed.json');
    expect((await parts()).map(([, group]) => group)).toEqual(['a', 'b', null, 'a', 'b']);
  });

  it('gives a day that steps lambda alone its lambda ladder, once, with an answer from its pulls', async () => {
    const shop = shopFolder();
    const pulls = [0.82, 0.85, 0.88].map((lambda, at) => ({
      lead: '30 deg',
      lambda,
      peakPower: `${[296, 300, 298][at]} hp`,
    }));
    const { band: _band, ...unbanded } = SESSION;
    const session = { ...unbanded, pullbook: 'session/2', setting: 'lambda', pulls };
    shop.add('mixture.json', JSON.stringify(session));
    const ladders = () => shop.record(async (record) => record.ladders.list());
    await shop.called('import', 'mixture.json');
    const [lead, lambda, ...more] = await ladders();
    expect(more).toEqual([]);
    expect(lead).toMatchObject({ setting: 'lead' });
    expect(lambda).toMatchObject({ name: 'Lambda', setting: 'lambda', heldLeadDeg: 30 });
    await shop.called('import', 'mixture.json');
    expect(await ladders()).toHaveLength(2);
    const { answer } = await shop.record((record) =>
      readLadder(record, new Curves(record, new Readings(record)), lambda!.id, {}),
    );
    expect(answer!.dots.map(({ setting }) => setting)).toEqual([0.82, 0.85, 0.88]);
    expect(answer!.best.value).toBeGreaterThan(0.83);
    // A day that steps lead keeps the ladder it has.
    await shop.called('import', 'peaks.json');
    expect((await ladders()).map(({ setting }) => setting)).toEqual(['lead', 'lambda', 'lead']);
  });

  it('files a session under its engine, cell and day, with what the operator set and saw', async () => {
    const shop = shopFolder();
    const { code, objects } = await shop.called('import', '--json', 's.json');
    expect(code).toBe(0);
    expect(objects().map(({ file, ok, duplicate }) => [file, ok, duplicate])).toEqual([
      ['a.csv', true, false],
      ['b.csv', true, false],
      ['s.json', true, false],
    ]);
    const { cells, engines, days, pulls } = await shop.record(whole);
    expect(cells).toMatchObject([
      { name: 'cell', inertiaKgM2: 0.4, torqueIs: { air: 'observed' } },
    ]);
    expect(engines).toMatchObject([{ name: 'Inline six', cylinders: 6, displacementM3: 3e-3 }]);
    expect(days).toMatchObject([
      { name: '2026-05-17', date: '2026-05-17', standard: 'ISO 1585', bandRpm: [3500, 6000] },
    ]);
    expect(pulls).toMatchObject([
      { fileName: 'a.csv', leadDeg: 28, watched: 'ear', order: 0 },
      {
        fileName: 'b.csv',
        leadDeg: 30,
        note: 'new plugs',
        knockHeard: 5200,
        configuration: { plugs: 'colder', other: 'mascot: on' },
      },
      { fileName: null, leadDeg: 32, peaksAre: { air: 'observed', inertia: 'out' } },
    ]);
    expect(pulls[2]!.peakPowerW).toBeCloseTo(300 * 745.69987158, 3);
  });

  it('keeps of a session/2 what set the mixture, what was read and the load in columns of their own', async () => {
    const shop = shopFolder();
    const pull = { lead: '30 deg', peakPower: '300 hp', lambdaMeasured: 0.853, lambdaError: 0.01 };
    const second = {
      ...SESSION,
      pullbook: 'session/2',
      pulls: [
        { ...pull, jets: { primary: 68, secondary: 76 }, configuration: { plugs: 'colder' } },
        { ...pull, lambda: 0.86, load: '60 %' },
      ],
    };
    shop.add('two.json', JSON.stringify(second));
    await shop.called('import', 'two.json');
    const { pulls } = await shop.record(whole);
    expect(pulls).toMatchObject([
      {
        lambdaTarget: null,
        lambdaMeasured: 0.853,
        lambdaErrorSd: 0.01,
        jets: 'primary 68, secondary 76',
        loadPercent: null,
        configuration: { plugs: 'colder' },
      },
      { lambdaTarget: 0.86, lambdaMeasured: 0.853, jets: null, loadPercent: 60 },
    ]);
    expect(pulls[0]!.configuration).not.toHaveProperty('other');
  });

  it('notices the same bytes and the same figures, and stores nothing twice', async () => {
    const shop = shopFolder();
    await shop.called('import', 's.json');
    await shop.record(async (record) => {
      const [cell] = await record.cells.list();
      await record.calibrations.create({ ...OIL_GAUGE, cellId: cell!.id });
    });
    const before = await shop.record(whole);
    const again = await shop.called('import', '--json', 's.json');
    expect(again.code).toBe(0);
    // The day is past the day on which its cell should have been looked at again, and every file says so.
    for (const { remarks } of again.objects())
      expect(remarks).toEqual([
        expect.stringMatching(/^The check of Oil pressure on cell fell due/),
      ]);
    const told = await shop.called('import', 's.json');
    expect(told.out().match(/note: The check of Oil pressure/g)).toHaveLength(1);
    expect(again.objects().map(({ duplicate }) => duplicate)).toEqual([true, true, false]);
    expect(await shop.record(whole)).toEqual(before);
  });

  it('takes run files for a named engine, refuses the bad one, keeps the good one', async () => {
    const shop = shopFolder();
    const args = [
      'import',
      '--json',
      '--engine',
      'V8',
      '--day',
      'first day',
      'bad.csv',
      'a.csv',
      'gone.csv',
    ];
    const { code, objects } = await shop.called(...args);
    expect(code).toBe(1);
    expect(objects().map(({ file, ok }) => [file, ok])).toEqual([
      ['bad.csv', false],
      ['a.csv', true],
      ['gone.csv', false],
    ]);
    const { engines, builds, days, pulls } = await shop.record(whole);
    expect([engines.length, builds.length, days.length, pulls.length]).toEqual([1, 1, 1, 1]);
    expect(days[0]!.name).toBe('first day');
  });

  it('calls run files without an engine wrong usage, and touches nothing', async () => {
    const shop = shopFolder();
    const { code, err } = await shop.called('import', 'a.csv');
    expect(code).toBe(2);
    expect(err()).toMatch(/--engine is missing/);
    expect(existsSync(shop.home)).toBe(false);
  });

  it('does not let a session change a cell that is known otherwise', async () => {
    const shop = shopFolder();
    await shop.called('import', 's.json');
    shop.add('other.json', JSON.stringify({ ...SESSION, cell: { inertia: '0.9 kg m^2' } }));
    const { code, objects } = await shop.called('import', '--json', 'other.json');
    expect(code).toBe(1);
    expect(objects()[0]).toMatchObject({ ok: false });
    expect(JSON.stringify(objects()[0])).toMatch(
      /an inertia of 0\.4 kg·m², the session says 0\.9.*--cell/,
    );
  });
});

describe('pullbook backup and restore', () => {
  it('bring a record back as it stood, and keep what they replace', async () => {
    const shop = shopFolder();
    await shop.called('import', 's.json');
    const before = await shop.record(whole);
    expect((await shop.called('backup', 'copy.sqlite')).code).toBe(0);
    await shop.called('import', '--engine', 'V8', 'a.csv', 'peaks.json');
    expect((await shop.record(whole)).engines.length).toBeGreaterThan(1);
    const restored = await shop.called('restore', 'copy.sqlite');
    expect(restored.code).toBe(0);
    expect(restored.out()).toMatch(/what stood there before is in/);
    expect(await shop.record(whole)).toEqual(before);
  });

  it('never overwrite a file, nor take one that is no backup', async () => {
    const shop = shopFolder();
    await shop.called('import', 's.json');
    expect((await shop.called('backup', 'a.csv')).code).toBe(1);
    const before = await shop.record(whole);
    expect((await shop.called('restore', 'a.csv')).code).toBe(1);
    expect((await shop.called('restore', 'gone.sqlite')).code).toBe(1);
    expect(await shop.record(whole)).toEqual(before);
  });
});

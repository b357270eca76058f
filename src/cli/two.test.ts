import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import { run } from './program.ts';
import { speedTable, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

/** A net of three leads by three mixtures on an exact surface with its best at 29° and lambda 0.87. */
const PLACES = [0.83, 0.86, 0.89].flatMap((lambda) =>
  [26, 28.5, 31].map((lead) => ({ lead, lambda })),
);
const scale = (lead: number, lambda: number) =>
  1 - 8e-4 * (lead - 29) ** 2 - 2 * (lambda - 0.87) ** 2;

function folderOf(change: object = {}) {
  const files = PLACES.map(
    ({ lead, lambda }, i) => [`p${i}.csv`, speedTable(scale(lead, lambda))] as const,
  );
  const session = {
    pullbook: 'session/2',
    setting: 'both',
    engine: { name: 'engine under test', fuel: 'gasoline' },
    band: ['4000 rpm', '6000 rpm'],
    pulls: PLACES.map(({ lead, lambda }, i) => ({
      file: `p${i}.csv`,
      lead: `${lead} deg`,
      lambda,
      watched: 'ear',
    })),
    ...change,
  };
  return testFolder({ 'session.json': JSON.stringify(session), ...Object.fromEntries(files) });
}

describe('pullbook ladder with lead and lambda at once', () => {
  it('answers the best of both and writes their table by speed', async () => {
    const { folder, remove } = folderOf();
    try {
      const { io, out } = testIo(folder);
      expect(await run(['ladder', '--json', '--table', 'map.csv', 'session.json'], io)).toBe(0);
      const { setting, loads, pulls } = JSON.parse(out());
      expect(setting).toBe('lead and lambda');
      expect(loads[0].bestLeadDeg.low).toBeLessThan(29);
      expect(loads[0].bestLeadDeg.high ?? 99).toBeGreaterThan(29);
      expect(pulls[4]).toMatchObject({ lead: 28.5, lambda: 0.86, state: 'clean' });
      const [header, ...rows] = readFileSync(join(folder, 'map.csv'), 'utf8').trim().split('\r\n');
      expect(header).toBe(
        'engine speed (rpm),spark lead (degrees before top centre),lambda (1),"air to fuel by mass (1; gasoline)"',
      );
      expect(rows.map((row) => row.split(',')[0])).toEqual([
        '3000',
        '3500',
        '4000',
        '4500',
        '5000',
        '5500',
        '6000',
        '6500',
      ]);
      for (const row of rows) {
        const [, lead, lambda] = row.split(',').map(Number);
        expect(lead!).toBeLessThanOrEqual(29);
        expect(lambda!).toBeLessThanOrEqual(0.87);
      }
    } finally {
      remove();
    }
  });

  it('gives a table a load where pulls were held there, and none with one setting alone', async () => {
    const pulls = [undefined, '60 %'].flatMap((load) =>
      PLACES.map(({ lead, lambda }, i) => ({
        file: `p${i}.csv`,
        lead: `${lead} deg`,
        lambda,
        watched: 'ear',
        ...(load === undefined ? {} : { load }),
      })),
    );
    const { folder, remove } = folderOf({ pulls });
    try {
      const { io, out } = testIo(folder);
      expect(await run(['ladder', '--json', '--table', 'map.xlsx', 'session.json'], io)).toBe(0);
      expect(
        JSON.parse(out()).loads.map(({ loadPercent }: { loadPercent: number }) => loadPercent),
      ).toEqual([null, 60]);
      const pages = await readWorkbook(join(folder, 'map.xlsx'));
      const [header, ...rows] = pages[0]!.data;
      expect(header!.slice(0, 3)).toEqual(['load, %', 'engine speed, rpm', 'spark lead, °']);
      expect(new Set(rows.map((row) => row[0]))).toEqual(new Set([100, 60]));
      const wrong = testIo(folder);
      const args = ['ladder', '--setting', 'lead', '--table', 'x.csv', 'session.json'];
      expect(await run(args, wrong.io)).toBe(1);
      expect(wrong.err()).toContain('does not go with --setting lead');
    } finally {
      remove();
    }
  });

  it('steps one of them where it is told to, and says in plain tables what it found', async () => {
    const { folder, remove } = folderOf();
    try {
      const { io, out } = testIo(folder);
      expect(await run(['ladder', '--setting', 'lambda', 'session.json'], io)).toBe(0);
      expect(out()).toContain('air to gasoline');
      expect(out()).toContain('this ladder of lambda holds 26°');
      const both = testIo(folder);
      expect(await run(['ladder', 'session.json'], both.io)).toBe(0);
      expect(both.out()).toContain('for each 0.1 of lambda leaner');
    } finally {
      remove();
    }
  });

  it('refuses a table that is not known, with the reason', async () => {
    const { folder, remove } = folderOf({
      pulls: [{ file: 'p0.csv', lead: '26 deg', lambda: 0.83, watched: 'ear' }],
    });
    try {
      const { io, err } = testIo(folder);
      expect(await run(['ladder', '--table', 'map.csv', 'session.json'], io)).toBe(1);
      expect(err()).toContain('Not known yet');
    } finally {
      remove();
    }
  });
});

import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import { type PartStay, partOverTime } from '../build/index.ts';
import { withApp } from './testing.ts';

interface History {
  serial: string;
  stays: { engineId: string; buildId: string; days: { pullCount: number }[]; stay: PartStay }[];
}

describe('the history of a part over HTTP', () => {
  it('tells where a part has been, its measurements over time, and its pulls', () =>
    withApp(async ({ json, ask, record }) => {
      expect(await json('GET', '/parts')).toEqual([]);
      expect(await json('GET', '/parts/history?serial=H-031')).toEqual({
        serial: 'H-031',
        stays: [],
      });
      const engine = await record.engines.create({ name: 'Six' });
      const cell = await record.cells.create({ name: 'Cell' });
      const [came, refreshed] = demoSheets();
      const builds = [];
      for (const { build: name, sheet } of [came!, refreshed!]) {
        const build = await record.builds.create({ engineId: engine.id, name });
        await record.sheets.save(build.id, sheet, 0);
        builds.push(build.id);
      }
      const day = await record.days.create({ buildId: builds[1]!, cellId: cell.id });
      for (const leadDeg of [24, 26]) await record.pulls.create({ dayId: day.id, leadDeg });

      const all = await json<{ serial: string; builds: number }[]>('GET', '/parts');
      expect(all.find(({ serial }) => serial === 'H-031')).toMatchObject({ builds: 2 });
      const { stays } = await json<History>('GET', '/parts/history?serial=%20h-031');
      expect(stays.map(({ buildId }) => buildId).sort()).toEqual(builds.sort());
      const seen = stays.flatMap(({ days }) => days).reduce((sum, one) => sum + one.pullCount, 0);
      expect(seen).toBe(2);

      const { measures, tables } = partOverTime(stays.map(({ stay }) => stay));
      const chamber = measures.find(({ path }) => path === 'heads.chamberVolume')!;
      // A skim makes the chamber smaller.
      expect(chamber.by).toBeLessThan(0);
      const own = stays[0]!.stay.measured.chamberVolume as { each?: number[]; value?: number };
      const first = own.each === undefined ? own.value! : Math.min(...own.each);
      expect(chamber.readings[0]!.low! / 1e-6).toBeCloseTo(first, 9);
      for (const { rows } of tables)
        for (const { values } of rows)
          for (const column of values) expect(column).toHaveLength(stays.length);

      for (const hostile of ["'; DROP TABLE sheet; --", 'a/b?c#d%2F', '../..', '🔧'])
        expect(
          (await json<History>('GET', `/parts/history?serial=${encodeURIComponent(hostile)}`))
            .stays,
        ).toEqual([]);
      expect((await ask('GET', '/api/v1/parts/history?serial=')).status).toBe(400);
    }));
});

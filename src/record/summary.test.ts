import { describe, expect, it } from 'vitest';
import { withRecord } from './testing.ts';

describe('the first screen', () => {
  it('shows engines with builds, counts and the newest days with what was decided last', () =>
    withRecord(async (record) => {
      const cell = await record.cells.create({ name: 'Cell' });
      const six = await record.engines.create({ name: 'Inline six', serial: '7' });
      const first = await record.builds.create({ engineId: six.id, name: 'First' });
      const second = await record.builds.create({ engineId: six.id, name: 'Second' });
      await record.engines.create({ name: 'Alone' });
      const day = (buildId: string, date: string | null) =>
        record.days.create({ buildId, cellId: cell.id, date });
      const old = await day(first.id, '2025-11-02');
      const undated = await day(first.id, null);
      const late = await day(second.id, '2026-05-17');
      for (const leadDeg of [28, null, 32]) await record.pulls.create({ dayId: late.id, leadDeg });
      await record.pulls.create({ dayId: old.id, leadDeg: 30 });
      const [ladder] = await record.ladders.list({ dayId: late.id });
      for (const [use, setting] of [
        ['bursts', 28],
        ['sustained', 26],
        ['bursts', 29],
      ] as const)
        await record.decisions.create({ ladderId: ladder!.id, use, setting, who: 'Ann', why: '' });

      const summary = await record.summary();
      expect(summary).toMatchObject({ engineCount: 2, dayCount: 3, pullCount: 4 });
      expect(summary.engines.map((engine) => engine.name)).toEqual(['Alone', 'Inline six']);
      expect(summary.engines[1]!.builds).toEqual([
        { id: first.id, name: 'First', dayCount: 2, pullCount: 1, lastDate: '2025-11-02' },
        { id: second.id, name: 'Second', dayCount: 1, pullCount: 3, lastDate: '2026-05-17' },
      ]);
      expect(summary.latestDays.map((one) => one.id)).toEqual([late.id, old.id, undated.id]);
      expect(summary.latestDays[0]).toMatchObject({
        engineName: 'Inline six',
        buildName: 'Second',
        pullCount: 3,
        lowLeadDeg: 28,
        highLeadDeg: 32,
        ladders: [{ id: ladder!.id, name: 'Spark lead', setting: 'lead' }],
        decisions: [
          { kind: 'lead', use: 'bursts', setting: 29 },
          { kind: 'lead', use: 'sustained', setting: 26 },
        ],
      });
      expect(await record.daysOfEngine(six.id)).toEqual(summary.latestDays);
    }));

  it('shows an empty shop as empty', () =>
    withRecord(async (record) => {
      const summary = await record.summary();
      expect(summary).toMatchObject({ engineCount: 0, dayCount: 0, engines: [], latestDays: [] });
    }));
});

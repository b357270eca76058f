import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PullbookRecord } from '../repository.ts';
import { oneDay, withRecord } from '../testing.ts';
import { understood } from './question.ts';

const finds = async (record: PullbookRecord, text: string, limit = 50) =>
  (await record.search(text, { units: 'us', limit })).found.map(
    ({ kind, label }) => `${kind}: ${label}`,
  );

async function shop(record: PullbookRecord) {
  const { engine, day } = await oneDay(record);
  await record.engines.update(engine.id, { name: 'Rally six', serial: 'R6-014', owner: 'Zoë' });
  await record.pulls.create({ dayId: day.id, peakPowerW: 300_000, note: 'knock after lunch' });
  await record.pulls.create({ dayId: day.id, peakPowerW: 540_000, note: 'clean' });
  await record.sheets.save(
    day.buildId,
    {
      format: 'sheet/1',
      layout: { cylinders: 6 },
      sections: { crank: { parts: [{ name: 'Crank', serial: 'CR-9' }], notes: 'reground twice' } },
    } as never,
    0,
  );
  return { engine, day };
}

describe('anything in the shop', () => {
  it('is found by its own words and those of what it stands under, and told by kind', () =>
    withRecord(async (record) => {
      await shop(record);
      expect(await finds(record, 'rally')).toEqual(['engine: Rally six']);
      expect(await finds(record, 'r6-014')).toEqual(['engine: Rally six']);
      expect(await finds(record, 'zoe')).toEqual(['engine: Rally six']);
      expect(await finds(record, 'SIX may 2026')).toEqual(['test day: 17 May 2026']);
      expect(await finds(record, 'knock six')).toEqual(['pull: Typed peaks']);
      expect(await finds(record, 'cr-9')).toEqual(['part: CR-9, Crank']);
      expect(await finds(record, 'regr')).toEqual(['sheet: Build sheet, crank']);
      expect(await finds(record, 'six nowhere')).toEqual([]);
    }));

  it('follows a change of what it stands under, a removal, and the way back', () =>
    withRecord(async (record) => {
      const { engine, day } = await shop(record);
      await record.engines.update(engine.id, { name: 'Tug eight' });
      expect(await finds(record, 'six')).toEqual([]);
      expect(await finds(record, 'tug knock')).toEqual(['pull: Typed peaks']);
      await record.days.remove(day.id);
      expect(await finds(record, 'tug knock')).toEqual([]);
      await record.events.undo();
      expect(await finds(record, 'tug knock')).toEqual(['pull: Typed peaks']);
      await record.events.undo(undefined);
      expect(await finds(record, 'six knock')).toEqual(['pull: Typed peaks']);
    }));

  it('is found by peaks in the unit said, and by days', () =>
    withRecord(async (record) => {
      await shop(record);
      // 540 kW are 724.2 hp (1 hp = 550 ft·lbf/s).
      expect(await finds(record, 'power 700-800')).toEqual(['pull: Typed peaks']);
      expect(await finds(record, 'power 700-720')).toEqual([]);
      expect(await finds(record, 'clean power over 500 kW')).toEqual(['pull: Typed peaks']);
      expect(await finds(record, 'knock power over 500 kW')).toEqual([]);
      expect(await finds(record, '2026-05..2026-06 day')).toContain('test day: 17 May 2026');
      expect(await finds(record, '2026-06..2026-07 day')).toEqual([]);
      expect(understood('torque under 500 lb-ft six', 'metric')).toMatchObject({
        peaks: { of: 'torque', low: null, high: expect.closeTo(677.9, 1) },
        words: ['six'],
      });
    }));

  it('reads peaks and days out of the way people write them', () => {
    const kw = (low: number | null, high: number | null) => ({
      of: 'power',
      low: low === null ? null : expect.closeTo(low * 1000, 0),
      high: high === null ? null : expect.closeTo(high * 1000, 0),
    });
    for (const [text, peaks] of [
      ['power 300 to 320 kW', kw(300, 320)],
      ['300-320 kW', kw(300, 320)],
      ['power between 300 kW and 320 kW', kw(300, 320)],
      ['power 320..300', kw(300, 320)],
      ['at least 300 kW', kw(300, null)],
      ['peak power < 300', kw(null, 300)],
      // 1 hp = 550 ft·lbf/s = 745.699871582 W (NIST SP 811, B.8).
      ['300 to 320 hp', kw(223.70996, 238.62396)],
    ] as const)
      expect(understood(text, 'metric'), text).toEqual({ peaks, days: null, words: [] });
    expect(understood('300 to 320 six', 'us')).toEqual({
      peaks: null,
      days: null,
      words: ['300', 'to', '320', 'six'],
    });
    for (const [text, days] of [
      ['2026-05-01 to 2026-06-10', ['2026-05-01', '2026-06-10']],
      ['from May to July 2026', ['2026-05', '2026-07']],
      ['17 May 2026 – 3 jun 2026', ['2026-05-17', '2026-06-03']],
      ['2024..2025', ['2024', '2025']],
      ['since 2026-05', ['2026-05', null]],
      ['before May 2026', [null, '2026-04-30']],
      ['after 2025', ['2026-01-01', null]],
      ['until 5/17/2026', [null, '2026-05-17']],
      ['until 17.5.2026', [null, '2026-05-17']],
    ] as const)
      expect(understood(text, 'us'), text).toEqual({ peaks: null, days, words: [] });
    expect(understood('until 17/5/2026', 'metric').days).toEqual([null, '2026-05-17']);
    expect(understood('6/5/2026', 'us').words).toEqual(['2026-06-05']);
    expect(understood('6/5/2026', 'metric').words).toEqual(['2026-05-06']);
    // A word that a month begins with is no month.
    expect(understood('from marble to deck', 'us').days).toBeNull();
  });

  it('answers whatever is typed, and never as a command of the engine', () =>
    withRecord(async (record) => {
      await shop(record);
      const signs = fc.string({
        unit: fc.constantFrom(...'"*^:(){}-+\'%;\0 aORNEANDT,.~ⅷ́', 'rally', 'own', '😀'),
        maxLength: 30,
      });
      await fc.assert(
        fc.asyncProperty(
          fc.oneof(signs, fc.string({ unit: 'binary', maxLength: 60 })),
          async (text) => {
            const { found, total } = await record.search(text, { units: 'us', limit: 5 });
            expect(found.length).toBeLessThanOrEqual(Math.min(5, total));
          },
        ),
        { numRuns: 120, seed: 15 },
      );
      for (const text of [
        'own : rally',
        'rally OR nothing',
        'NEAR(rally six)',
        "'; DROP TABLE pull; --",
      ])
        expect(await finds(record, text)).toEqual([]);
      expect(await finds(record, '"rally" *')).toEqual(['engine: Rally six']);
    }));
});

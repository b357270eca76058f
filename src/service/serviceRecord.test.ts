import { expect, it } from 'vitest';
import { withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';

it('tells what an engine has run, its power by day and that two days tell no drift', () =>
  withApp(async (asked) => {
    const { engine, day, cell } = await aDay(asked);
    await asked.record.days.update(day.id, { date: '2026-05-01' });
    await post(asked, day.id, 'pull-01.csv', sweep());
    const { id: _, date: __, ...like } = await asked.record.days.get(day.id);
    const later = await asked.record.days.create({ ...like, date: '2026-06-01' });
    await post(asked, later.id, 'pull-02.csv', sweep({ scale: 0.97 }));
    await asked.record.pulls.create({ dayId: later.id, peakPowerW: 200_000 });
    interface Told {
      builds: Record<string, unknown>[];
      days: { power: { meanPowerW: { value: number; low: number; high: number } } }[];
      due: { what: string; state: string }[];
      condition: { measures: unknown[] };
    }
    const told = await asked.json<Told>('GET', `/engines/${engine.id}/service?on=2026-07-01`);
    expect(told.builds).toMatchObject([
      {
        pulls: 3,
        pullsOfUnknownTime: 1,
        drift: { word: 'not known yet', days: 2, fromDate: '2026-05-01', toDate: '2026-06-01' },
      },
    ]);
    // Two sweeps of 3,000 rev/min at 500 rev/min each second.
    expect(Math.abs((told.builds[0]!.fullThrottleS as number) - 12)).toBeLessThan(1);
    const [first, second] = told.days.map(({ power }) => power.meanPowerW);
    expect(first!.low).toBeLessThan(first!.value);
    expect(Math.abs(second!.value / first!.value - 0.97)).toBeLessThan(0.01);
    expect(told.due).toContainEqual(
      expect.objectContaining({ what: 'calibration', state: 'not known' }),
    );
    expect(told.due.some(({ what }) => what === 'refresh')).toBe(true);
    await asked.record.engines.remove(engine.id);
    await asked.json('GET', `/engines/${engine.id}/service`, undefined, 404);
    expect(cell.id).not.toBe('');
  }));

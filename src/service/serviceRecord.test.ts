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

it('keeps services and readings, tells when the refresh is due and which cylinder moved, and undoes', () =>
  withApp(async (asked) => {
    const { engine, day } = await aDay(asked);
    const { json, ask } = asked;
    for (const [at, date] of ['2026-03-01', '2026-03-11', '2026-03-21', '2026-03-31'].entries()) {
      const { id: _, ...like } = await asked.record.days.get(day.id);
      const one = await asked.record.days.create({ ...like, date });
      for (let n = 0; n < (at === 0 ? 9 : 4); n += 1)
        await asked.record.pulls.create({ dayId: one.id, peakPowerW: 200_000 });
    }
    await json('PATCH', `/engines/${engine.id}`, { refreshAfterPulls: 20, refreshAfterS: 36_000 });
    const events = `/engines/${engine.id}/service-events`;
    const refresh = { doneOn: '2026-03-10', what: 'rings', parts: 'ring set', hoursS: 3600 };
    const kept = await json<{ id: string; kind: string }>('POST', events, refresh, 201);
    expect(kept).toMatchObject({ ...refresh, kind: 'refresh', who: '' });
    const readings = `/engines/${engine.id}/service-readings`;
    const leakDown = (at: number) =>
      [0.04, 0.05, 0.04 + 0.04 * at, 0.05].map((one) => one + 0.003 * (at % 2));
    for (const [at, readOn] of ['2026-03-12', '2026-03-20', '2026-03-28', '2026-04-01'].entries())
      await json(
        'POST',
        readings,
        { readOn, leakDown: leakDown(at), hoursS: 3600 * (2 + at) },
        201,
      );
    // What is left of a reading must still be one: an archive with an empty one would be refused.
    const [first] = await json<{ id: string }[]>('GET', readings);
    const emptied = { leakDown: null, hoursS: null };
    expect((await ask('PATCH', `/api/v1/service-readings/${first!.id}`, emptied)).status).toBe(422);
    await json('PATCH', `/service-readings/${first!.id}`, { note: 'warm' });
    // One of before the refresh says nothing of this state of the engine.
    await json('POST', readings, { readOn: '2026-02-01', leakDown: [0.5, 0.5, 0.5, 0.5] }, 201);
    expect((await ask('POST', `/api/v1${readings}`, { readOn: '2026-04-01' })).status).toBe(422);
    expect(
      (await ask('POST', `/api/v1${readings}`, { readOn: '2026-04-01', leakDown: [2] })).status,
    ).toBe(400);
    interface Told {
      due: { what: string; state: string; on: string | null; sentence: string }[];
      refresh: { since: object; lines: { by: string; used: number }[] };
      wear: {
        measure: string;
        readings: { counts: boolean }[];
        answer: { word: string; moved: { cylinder: number }[]; newest: object };
        sentences: string[];
      }[];
    }
    const told = () =>
      json<Told>('GET', `/engines/${engine.id}/service?on=2026-04-01&units=metric`);
    const { due, refresh: state, wear } = await told();
    expect(state).toMatchObject({
      since: { what: 'its refresh', on: '2026-03-10' },
      lines: [
        { by: 'hours', used: 4 * 3600 },
        { by: 'pulls', used: 12 },
      ],
    });
    // Eight pulls are left at four in ten days.
    expect(due.find(({ what }) => what === 'refresh')).toMatchObject({ state: 'not due' });
    const [leak, pressure] = wear;
    expect(leak).toMatchObject({
      measure: 'leakDown',
      answer: { word: 'moved', moved: [{ cylinder: 3 }], newest: { worstCylinder: 3 } },
    });
    expect(leak!.readings.filter(({ counts }) => !counts)).toHaveLength(1);
    expect(leak!.sentences[0]).toMatch(
      /^Against the other cylinders, cylinder 3 rose by 1\d\.\d points/,
    );
    expect(pressure).toMatchObject({ answer: { word: 'not known yet' } });
    // Another meter, which has passed the old one's figure at the refresh since: how long it ran is not known.
    const anew = [];
    for (const [readOn, hoursS] of [
      ['2026-04-01', 0],
      ['2026-04-02', 90_000],
    ])
      anew.push(await json<{ id: string }>('POST', readings, { readOn, hoursS }, 201));
    expect((await told()).refresh.lines[0]).toMatchObject({ by: 'hours', used: null });
    for (const { id } of anew) await json('DELETE', `/service-readings/${id}`, undefined, 204);
    await json('DELETE', `/service-events/${kept.id}`, undefined, 204);
    expect((await told()).refresh.lines[1]).toMatchObject({ by: 'pulls', used: 21 });
    await json('POST', '/undo');
    expect((await told()).refresh.lines[1]).toMatchObject({ used: 12 });
  }));

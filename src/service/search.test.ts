import { expect, it } from 'vitest';
import type { Finding } from '../record/index.ts';
import { withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';
import { fillEveryTable } from './wholeShop.fixture.ts';

const ask = (q: string) => `/search?q=${encodeURIComponent(q)}`;

it('finds a recorded pull by its peak once a curve was computed behind the first question', () =>
  withApp(async (asked) => {
    const { day } = await aDay(asked);
    await post(asked, day.id, 'pull-01.csv', sweep());
    const first = await asked.json<Finding>('GET', ask('power 1-1000'));
    expect(first).toMatchObject({ found: [], peaksNotKnown: 1 });
    await expect
      .poll(async () => (await asked.json<Finding>('GET', ask('power 1-1000'))).found)
      .toMatchObject([{ kind: 'pull', label: expect.stringContaining('pull-01.csv') }]);
    const { peakPowerW } = (await asked.json<Finding>('GET', ask('pull-01'))).found[0]!;
    // What changes its curve lets the peak go, what does not leaves it.
    await asked.record.days.update(day.id, { notes: 'windy' });
    expect((await asked.json<Finding>('GET', ask('pull-01'))).found[0]).toMatchObject({
      peakPowerW,
    });
    await asked.record.days.update(day.id, { airPressureAbsPa: 90_000 });
    expect((await asked.json<Finding>('GET', ask('pull-01'))).found[0]).toMatchObject({
      peakPowerW: null,
    });
    await asked.json('GET', ask('x'.repeat(201)), undefined, 400);
  }));

it('finds everything that a shop keeps, says what it is, and leads to its page', () =>
  withApp(async ({ record, json }) => {
    const { engine, day, plan } = await fillEveryTable(record);
    const finds = async (q: string, units = 'us') =>
      (await json<Finding>('GET', `${ask(q)}&units=${units}`)).found.map(
        ({ kind, label, page }) =>
          `${kind}: ${label} > ${page.replace(/[a-z]+_[0-9a-z]{9,}/gi, '*')}`,
      );
    for (const [q, found] of [
      ['quarry', 'engine: Quarry four > /engines/*'],
      ['first build', 'build: First build > /builds/*'],
      ['17 may 2026 day', 'test day: 17 May 2026 > /days/*'],
      ['cr-9', 'part: CR-9, Crank > /parts?serial=CR-9'],
      ['reground', 'sheet: Build sheet, crank > /builds/*/sheet/crank'],
      ['spark ladder', 'ladder: Spark lead > /ladders/*'],
      ['below the knee', 'decision: hill climb: 27 > /ladders/*'],
      ['coupe owner', 'hand-over: Hand-over, 2 June 2026 > /builds/*/handover?made=*'],
      ['june 2026 quarry', 'hand-over: Hand-over, 2 June 2026 > /builds/*/handover?made=*'],
      ['rings renewed', 'service: Refresh, 20 June 2026 > /engines/*/service'],
      ['leak-down throttle', 'service: Reading, 1 July 2026 > /engines/*/service'],
      ['wideband', 'plan: Test plan > /days/*/plan'],
      ['wilhelmina ticked', 'plan: Test plan > /days/*/plan'],
      ['spacer', 'part test: Spacer under the carburettor > /part-tests/*'],
      ['port work', 'comparison: Before and after the port work > /engines/*'],
      ['chance finding comparison', undefined],
      ['cannot comparison', undefined],
      ['told from chance', 'comparison: Before and after the port work > /engines/*'],
      ['uphill', 'use: hill climb > /settings'],
      ['milk', 'use: milk round > /use?sides=engine:*&use=kept:*'],
      ['coupe vehicle', 'vehicle: the coupe > /use?sides=engine:*&vehicle=*'],
      ['ice steam', 'calibration: Calibration, 17 January 2026 > /calibrations/*'],
      ['deck', 'file: deck.txt > /builds/*'],
      ['power 300 to 320 kW', 'pull: Typed peaks > /pulls/*'],
      // 310 kW are 415.7 hp.
      ['power 410-420', 'pull: Typed peaks > /pulls/*'],
      ['smoke since 2026-05-17', 'pull: Typed peaks > /pulls/*'],
      ['2026-06-15..2026-06-25', 'service: Refresh, 20 June 2026 > /engines/*/service'],
      ['quarry 2026-06-15..2026-06-25', 'service: Refresh, 20 June 2026 > /engines/*/service'],
      ['2026-07', 'service: Reading, 1 July 2026 > /engines/*/service'],
    ] as const)
      expect((await finds(q))[0], q).toBe(found);
    expect(await finds('power 300-320', 'metric')).toHaveLength(1);
    expect(await finds('power 300-320', 'us')).toEqual([]);
    // A use finds what is made under it: the rules of the shop, and what was decided by them.
    expect((await finds('hill climb')).map((one) => one.split(':')[0])).toEqual([
      'decision',
      'use',
    ]);
    // Edited, ticked off, removed and taken back, it stands as the record does.
    await json('PATCH', '/shop', { uses: [] });
    expect(await finds('uphill')).toEqual([]);
    await json('POST', '/undo');
    expect(await finds('uphill')).toHaveLength(1);
    await record.plans.tick(plan.id, 'guard', false);
    expect(await finds('wilhelmina')).toEqual([]);
    await json('POST', '/undo');
    expect(await finds('wilhelmina')).toHaveLength(1);
    await record.days.update(day.id, { date: '2026-08-02' });
    expect(await finds('2026-08-01..2026-08-03 plan')).toEqual(['plan: Test plan > /days/*/plan']);
    await record.engines.remove(engine.id);
    for (const q of ['wideband', 'rings', 'coupe', 'milk', 'port'])
      expect(await finds(q)).toEqual([]);
    await json('POST', '/undo');
    expect(await finds('wideband')).toHaveLength(1);
  }));

import { expect, it } from 'vitest';
import type { Finding } from '../record/index.ts';
import { withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';

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

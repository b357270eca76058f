import { describe, expect, it } from 'vitest';
import { reachedOn } from './pace.ts';
import { type RefreshUse, refreshDueOf } from './refresh.ts';
import { uniforms } from './simulated.fixture.ts';

const dayAt = (day: number) => new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);

describe('when so much more will have been used', () => {
  it('holds the true day in about 95 % of 1,500 engines that are used on as they were', () => {
    const uniform = uniforms(77);
    // Gaps between days as a sum of three exponentials (mean 18 days), six to eighteen pulls a day.
    const gap = () => Math.max(1, Math.round(-6 * Math.log(uniform() * uniform() * uniform())));
    const pulls = () => 6 + Math.floor(13 * uniform());
    for (const [past, left] of [
      [4, 60],
      [6, 60],
      [8, 150],
    ] as const) {
      let held = 0;
      for (let round = 0; round < 500; round += 1) {
        let day = 0;
        const used = Array.from({ length: past }, () => {
          day += gap();
          return { date: dayAt(day), amount: pulls() };
        });
        const reached = reachedOn(used, left, dayAt(day));
        let [truth, done] = [day, 0];
        while (done < left) {
          truth += gap();
          done += pulls();
        }
        if ('none' in reached) throw new Error(reached.none);
        const at = dayAt(truth);
        if (reached.earliest <= at && (reached.latest === null || at <= reached.latest)) held += 1;
      }
      // Three sd of a count of 500 at 95 % are 15; a ratio from few days is not quite Student's, and days are whole.
      expect(held / 500, `${past} days`).toBeGreaterThan(0.92);
      expect(held / 500, `${past} days`).toBeLessThan(0.995);
    }
  });

  it('is not known from two days, nor of an engine that has stood', () => {
    const two = [
      { date: '2026-01-01', amount: 5 },
      { date: '2026-02-01', amount: 5 },
    ];
    expect(reachedOn(two, 10, '2026-02-02')).toEqual({ none: 'too few days' });
    const three = [...two, { date: '2026-03-01', amount: 5 }];
    expect(reachedOn(three, 10, '2026-03-02')).toMatchObject({ days: 3, on: '2026-04-30' });
    expect(reachedOn(three, 10, '2026-06-01')).toEqual({ none: 'has stood' });
  });
});

describe('a refresh', () => {
  const use = (more: Partial<RefreshUse>): RefreshUse => ({
    after: { runS: null, pulls: null, throttleS: null, months: null },
    since: { what: 'the refresh', on: '2026-01-31' },
    ranS: null,
    ranOn: [],
    pulls: 12,
    pullsOn: [],
    throttleS: 100,
    pullsOfUnknownTime: 0,
    throttleOn: [],
    ...more,
  });
  const stating = (more: Partial<RefreshUse['after']>) => ({ ...use({}).after, ...more });

  it('is due by whichever comes first', () => {
    const stated = stating({ pulls: 12, runS: 36_000, months: 1 });
    const told = refreshDueOf(use({ after: stated, ranS: 7200 }), '2026-02-20');
    expect(told).toMatchObject({ state: 'due', on: null });
    expect(told.sentence).toMatch(
      /^Refresh, whichever comes first, since the refresh \(2026-01-31\): 2\.0 of 10\.0 hours, 12 of 12 pulls, 0\.7 of 1 months\. It is due by its pulls\.$/,
    );
    // A month after 31 January is the last of February.
    expect(refreshDueOf(use({ after: stating({ months: 1 }) }), '2026-02-27')).toMatchObject({
      state: 'not due',
      on: '2026-02-28',
    });
    expect(refreshDueOf(use({ after: stating({ months: 1 }) }), '2026-02-28').state).toBe('due');
  });

  it('tells the earlier of a pace and a calendar, and what it does not know', () => {
    const pullsOn = [0, 10, 20, 30].map((day) => ({ date: dayAt(31 + day), amount: 4 }));
    const both = use({ after: stating({ pulls: 20, months: 12 }), pullsOn });
    // Eight are left at four in ten days.
    expect(refreshDueOf(both, dayAt(61))).toMatchObject({ state: 'not due', on: dayAt(81) });
    const hours = refreshDueOf(use({ after: stating({ runS: 3600 }) }), '2026-03-01');
    expect(hours).toMatchObject({ state: 'not known', on: null });
    expect(hours.sentence).toMatch(/not known of 1\.0 hours\. When it falls due is not known/);
    const throttle = use({ after: stating({ throttleS: 600 }), pullsOfUnknownTime: 2 });
    expect(refreshDueOf(throttle, '2026-03-01').sentence).toMatch(/Of 2 pulls .* it has run more/);
    expect(refreshDueOf(use({}), '2026-03-01')).toMatchObject({
      state: 'not known',
      sentence: expect.stringMatching(/states no interval; since the refresh .* has 12 pulls\.$/),
    });
  });
});

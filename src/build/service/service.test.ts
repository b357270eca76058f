import { describe, expect, it } from 'vitest';
import { driftOf } from './drift.ts';
import { dueOf } from './due.ts';
import { normals } from './simulated.fixture.ts';

const dayAt = (day: number) => new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);
const history = (
  places: readonly number[],
  percentOverAll: number,
  sd: number,
  draw: () => number,
) =>
  places.map((day) => ({
    date: dayAt(day),
    meanPowerW:
      300_000 * Math.exp((Math.log1p(percentOverAll / 100) * day) / places.at(-1)! + sd * draw()),
  }));

describe('power over time', () => {
  // Simulated truth: a known change and a known scatter of days.
  it('holds the true change in 95 % of 2,000 histories, and calls a change that is none in 5 %', () => {
    const draw = normals(20_261);
    for (const [truth, places] of [
      [0, [0, 20, 90, 130]],
      [-3, [0, 7, 8, 60, 61, 200]],
    ] as const) {
      let held = 0;
      let called = 0;
      for (let round = 0; round < 1000; round += 1) {
        const { changePercent, word } = driftOf(history(places, truth, 0.006, draw));
        if (changePercent!.low <= truth && truth <= changePercent!.high) held += 1;
        if (word === 'falls' || word === 'rises') called += 1;
      }
      // Three sd of a count of 1,000 at 95 %: 21.
      expect(Math.abs(held - 950)).toBeLessThan(21);
      if (truth === 0) expect(Math.abs(called - 50)).toBeLessThan(21);
    }
  });

  it('says what it found, and that two days or one date tell nothing', () => {
    const steady = () => 0;
    expect(driftOf(history([0, 50, 100], -4, 0.001, normals(7)))).toMatchObject({ word: 'falls' });
    expect(driftOf(history([0, 50], -4, 0, steady))).toMatchObject({
      word: 'not known yet',
      changePercent: null,
    });
    const sameDay = history([0, 50, 100], 0, 0.01, normals(3)).map((one) => ({
      ...one,
      date: '2026-01-01',
    }));
    expect(driftOf(sameDay)).toMatchObject({ word: 'not known yet' });
    expect(driftOf([]).sentence).toMatch(/not known yet/);
    expect(driftOf(history([0, 30, 60, 90], 0, 0.01, normals(5))).sentence).toMatch(/chance/);
  });
});

describe('what is due', () => {
  const plan = (id: string) =>
    ({
      version: 3,
      sections: [
        { group: 'afterRunIn', title: '', items: [{ id, parts: [{ text: 'Set the lash hot.' }] }] },
      ],
    }) as never;
  const run = {
    state: 'not known',
    since: { what: 'Build 1', on: null },
    lines: [],
    on: null,
    sentence: 'Refresh: the shop states no interval.',
  } as const;

  it('is what the plan asks after run-in until somebody has ticked it', () => {
    const asked = { date: '2026-05-01', plan: plan('afterRunIn.lash'), ticks: [] };
    expect(dueOf([asked], [], run, 'us')[0]).toEqual({
      what: 'lash',
      state: 'due',
      on: '2026-05-01',
      sentence: 'Set the lash hot.',
    });
    const ticks = [{ itemId: 'afterRunIn.lash', who: 'Ada', at: '2026-05-03T10:00:00Z' }];
    expect(dueOf([{ ...asked, ticks }], [], run, 'us')[0]).toMatchObject({
      state: 'done',
      on: '2026-05-03',
    });
    expect(dueOf([], [], run, 'us').map(({ state }) => state)).toEqual(['not known', 'not known']);
  });

  it('takes calibrations from the cells, and says where no interval is stated', () => {
    const cells = [
      { cell: 'One', doneOn: '2025-01-01', dueIso: '2026-01-01', isDue: true },
      { cell: 'Two', doneOn: null, dueIso: null, isDue: false },
    ];
    expect(dueOf([], cells, run, 'us').slice(-3)).toMatchObject([
      {
        what: 'refresh',
        state: 'not known',
        sentence: run.sentence,
      },
      { what: 'calibration', state: 'due', on: '2026-01-01' },
      { what: 'calibration', state: 'not known' },
    ]);
  });
});

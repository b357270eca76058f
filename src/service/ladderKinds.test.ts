import { describe, expect, it } from 'vitest';
import type { Ladder, Pull } from '../record/index.ts';
import { ladderReading } from './schema/results.ts';
import { type Asked, withApp } from './testing.ts';
import { aDay } from './testingDays.ts';

/** A lead ladder at lambda 0.86, then a lambda ladder at 30 degrees that shares its rung; typed peaks [hp]. */
async function twoLadders(asked: Asked) {
  const { day, ladder } = await aDay(asked);
  // 1 hp = 745.69987158 W, derived from its definition.
  for (const [leadDeg, lambdaTarget, hp] of [
    [26, 0.86, 391],
    [28, 0.86, 396],
    [30, 0.86, 399],
    [30, 0.8, 395],
    [30, 0.82, 397.5],
    [30, 0.84, 399],
    [30, 0.88, 398.6],
    [30, 0.9, 396.9],
  ] as const)
    await asked.record.pulls.create({
      dayId: day.id,
      leadDeg,
      lambdaTarget,
      peakPowerW: hp * 745.69987158,
    });
  return { day, ladder };
}

describe('ladders of other settings than lead over HTTP', () => {
  it('are made, keep their kind, and answer from the pulls where the lead was held', () =>
    withApp(async (asked) => {
      const { day, ladder } = await twoLadders(asked);
      const made = await asked.json<Ladder>(
        'POST',
        `/days/${day.id}/ladders`,
        { setting: 'lambda', heldLeadDeg: 30 },
        201,
      );
      expect(made).toMatchObject({ name: 'Lambda', setting: 'lambda', heldLeadDeg: 30 });
      const reading = ladderReading.parse(await asked.json('GET', `/ladders/${made.id}/reading`));
      expect(reading.input).toMatchObject({ kind: { name: 'lambda', unit: '' }, step: 0.01 });
      const settings = reading.input!.pulls.map((pull) => pull.setting);
      expect(settings).toEqual([0.86, 0.8, 0.82, 0.84, 0.88, 0.9]);
      expect(reading.answer!.best.value).toBeGreaterThan(0.83);
      expect(reading.answer!.best.value).toBeLessThan(0.88);

      const byLead = `/ladders/${ladder.id}/reading`;
      const mixed = ladderReading.parse(await asked.json('GET', byLead));
      expect(mixed.input!.pulls).toHaveLength(8);
      expect(mixed.input!.pulls[3]!.configuration).toBe('lambda: 0.8');
      await asked.json('PATCH', `/ladders/${ladder.id}`, { heldLambda: 0.86 });
      const held = ladderReading.parse(await asked.json('GET', byLead));
      expect(held.input!.pulls.map((pull) => pull.setting)).toEqual([26, 28, 30]);
      expect(held.input!.pulls[0]!.configuration).toBeNull();
      // A decision on record would change its meaning with the kind, so the kind stays.
      await asked.json('PATCH', `/ladders/${made.id}`, { setting: 'lead' }, 400);
      await asked.json('POST', `/days/${day.id}/ladders`, { setting: 'jets' }, 400);
    }));

  it('advise a setting by the shipped rule, by the shop’s own, and none where it wants none', () =>
    withApp(async (asked) => {
      const { day } = await twoLadders(asked);
      const { id } = await asked.record.ladders.create({
        dayId: day.id,
        setting: 'lambda',
        heldLeadDeg: 30,
      });
      const answered = async () =>
        ladderReading.parse(await asked.json('GET', `/ladders/${id}/reading`)).answer!;
      const shipped = (await answered()).uses;
      expect(shipped).toMatchObject({ bursts: { holdback: 0.02 }, sustained: { holdback: 0.04 } });
      const { uses } = await asked.record.shop.get();
      await asked.json('PATCH', '/shop', {
        uses: uses.map((use) => ({ ...use, holdbackLambda: use.name === 'bursts' ? 0.03 : null })),
      });
      const { uses: ruled, best } = await answered();
      expect(Object.keys(ruled)).toEqual(['bursts']);
      expect(ruled.bursts!.value!).toBeLessThanOrEqual(best.value! - 0.03);
      await asked.json(
        'POST',
        `/ladders/${id}/decisions`,
        {
          ...{ use: 'bursts', setting: ruled.bursts!.value, who: 'Ann', why: '' },
        },
        201,
      );
      const page = await asked.record.summary();
      expect(page.latestDays[0]!.decisions).toEqual([
        { kind: 'lambda', use: 'bursts', setting: ruled.bursts!.value },
      ]);
    }));

  it('step jets by what was read at them, and leave out what was made at part throttle', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const made: string[] = [];
      for (const more of [
        { jets: 'primary 70', lambdaMeasured: 0.84, lambdaErrorSd: 0.012 },
        { jets: 'primary 68', lambdaMeasured: 0.87, lambdaErrorSd: 0.012 },
        { jets: 'primary 70', lambdaMeasured: 0.85, lambdaErrorSd: 0.012 },
        { lambdaTarget: 0.9 },
        { jets: 'primary 70', lambdaMeasured: 0.92, loadPercent: 60 },
      ]) {
        const body = { leadDeg: 30, peakPowerW: 3e5, ...more };
        made.push((await asked.json<Pull>('POST', `/days/${day.id}/pulls`, body, 201)).id);
      }
      const { id } = await asked.record.ladders.create({ dayId: day.id, setting: 'lambda' });
      const read = async () =>
        ladderReading.parse(await asked.json('GET', `/ladders/${id}/reading`)).input!.pulls;
      const pulls = await read();
      expect(pulls.map(({ setting, settingSd, setBy }) => [setting, settingSd, setBy])).toEqual([
        [0.845, 0.012, 'primary 70'],
        [0.87, 0.012, 'primary 68'],
        [0.845, 0.012, 'primary 70'],
        [0.9, 0, null],
        [0.92, 0.008, 'primary 70'],
      ]);
      expect(pulls.map(({ excludedBecause }) => excludedBecause !== null)).toEqual([
        ...Array(4).fill(false),
        true,
      ]);
      await asked.json('PATCH', `/pulls/${made[3]}`, { lambdaMeasured: 0.893, jets: null });
      expect((await read())[3]!.setting).toBe(0.893);
      await asked.json('PATCH', `/pulls/${made[3]}`, { loadPercent: 100 }, 400);
    }));

  it('say what is missing in the words of their setting', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const lambda = await asked.record.ladders.create({ dayId: day.id, setting: 'lambda' });
      const part = await asked.record.ladders.create({ dayId: day.id, group: 'B' });
      await asked.record.pulls.create({ dayId: day.id, leadDeg: 30, peakPowerW: 3e5 });
      expect(await asked.json('GET', `/ladders/${lambda.id}/reading`)).toMatchObject({
        whyNone: expect.stringContaining('No pull has its lambda yet'),
      });
      expect(await asked.json('GET', `/ladders/${part.id}/reading`)).toMatchObject({
        whyNone: expect.stringContaining('None of the pulls of the day is of this ladder'),
      });
    }));
});

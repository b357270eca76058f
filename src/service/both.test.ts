import { describe, expect, it } from 'vitest';
import { twoReading } from './schema/two.ts';
import { withApp } from './testing.ts';
import { aDay } from './testingDays.ts';

describe('lead and lambda at once over HTTP', () => {
  it('answer from the day’s pulls, and their table is refused with the reason where curves are missing', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      for (const lambdaTarget of [0.82, 0.85, 0.88])
        for (const leadDeg of [26, 28, 30])
          await asked.record.pulls.create({
            dayId: day.id,
            leadDeg,
            lambdaTarget,
            watched: 'ear',
            peakPowerW: 3e5 * (1 - 8e-4 * (leadDeg - 28.5) ** 2 - 2 * (lambdaTarget - 0.86) ** 2),
          });
      const reading = twoReading.parse(await asked.json('GET', `/days/${day.id}/both`));
      expect(reading.whyNone).toBeNull();
      expect(reading.input!.pulls).toHaveLength(9);
      expect(reading.input!.uses[0]).toMatchObject({ holdbackDeg: 2, holdbackLambda: 0.02 });
      const { bestLeadDeg, map, dots } = reading.answer!;
      expect(bestLeadDeg.low ?? 0).toBeLessThan(28.5);
      expect(bestLeadDeg.high ?? 99).toBeGreaterThan(28.5);
      expect(map.lossPercent).toHaveLength(map.lambda.length);
      expect(dots.every(({ state }) => state === 'clean')).toBe(true);
      const refused = await asked.json<{ error: { message: string } }>(
        'GET',
        `/days/${day.id}/both/table?use=bursts`,
        undefined,
        404,
      );
      expect(refused.error.message).toContain('Typed peaks say nothing speed by speed');
    }));

  it('say what is missing', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const why = async () =>
        twoReading.parse(await asked.json('GET', `/days/${day.id}/both`)).whyNone;
      expect(await why()).toContain('No pull yet');
      const pull = await asked.record.pulls.create({ dayId: day.id, peakPowerW: 3e5 });
      expect(await why()).toContain('No pull has its lead yet');
      await asked.record.pulls.update(pull.id, { leadDeg: 30 });
      expect(await why()).toContain('No pull has its lambda yet');
    }));
});

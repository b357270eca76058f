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
      expect(reading.loads).toHaveLength(1);
      const { input, answer, loadPercent } = reading.loads[0]!;
      expect(loadPercent).toBeNull();
      expect(input.pulls).toHaveLength(9);
      expect(input.uses[0]).toMatchObject({ holdbackDeg: 2, holdbackLambda: 0.02 });
      const { bestLeadDeg, map, dots } = answer;
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

  it('take lambda as it was read, with its error, and answer each held load by itself', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      for (const loadPercent of [60, null])
        for (const [jets, read] of [
          ['66', 0.9],
          ['70', 0.86],
        ] as const)
          for (const [i, leadDeg] of [26, 28].entries())
            await asked.json(
              'POST',
              `/days/${day.id}/pulls`,
              {
                ...{ leadDeg, jets, loadPercent, lambdaMeasured: read + 0.01 * i },
                lambdaErrorSd: 0.012,
                peakPowerW: loadPercent === null ? 3e5 : 1.5e5,
              },
              201,
            );
      const reading = twoReading.parse(await asked.json('GET', `/days/${day.id}/both`));
      expect(reading.loads.map(({ loadPercent }) => loadPercent)).toEqual([null, 60]);
      for (const { input } of reading.loads) {
        // One set of jets is one mixture: the mean of what was read at it.
        expect(input.pulls.map(({ lambda }) => lambda)).toEqual([0.905, 0.905, 0.865, 0.865]);
        expect(input.pulls.map(({ lambdaSd }) => lambdaSd)).toEqual(Array(4).fill(0.012));
        expect(input.pulls.map(({ setBy }) => setBy)).toEqual(['66', '66', '70', '70']);
      }
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

import { describe, expect, it } from 'vitest';
import { CURVE_VERSION } from '../pull/index.ts';
import type { Decision } from '../record/index.ts';
import { decision as decisionSchema } from './schema/decisions.ts';
import { ladderReading } from './schema/results.ts';
import { type Asked, withApp } from './testing.ts';
import { aDay } from './testingDays.ts';

/** Four rungs typed as a shop types them, 1 hp = 745.69987158 W. */
async function fourRungs(asked: Asked) {
  const { day, ladder } = await aDay(asked);
  for (const [leadDeg, hp] of [
    [32, 775],
    [34, 799],
    [36, 818],
    [38, 823],
  ] as const)
    await asked.record.pulls.create({ dayId: day.id, leadDeg, peakPowerW: hp * 745.69987158 });
  return { day, ladder, pulls: await asked.record.pulls.list({ dayId: day.id }) };
}
const said = { use: 'bursts', setting: 35, who: 'Ann', why: 'hot summer' };

describe('a decision over HTTP', () => {
  it('keeps what was advised then, whatever the ladder says later', () =>
    withApp(async (asked) => {
      const { ladder, pulls } = await fourRungs(asked);
      const path = `/ladders/${ladder.id}/reading`;
      const then = ladderReading.parse(await asked.json('GET', path)).answer!;
      const made = await asked.json<Decision>('POST', `/ladders/${ladder.id}/decisions`, said, 201);
      decisionSchema.strict().parse(made);
      expect(made.advice).toMatchObject({ value: 36, why: then.uses.bursts!.why });
      expect(made.advice!.evidence).toMatchObject({
        ladderVersion: then.version,
        curveVersion: CURVE_VERSION,
        standard: 'SAE J1349',
        best: then.best,
        next: then.next,
        pullIds: pulls.map((pull) => pull.id),
      });
      expect(
        made.advice!.evidence!.uses.map(({ rule, answer }) => [rule.name, answer.value]),
      ).toEqual([
        ['bursts', 36],
        ['sustained', 34],
      ]);
      await asked.record.pulls.update(pulls[3]!.id, { knockHeard: true, watched: 'ear' });
      await asked.record.pulls.update(pulls[2]!.id, { excludedBecause: 'cold oil' });
      const now = ladderReading.parse(await asked.json('GET', path)).answer!;
      expect(now.uses.bursts!.value).not.toBe(36);
      const after = await asked.json<Decision>('PATCH', `/decisions/${made.id}`, { why: 'w' });
      expect(after.advice).toEqual(made.advice);
      await asked.json('PATCH', `/decisions/${made.id}`, { advice: null }, 400);
    }));

  it('advises as the screen stood where it was not what the record holds', () =>
    withApp(async (asked) => {
      const { ladder } = await fourRungs(asked);
      const uses = [
        {
          name: 'bursts',
          holdback: 5,
          speedsRpm: null,
          chancePastBest: 0.025,
          chancePastLimit: 0.01,
        },
      ];
      const made = await asked.json<Decision>(
        'POST',
        `/ladders/${ladder.id}/decisions`,
        { ...said, asShown: { uses, standard: 'none' } },
        201,
      );
      expect(made.advice!.value).toBe(33);
      expect(made.advice!.evidence).toMatchObject({
        standard: 'none',
        uses: [{ rule: { name: 'bursts', holdback: 5 } }],
      });
    }));

  it('is refused where the person saw another figure than the ladder now advises', () =>
    withApp(async (asked) => {
      const { ladder } = await fourRungs(asked);
      const path = `/ladders/${ladder.id}/decisions`;
      const refused = await asked.json('POST', path, { ...said, advised: 38 }, 409);
      expect(refused).toMatchObject({
        error: { message: expect.stringContaining('now advises 36 for bursts, not 38') },
      });
      expect(await asked.json('GET', path)).toEqual([]);
      await asked.json('POST', path, { ...said, advised: 36 }, 201);
    }));

  it('can be made before the ladder has an answer, and then has no advice', () =>
    withApp(async (asked) => {
      const { ladder } = await aDay(asked);
      const made = await asked.json('POST', `/ladders/${ladder.id}/decisions`, said, 201);
      expect(made).toMatchObject({ setting: 35, advice: null });
    }));
});

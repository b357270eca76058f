import { beforeAll, describe, expect, it } from 'vitest';
import {
  answerLadder,
  LAMBDA,
  type LadderAnswer,
  SHIPPED_MIXTURE_USES,
} from '../../src/ladder/index.ts';
import { answerTwo, type TwoAnswer } from '../../src/ladder/two/index.ts';
import type { SettingInterval } from '../../src/ladder/types.ts';
import { share } from './judge.ts';
import { MIXTURE_SHAPES, type TwoDay, twoDay } from './two-cell.ts';

/*
 * Lead and lambda against known truth, on a cell whose shapes are published ones and none of them the model's.
 * Run once with 134 seeds a mixture (402 days, 26 November 2026; TRUTH_DAYS=134 of this test): best lead held 95.5 %,
 * best lambda 98.0, ridge 94.9, loss on the map 95.9, best lead by speed 96.6, best lambda by speed 97.3; settings left
 * past the true best 0.5 %. Ladders of mixture over the same seeds: best held 97.9 %, steps 96.8, settings past the best
 * 0.3 %. With few days a share scatters: the lower bounds here are three sds of it wide.
 */
const DAYS = Number(process.env.TRUTH_DAYS ?? 3);

const inside = (value: number, { low, high }: SettingInterval) =>
  (low === null || value >= low) && (high === null || value <= high);

function expectHonest(entries: readonly boolean[], clusters: number): void {
  const slack = 3 * Math.sqrt((0.05 * 0.95) / clusters);
  expect(entries.length).toBeGreaterThan(0);
  expect(share(entries)).toBeGreaterThanOrEqual(0.92 - slack);
}

describe('days with lead and lambda at once', () => {
  const days: { day: TwoDay; answer: TwoAnswer }[] = [];
  beforeAll(() => {
    for (const mixture of MIXTURE_SHAPES)
      for (let seed = 1; seed <= DAYS; seed++) {
        const day = twoDay({ mixture, seed });
        days.push({ day, answer: answerTwo(day.input) });
      }
  }, 600_000);

  it('hold the best of both, the ridge and the loss on the map', () => {
    const held = (of: (one: (typeof days)[number]) => readonly boolean[]) =>
      expectHonest(days.flatMap(of), days.length);
    held(({ day, answer }) =>
      answer.bestLeadDeg.value === null ? [] : [inside(day.truth.bestLeadDeg, answer.bestLeadDeg)],
    );
    held(({ day, answer }) =>
      answer.bestLambda.value === null ? [] : [inside(day.truth.bestLambda, answer.bestLambda)],
    );
    held(({ day, answer: { ridge } }) =>
      ridge.lambda.flatMap((lambda, i) =>
        i % 6 === 0
          ? [
              day.truth.ridge(lambda) >= ridge.lowDeg[i]! &&
                day.truth.ridge(lambda) <= ridge.highDeg[i]!,
            ]
          : [],
      ),
    );
    held(({ day, answer: { map } }) =>
      map.lambda.flatMap((lambda, i) =>
        map.leadDeg.flatMap((leadDeg, j) =>
          i % 6 === 0 && j % 8 === 0 && map.known[i]![j]!
            ? [
                Math.abs(100 * day.truth.loss(leadDeg, lambda) - map.lossPercent[i]![j]!) <=
                  map.halfPercent[i]![j]!,
              ]
            : [],
        ),
      ),
    );
  });

  it('hold the best of both at each speed of the table', () => {
    const rows = days.flatMap(({ day, answer }) =>
      (answer.tables[0]!.rows ?? []).map((row) => ({ row, best: day.truth.bestAt(row.speedRpm) })),
    );
    expect(rows.length).toBeGreaterThan(20);
    expectHonest(
      rows.map(({ row, best }) => inside(best.leadDeg, row.bestLeadDeg)),
      days.length,
    );
    expectHonest(
      rows.map(({ row, best }) => inside(best.lambda, row.bestLambda)),
      days.length,
    );
  });

  it('recover the ridge: most of the middle estimates lie within a degree and a half of it', () => {
    const off = days.map(({ day, answer: { ridge } }) => {
      const i = ridge.lambda.length >> 1;
      return Math.abs(ridge.leadDeg[i]! - day.truth.ridge(ridge.lambda[i]!));
    });
    expect(off.filter((one) => one < 1.5).length / off.length).toBeGreaterThan(0.7);
  });

  it('leave settings and tables on the safe side of the true best', () => {
    const past = days.flatMap(({ day, answer }) =>
      answer.uses.flatMap(({ leadDeg, lambda }) =>
        leadDeg === null || lambda === null
          ? []
          : [leadDeg > day.truth.ridge(lambda), lambda > day.truth.bestLambda],
      ),
    );
    expect(past.length).toBeGreaterThan(20);
    expect(share(past)).toBeLessThanOrEqual(0.07);
  });
});

describe('ladders of mixture', () => {
  const days: { best: number; answer: LadderAnswer; gain: (from: number, to: number) => number }[] =
    [];
  beforeAll(() => {
    for (const mixture of MIXTURE_SHAPES)
      for (let seed = 1; seed <= 2 * DAYS; seed++) {
        const { input, truth } = twoDay({ mixture, seed, size: [1, 6] });
        const lead = input.pulls[0]!.leadDeg;
        const power = (lambda: number) => 1 - truth.loss(lead, lambda);
        let best = 0.7;
        for (let at = 0.7; at < 1.1; at += 0.001) if (power(at) > power(best)) best = at;
        days.push({
          best,
          gain: (from, to) => 100 * (power(to) / power(from) - 1),
          answer: answerLadder({
            ...input,
            kind: LAMBDA,
            pulls: input.pulls.map((pull) => ({ ...pull, setting: pull.lambda })),
            uses: SHIPPED_MIXTURE_USES,
            step: 0.01,
            worstInletDeltaK: 0,
            worstFuelDeltaOctane: 0,
            holdbackPer10K: 0,
            holdbackPerOctane: 0,
          }),
        });
      }
  }, 600_000);

  it('hold the best mixture and the gain of each step', () => {
    expectHonest(
      days.flatMap(({ best, answer }) =>
        answer.best.value === null ? [] : [inside(best, answer.best)],
      ),
      days.length,
    );
    expectHonest(
      days.flatMap(({ answer, gain }) =>
        answer.steps.map(({ from, to, lowPercent: low, highPercent: high }) =>
          inside(gain(from, to), { value: null, low, high }),
        ),
      ),
      days.length,
    );
  });

  it('leave richer than the true best', () => {
    const past = days.flatMap(({ best, answer }) =>
      Object.values(answer.uses).flatMap(({ value }) => (value === null ? [] : [value > best])),
    );
    expect(share(past)).toBeLessThanOrEqual(0.07);
  });
});

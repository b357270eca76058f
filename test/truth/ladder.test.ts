import { beforeAll, describe, expect, it } from 'vitest';
import { simulateDay } from '../../demo/cell.ts';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import {
  dayOfKind,
  KINDS_OF_DAY,
  type KindOfDay,
  LEAST_SOAK_PERCENT,
} from '../../demo/kinds-of-day.ts';
import { answerLadder } from '../../src/ladder/index.ts';
import { curveOf, findPulls } from '../../src/pull/index.ts';
import { ladderInputOf } from '../../src/report/ladderInput.ts';
import { judge, share, tableOf, type Verdict } from './judge.ts';
import { OTHER_SHAPES, type OtherShape, otherDay } from './other-cell.ts';

/*
 * Answers against known truth. The simulated cell's torque falls away from its best by four shapes, none of them the
 * model's; pulls are off by offsets, drift and coloured wander; knock comes in counts. Most days are made at the level
 * of curves, for speed; the rest go the whole way from samples (lag, inertia, noise, spikes, blips) through the pull
 * room; a second cell, of which no prior was settled, checks that the priors do not merely fit the first.
 * The figures asserted are those that the product promises. Seeds count up from 1 and were not chosen.
 */

/** At the level of curves, a kind; more where 250 days scatter too much about an end of what is promised. */
const CURVE_DAYS = 250;
const MORE_DAYS: Readonly<Partial<Record<KindOfDay, number>>> = {
  knock: 500,
  'knock in the way': 500,
};
/** From samples, a kind. */
const SAMPLE_DAYS = 12;
/** On the second cell, a shape and repeatability. */
const OTHER_DAYS = 50;
const OTHER_REPEATS_PERCENT = [0.25, 0.4, 0.7];
const WORTH_PERCENT = 0.75;
/** Ladders cut off before their best: where they answer, the interval is open above and can hardly miss. */
const CUT_OFF: readonly KindOfDay[] = ['unfinished', 'short'];

interface CurveVerdict extends Verdict {
  readonly soaked: boolean;
}

function curveDay(kind: KindOfDay, seed: number): CurveVerdict {
  const day = simulateCurveDay(dayOfKind(kind, seed));
  const soaked = Math.abs(day.knobs.driftPercentPerPull) >= LEAST_SOAK_PERCENT;
  return { ...judge(day, answerLadder(day.input), WORTH_PERCENT), soaked };
}

function sampleDay(kind: KindOfDay, seed: number): Verdict {
  const options = dayOfKind(kind, seed);
  const day = simulateDay(options);
  const { input } = simulateCurveDay(options);
  const pulls = day.recordings.map((recording, order) => ({
    ...input.pulls[order]!,
    curve: curveOf(recording, findPulls(recording)[0]!, day.curveOptions),
  }));
  return judge(day, answerLadder(ladderInputOf(pulls, input)), WORTH_PERCENT);
}

const seeds = (count: number, from = 1) => Array.from({ length: count }, (_, i) => from + i);

/** The promise of every 95 % interval. */
function expectHonest(entries: readonly (boolean | null)[]): void {
  expect(share(entries)).toBeGreaterThanOrEqual(0.92);
  expect(share(entries)).toBeLessThanOrEqual(0.98);
}

function expectHonestSteps(verdicts: readonly Verdict[]): void {
  expectHonest(verdicts.flatMap((verdict) => verdict.stepsHeld));
  expectHonest(verdicts.flatMap((verdict) => verdict.stepCurvesHeld));
}

describe('thousands of days at the level of curves', () => {
  const kinds = new Map<KindOfDay, CurveVerdict[]>();
  const of = (wanted: readonly KindOfDay[]) => wanted.flatMap((kind) => kinds.get(kind)!);
  const all = () => of(KINDS_OF_DAY);
  const full = () => of(KINDS_OF_DAY.filter((kind) => !CUT_OFF.includes(kind)));

  beforeAll(() => {
    for (const kind of KINDS_OF_DAY) {
      kinds.set(
        kind,
        seeds(MORE_DAYS[kind] ?? CURVE_DAYS).map((seed) => curveDay(kind, seed)),
      );
    }
    console.log(tableOf(kinds));
  }, 300_000);

  for (const kind of KINDS_OF_DAY.filter((one) => !CUT_OFF.includes(one))) {
    it(`holds best and following gain in 92 to 98 % of the answered days (${kind})`, () => {
      expectHonest(of([kind]).map((verdict) => verdict.bestHeld));
      expectHonest(of([kind]).map((verdict) => verdict.followingHeld));
    });
  }

  for (const kind of KINDS_OF_DAY) {
    it(`holds steps and steps by speed in 92 to 98 % (${kind})`, () => {
      expectHonestSteps(of([kind]));
    });
  }

  it('holds best and following gain in at least 92 % of the answered days of ladders cut off', () => {
    expect(share(of(CUT_OFF).map((verdict) => verdict.bestHeld))).toBeGreaterThanOrEqual(0.92);
    expect(share(of(CUT_OFF).map((verdict) => verdict.followingHeld))).toBeGreaterThanOrEqual(0.92);
  });

  it.each([true, false])('is honest whether or not heat soaked in (%s)', (soaked) => {
    const days = full().filter((verdict) => verdict.soaked === soaked);
    expectHonest(days.map((verdict) => verdict.bestHeld));
    expectHonestSteps(days);
    expectHonest(days.map((verdict) => verdict.followingHeld));
  });

  it('leaves a setting past the true limit in at most 1 %', () => {
    const past = all().flatMap((verdict) => verdict.pastLimit);
    expect(past.length).toBeGreaterThan(400);
    expect(share(past)).toBeLessThanOrEqual(0.01);
  });

  it('leaves a setting past the true best in at most 2.5 %', () => {
    expect(share(all().flatMap((verdict) => verdict.pastBest))).toBeLessThanOrEqual(0.025);
  });

  it('gives up at most 1.5 % against the best that the rule permits, in at least 95 % of each kind', () => {
    for (const verdicts of kinds.values()) {
      const given = verdicts.flatMap((verdict) => verdict.givenUp);
      expect(share(given.map((loss) => loss <= 1.5))).toBeGreaterThanOrEqual(0.95);
    }
  });

  it('calls a ladder finished before its knee in at most 5 %', () => {
    const early = of(CUT_OFF).map((verdict) => verdict.finishedEarly);
    expect(early.filter((entry) => entry !== null).length).toBeGreaterThan(100);
    expect(share(early)).toBeLessThanOrEqual(0.05);
  });

  it('gives limits that hold the truth in at least 92 %', () => {
    // Above 98 % where knock is in the way: many rungs beyond the limit locate it within the rounding of its onset.
    expect(share(all().map((verdict) => verdict.limitHeld))).toBeGreaterThanOrEqual(0.92);
  });

  it('answers nearly all ladders whose operator had seen enough', () => {
    expect(share(full().map(({ bestHeld }) => bestHeld !== null))).toBeGreaterThan(0.9);
  });
});

describe('days from samples', () => {
  const kinds = new Map<KindOfDay, Verdict[]>();
  const all = () => [...kinds.values()].flat();

  beforeAll(() => {
    for (const kind of KINDS_OF_DAY) {
      kinds.set(
        kind,
        seeds(SAMPLE_DAYS, 1001).map((seed) => sampleDay(kind, seed)),
      );
    }
    console.log(tableOf(new Map([['from samples', all()]])));
  }, 300_000);

  it('are as honest', () => {
    expectHonest(all().map((verdict) => verdict.bestHeld));
    expectHonestSteps(all());
    expect(share(all().map((verdict) => verdict.followingHeld))).toBeGreaterThanOrEqual(0.92);
  });

  it('keep to limit, best and power given up', () => {
    expect(share(all().flatMap((verdict) => verdict.pastLimit))).toBeLessThanOrEqual(0.01);
    expect(share(all().flatMap((verdict) => verdict.pastBest))).toBeLessThanOrEqual(0.025);
    const given = all().flatMap((verdict) => verdict.givenUp);
    expect(share(given.map((loss) => loss <= 1.5))).toBeGreaterThanOrEqual(0.95);
  });

  it('are not called finished early', () => {
    expect(share(all().map((verdict) => verdict.finishedEarly))).toBeLessThanOrEqual(0.05);
  });
});

describe('days of another cell', () => {
  const shapes = new Map<OtherShape, Verdict[]>();
  const all = () => [...shapes.values()].flat();

  beforeAll(() => {
    const lines = new Map<string, readonly Verdict[]>();
    for (const shape of OTHER_SHAPES) {
      for (const repeatPercent of OTHER_REPEATS_PERCENT) {
        const verdicts = seeds(OTHER_DAYS).map((seed) => {
          const day = otherDay(shape, repeatPercent, seed);
          return judge(day, answerLadder(day.input), WORTH_PERCENT);
        });
        lines.set(`${shape} ${repeatPercent} %`, verdicts);
        shapes.set(shape, [...(shapes.get(shape) ?? []), ...verdicts]);
      }
    }
    console.log(tableOf(lines));
  }, 300_000);

  it.each(OTHER_SHAPES)('are as honest, over its repeatabilities (%s)', (shape) => {
    expectHonest(shapes.get(shape)!.map((verdict) => verdict.bestHeld));
    expectHonestSteps(shapes.get(shape)!);
    // This cell's best moves little with speed: an interval that reaches down to no gain at all hardly misses.
    const following = shapes.get(shape)!.map((verdict) => verdict.followingHeld);
    expect(share(following)).toBeGreaterThanOrEqual(0.92);
  });

  it('keep to best and power given up', () => {
    expect(share(all().flatMap((verdict) => verdict.pastBest))).toBeLessThanOrEqual(0.025);
    const given = all().flatMap((verdict) => verdict.givenUp);
    expect(share(given.map((loss) => loss <= 1.5))).toBeGreaterThanOrEqual(0.95);
  });
});

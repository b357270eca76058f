/** Lead and lambda at once as they cross HTTP. */
import { airStandard, banded, id, list, numberOrNull, z } from './common.ts';
import { pullSeen, settingInterval } from './results.ts';

const numbers = list(z.number());
const band = z.tuple([z.number(), z.number()]).readonly();
const place = z.object({ leadDeg: z.number(), lambda: z.number() });

const twoInput = z
  .object({
    pulls: list(
      place.extend({
        id,
        lambdaSd: z.number(),
        day: z.number(),
        ...pullSeen,
      }),
    ),
    bandRpm: band,
    uses: list(
      z.object({
        name: z.string(),
        holdbackDeg: z.number(),
        holdbackLambda: z.number(),
        chancePastBest: z.number(),
      }),
    ),
    aspiration: z.enum(['natural', 'boosted', 'nitrous']),
    stepDeg: z.number(),
    stepLambda: z.number(),
    worthPercent: z.number(),
    repeatabilityPercent: numberOrNull,
    exhaustLimitK: numberOrNull,
    extraHoldbackDeg: z.number(),
    table: z.object({
      everyRpm: z.number(),
      steepestDeg: z.number(),
      steepestLambda: z.number(),
    }),
  })
  .openapi('TwoInput', {
    description: 'All that lead and lambda at once are computed from; also for the browser.',
  });

const twoAnswer = z
  .object({
    version: z.number(),
    headline: z.string(),
    summary: z.string(),
    bestLeadDeg: settingInterval,
    bestLambda: settingInterval,
    ridgeDegPerTenth: banded,
    limitWatched: z.boolean(),
    repeatabilityPercent: banded,
    next: z.object({
      action: z.enum(['pull', 'repeat', 'back', 'stop']),
      at: place.nullable(),
      worthPercent: numberOrNull,
      why: z.string(),
    }),
    uses: list(
      z.object({
        name: z.string(),
        leadDeg: numberOrNull,
        lambda: numberOrNull,
        givesUpPercent: numberOrNull,
        chancePastBest: numberOrNull,
        why: z.string(),
      }),
    ),
    ridge: z.object({ lambda: numbers, leadDeg: numbers, lowDeg: numbers, highDeg: numbers }),
    map: z.object({
      leadDeg: numbers,
      lambda: numbers,
      lossPercent: list(numbers),
      halfPercent: list(numbers),
      known: list(list(z.boolean())),
      open: list(list(z.boolean())),
    }),
    dots: list(
      place.extend({
        id,
        meanPowerW: numberOrNull,
        state: z.enum(['clean', 'limit', 'not watched', 'left out']),
      }),
    ),
    tables: list(
      z.object({
        use: z.string(),
        rows: z
          .array(
            z.object({
              speedRpm: z.number(),
              leadDeg: z.number(),
              lambda: z.number(),
              bestLeadDeg: settingInterval,
              bestLambda: settingInterval,
            }),
          )
          .readonly()
          .nullable(),
        why: z.string(),
      }),
    ),
    warnings: list(z.string()),
  })
  .openapi('TwoAnswer', {
    description:
      'Best of both with intervals, the ridge, loss over the plane (rows follow lambda), the next pull, what to leave, tables by speed.',
  });

export const twoReading = z
  .object({
    dayId: id,
    standard: airStandard,
    fuel: z.string(),
    loads: list(
      z.object({
        loadPercent: numberOrNull.openapi({ description: 'null: full throttle.' }),
        input: twoInput,
        answer: twoAnswer,
      }),
    ).openapi({
      description:
        'One a load that was held; empty: nothing to compute from yet, and whyNone says.',
    }),
    whyNone: z.string().nullable(),
  })
  .openapi('TwoReading');

/** Decisions as they cross HTTP, each with the advice that stood beside it, frozen. */
import {
  airStandard,
  bandRpm,
  id,
  isoTime,
  label,
  list,
  numberOrNull,
  orNull,
  positive,
  text,
  z,
} from './common.ts';
import { nextMove, settingInterval, useAnswer, useRule } from './results.ts';

const adviceEvidence = z
  .object({
    curveVersion: z.number().int(),
    ladderVersion: z.number().int(),
    standard: airStandard,
    bandRpm,
    step: positive,
    pullIds: list(id).openapi({ description: 'The pulls that counted.' }),
    headline: text,
    best: settingInterval,
    knee: settingInterval,
    limit: orNull(settingInterval),
    limitWatched: z.boolean(),
    next: nextMove,
    uses: list(z.object({ rule: useRule, answer: useAnswer })),
    warnings: list(text),
  })
  .openapi('AdviceEvidence', {
    description: 'All that the advice rested on and said, in the unit of the ladder’s setting.',
  });
export const advice = z
  .object({
    value: numberOrNull.openapi({ description: 'The setting advised; null: none yet.' }),
    why: text,
    evidence: orNull(adviceEvidence),
  })
  .openapi('Advice', {
    description: 'What Pullbook advised at that moment; nothing changes it afterwards.',
  });

const decisionFields = z.object({
  use: label.min(1),
  setting: z.number().min(-90).max(180).nullable().openapi({
    description: 'In the unit of the ladder’s setting (crank degrees for lead).',
  }),
  who: label.min(1),
  why: text,
});
export const decision = decisionFields
  .extend({ id, ladderId: id, decidedAt: isoTime, advice: orNull(advice) })
  .openapi('Decision');
export const newDecision = decisionFields
  .extend({
    advised: numberOrNull.optional().openapi({
      description:
        'The figure that the person saw advised; 409 where the ladder no longer advises it.',
    }),
    asShown: z
      .object({ standard: airStandard, bandRpm, uses: list(useRule) })
      .partial()
      .strict()
      .optional()
      .openapi({
        description: 'What the person looked at where it was not what the record holds.',
      }),
  })
  .strict()
  .openapi('NewDecision', {
    description: 'The advice that is kept beside it is computed by the service at that moment.',
  });
export const decisionPatch = decisionFields.partial().strict().openapi('DecisionPatch');

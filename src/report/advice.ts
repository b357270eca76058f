import type { LadderAnswer, LadderInput } from '../ladder/types.ts';
import type { AirStandard } from '../pull/recording.ts';
import type { Advice } from '../record/types.ts';

/** What a ladder advises for one use at this moment, with all it rests on, ready to be kept beside a decision. */
export function adviceOf(
  use: string,
  input: LadderInput,
  answer: LadderAnswer,
  made: { readonly standard: AirStandard; readonly curveVersion: number },
): Advice {
  const advised = answer.uses[use];
  return {
    value: advised?.value ?? null,
    why: advised?.why ?? `There is no rule for ${use} here.`,
    evidence: {
      curveVersion: made.curveVersion,
      ladderVersion: answer.version,
      standard: made.standard,
      bandRpm: input.bandRpm,
      step: input.step,
      pullIds: input.pulls.filter((pull) => pull.excludedBecause === null).map(({ id }) => id),
      headline: answer.headline,
      best: answer.best,
      knee: answer.knee,
      limit: answer.limit,
      limitWatched: answer.limitWatched,
      next: answer.next,
      uses: input.uses.flatMap((rule) => {
        const one = answer.uses[rule.name];
        return one === undefined ? [] : [{ rule, answer: one }];
      }),
      warnings: answer.warnings,
    },
  };
}

import { settingForUse } from './decide.ts';
import { exhaustLimitOf, type LimitFinding, limitForUse, type UseLimit } from './limit.ts';
import type { Move } from './next.ts';
import type { ResponsePosterior } from './posterior.ts';
import { useAnswerOf } from './sentences.ts';
import type { LadderAnswer, LadderInput, LadderPull } from './types.ts';

/** Fewest distinct rungs from which a setting is given, unless a limit is in the way. */
export const LEAST_RUNGS = 3;
/** No setting is given while a finished ladder may well permit a better one with more than this chance. */
const SHORT_CHANCE = 0.15;

/**
 * The setting to leave for each use. The holdback grows for the owner's worst fuel and hottest inlet whichever of best,
 * clean rung and limit is lowest: where the best is, the limit was not reached and nobody knows how far off it is.
 */
export function usesOf(
  input: LadderInput,
  posterior: ResponsePosterior,
  limit: LimitFinding,
  chosen: ReadonlySet<LadderPull>,
  move: Move,
  rungs: number,
  bestKnown: boolean,
  mirror: number,
): LadderAnswer['uses'] {
  const extra =
    (Math.max(0, input.worstInletDeltaK) / 10) * input.holdbackPer10K +
    Math.max(0, input.worstFuelDeltaOctane) * input.holdbackPerOctane;
  return Object.fromEntries(
    input.uses.map((rule) => {
      const useLimit: UseLimit = limitForUse(
        limit,
        chosen,
        rule.speedsRpm ?? input.bandRpm,
        mirror,
        exhaustLimitOf(input),
      );
      const setting = settingForUse(rule, extra, posterior, useLimit, input.step);
      const located = useLimit.draws !== null;
      // Where more rungs are wanted, a setting is given only if the best is known and is not likely to move it much.
      const wanting = move.action === 'pull' || move.action === 'repeat';
      const early =
        !located &&
        (rungs < LEAST_RUNGS ||
          (wanting && !bestKnown) ||
          (move.action === 'pull' && setting.chanceShort > SHORT_CHANCE));
      return [
        rule.name,
        useAnswerOf(
          input,
          setting,
          extra,
          {
            early,
            watched: limit.watched,
            cleanHereOnly: useLimit.clean !== limit.highestClean,
          },
          move,
          mirror,
        ),
      ];
    }),
  );
}

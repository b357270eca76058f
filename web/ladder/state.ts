import type { LadderAnswer, LadderInput, LadderPull } from '../../src/ladder/types.ts';

export type LadderState =
  | 'no pulls'
  | 'one pull'
  | 'no rule'
  | 'pulls disagree'
  | 'limit in the way'
  | 'still climbing'
  | 'finished';

export const counted = (input: LadderInput): readonly LadderPull[] =>
  input.pulls.filter((pull) => pull.excludedBecause === null);

/** Distinct settings of the pulls that count, from the smallest. */
export const rungsOf = (input: LadderInput): readonly number[] =>
  [...new Set(counted(input).map((pull) => pull.setting))].sort((a, b) => a - b);

/** True where no pull that counts has a curve: then there is nothing by speed to show. */
export const onlyPeaks = (input: LadderInput): boolean =>
  counted(input).every((pull) => pull.torque === null);

/** What the page has to say first. Without an answer it can only speak of how many pulls there are. */
export function stateOf(input: LadderInput, answer: LadderAnswer | null): LadderState {
  const pulls = counted(input).length;
  if (pulls === 0) return 'no pulls';
  if (pulls === 1 || rungsOf(input).length === 1 || answer === null) return 'one pull';
  if (input.aspiration !== 'natural') return 'no rule';
  if (answer.next.action === 'repeat') return 'pulls disagree';
  if (answer.next.action === 'back' || limitStandsInTheWay(input, answer))
    return 'limit in the way';
  return answer.next.action === 'pull' ? 'still climbing' : 'finished';
}

/** The limit lies on the safe side of the best, or of wherever the best may still be. */
export function limitStandsInTheWay(input: LadderInput, answer: LadderAnswer): boolean {
  const limit = answer.limit?.value;
  if (limit === null || limit === undefined) return false;
  const lower = input.kind.safeDirection === 'lower';
  const best = answer.best.value ?? (lower ? answer.best.high : answer.best.low);
  if (best === null) return true;
  return lower ? limit < best : limit > best;
}

/** Speeds there are curves for; null for typed peaks. */
export function speedsRun(input: LadderInput): readonly [number, number] | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { torque } of counted(input)) {
    if (torque === null) continue;
    low = Math.min(low, torque.low);
    high = Math.max(high, torque.high);
  }
  return low < high ? [Math.ceil(low), Math.floor(high)] : null;
}

import type { PartAnswer } from '../../../src/compare/partAnswer.ts';
import { chance, interval, percent, plain, signedPercent, withUnit } from '../../charts/numbers.ts';

interface Names {
  readonly a: string;
  readonly b: string;
}

/** What is read from across the cell: go on with which, or enough and why. */
export function partHeadline(answer: PartAnswer, { a, b }: Names): string {
  const { gain, word, action, next } = answer;
  if (action === 'go on')
    return next === null ? 'Go on' : `Go on: next a pull of ${next === 'a' ? a : b}`;
  if (gain === null) return 'The part cannot be told from the day yet';
  if (word === 'gain') return `Enough: ${b} gains ${percent(Math.abs(gain.value))}`;
  if (word === 'loss') return `Enough: ${b} costs ${percent(Math.abs(gain.value))}`;
  return `Enough: no difference larger than ${percent(answer.noLargerThanPercent)}`;
}

/** The gain as a figure, and what stands under it. */
export function gainFigure({ gain, word, chanceAhead, action }: PartAnswer, { b }: Names) {
  if (gain === null) return { figure: 'not yet', aside: 'too few pulls of each', known: false };
  const known = word !== 'cannot be told from chance';
  const said = known || action === 'stop' ? word : 'not decided yet';
  const odds =
    chanceAhead === null ? '' : `; the chance that ${b} is ahead is ${chance(chanceAhead)}`;
  return {
    figure: signedPercent(gain.value),
    aside: `${withUnit(interval(gain.low, gain.high), '%')}, ${said}${odds}`,
    known,
  };
}

/** The day's own drift with each pull. */
export function driftFigure({ driftPercent }: PartAnswer) {
  if (driftPercent === null)
    return { figure: 'not yet', aside: 'the day’s own drift shows after some pulls', known: false };
  const { value, low, high } = driftPercent;
  return {
    figure: signedPercent(value, 2),
    aside: `a pull, ${withUnit(interval(low, high, 2), '%')}${low <= 0 && high >= 0 ? ': none that can be told' : ': taken out of the gain'}`,
    known: low > 0 || high < 0,
  };
}

/** `3 and 3 of at most 7 each`. */
export const madeOfPlan = ({ pulls }: PartAnswer, blocks: number): string =>
  `${plain(pulls.a, 0)} and ${plain(pulls.b, 0)} of at most ${plain(blocks, 0)} each are made`;

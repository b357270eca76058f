import {
  belongsTo,
  type SteppedSetting,
  settingIn,
  steppedIn,
} from '../../../src/ladder/members.ts';
import type { Ladder, NewLadder, Pull } from '../../api/types.gen.ts';
import { choiceInWords, settingText } from './ladder-words.ts';

/** A ladder that the pulls of the day make and nobody has opened yet. */
export interface LadderOffer {
  readonly key: string;
  readonly sentence: string;
  readonly ladder: NewLadder;
}

/** Ladders that a day's pulls make beyond those it has: a setting varied while the other was held. */
export function ladderOffers(
  pulls: readonly Pull[],
  ladders: readonly Ladder[],
  dayLambda: number | null,
): readonly LadderOffer[] {
  const membersOf = (choice: Ladder | SteppedSetting) =>
    pulls
      .filter(
        (pull) =>
          belongsTo(choice, pull, dayLambda) && settingIn(choice.setting, pull, dayLambda) !== null,
      )
      .map((pull) => pull.id)
      .join(' ');
  const standing = new Set(ladders.map((ladder) => `${ladder.setting} ${membersOf(ladder)}`));
  return steppedIn(pulls, dayLambda).flatMap((found) => {
    const { low, high, pulls: count, ...choice } = found;
    if (standing.has(`${found.setting} ${membersOf(found)}`)) return [];
    const span = `${settingText(low, found.setting)} to ${settingText(high, found.setting)}`;
    const held = choiceInWords(found, pulls);
    return [
      {
        key: JSON.stringify(choice),
        sentence: `${found.setting === 'lead' ? 'Lead' : 'Lambda'} ${span}, ${held} (${count} pulls)`,
        ladder: choice,
      },
    ];
  });
}

/** Whether lead and lambda both took two values or more: then both at once have an answer of their own. */
export function bothVary(pulls: readonly Pull[], dayLambda: number | null): boolean {
  const values = (name: 'lead' | 'lambda') =>
    new Set(pulls.map((pull) => settingIn(name, pull, dayLambda)).filter((at) => at !== null)).size;
  return values('lead') > 1 && values('lambda') > 1;
}

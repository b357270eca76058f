import type { UseSetting } from './decide.ts';
import type { Move } from './next.ts';
import type { LadderAnswer, LadderInput, SettingKind, UseAnswer } from './types.ts';
import { chanceText, distanceText, percentText, settingText, unwatched } from './words.ts';

interface Knowing {
  /** Too early to say: a finished ladder may permit a better setting. */
  readonly early: boolean;
  readonly watched: boolean;
  /** The rung that counts as clean for this use knocked at speeds that the use does not visit. */
  readonly cleanHereOnly: boolean;
}

/** The setting for one use in figures and one sentence. */
export function useAnswerOf(
  input: LadderInput,
  setting: UseSetting,
  extra: number,
  { early, watched, cleanHereOnly }: Knowing,
  move: Move,
  mirror: number,
): UseAnswer {
  const { kind } = input;
  const said = watched ? (why: string) => why : unwatched;
  const nothing = (why: string): UseAnswer => ({
    value: null,
    givesUpPercent: null,
    chancePastBest: null,
    chancePastLimit: null,
    holdback: setting.holdback,
    why: said(why),
  });
  if (input.aspiration !== 'natural') {
    return nothing(
      `No rule is shipped for ${input.aspiration === 'boosted' ? 'a boosted engine' : 'an engine on nitrous'}: its knock limit decides, and the shop must set its own.`,
    );
  }
  if (setting.u === null) {
    return nothing('Not known yet: no rung has run clean.');
  }
  if (early) {
    const where = move.u === null ? '' : ` (next: ${settingText(mirror * move.u, kind)})`;
    return nothing(
      `Not known yet: the ladder has not come near enough to its best or a limit${where}.`,
    );
  }
  const value = mirror * setting.u;
  const name = {
    best: `the best near ${settingText(mirror * setting.base, kind)}`,
    clean: watched
      ? `${settingText(mirror * setting.base, kind)}, the highest rung that ran clean${cleanHereOnly ? ' at the speeds of this use' : ''}`
      : `${settingText(mirror * setting.base, kind)}, the highest rung run`,
    limit: `the limit near ${settingText(mirror * setting.base, kind)}`,
  }[setting.from];
  const standing = distanceText(setting.base - setting.u, kind);
  const more =
    extra > 0
      ? `, ${distanceText(extra, kind)} of it for the worst fuel and the hottest inlet`
      : '';
  const lowered =
    setting.lowered === null
      ? ''
      : ` and lower than the rule because the ${setting.lowered} is not known better`;
  const givesUp = 100 * setting.givesUp;
  return {
    value,
    givesUpPercent: givesUp,
    chancePastBest: setting.chancePastBest,
    chancePastLimit: setting.chancePastLimit,
    holdback: setting.holdback,
    why: said(
      `${settingText(value, kind)} stands ${standing} to the safe side of ${name}${more}${lowered}; it gives up ${percentText(givesUp)}, with a chance of ${chanceText(setting.chancePastBest)} to stand past the best.`,
    ),
  };
}

/** Two or three short sentences below the headline. */
export function summaryOf(
  answer: Omit<LadderAnswer, 'headline' | 'summary'>,
  kind: SettingKind,
  move: Move,
): string {
  const parts: string[] = [];
  const last = answer.steps.at(-1);
  if (last !== undefined) {
    const step = `The step from ${settingText(last.from, kind)} to ${settingText(last.to, kind)}`;
    const gain = percentText(Math.abs(last.gainPercent));
    parts.push(
      {
        real: `${step} gained ${gain}.`,
        small: `${step} gained only ${gain}.`,
        'cannot be told from chance': `${step} cannot be told from chance.`,
        loss: `${step} lost ${gain}.`,
      }[last.word],
    );
  }
  const { value, low, high } = answer.best;
  if (value !== null) {
    const range =
      low !== null && high !== null
        ? ` (${settingText(low, kind)} to ${settingText(high, kind)})`
        : low !== null
          ? ` (above ${settingText(low, kind)})`
          : high !== null
            ? ` (below ${settingText(high, kind)})`
            : '';
    parts.push(`The best is near ${settingText(value, kind)}${range}.`);
  } else if (answer.steps.length > 0) parts.push('The best is not known yet.');
  const leaves = Object.entries(answer.uses).flatMap(([name, use]) =>
    use.value === null || use.givesUpPercent === null
      ? []
      : [
          `for ${name} leave ${settingText(use.value, kind)}, which gives up ${percentText(use.givesUpPercent)}`,
        ],
  );
  if (leaves.length > 0) parts.push(`${capital(leaves.join('; '))}.`);
  else if (move.because !== 'nothing yet') parts.push('The setting to leave is not known yet.');
  if (!answer.limitWatched && answer.dots.length > 0) parts.push('The limit was not watched.');
  return parts.join(' ');
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

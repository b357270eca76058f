import { SETTING_KINDS, type SettingName } from '../../../src/ladder/kinds.ts';
import type { Ladder, Pull } from '../../api/types.gen.ts';
import { setting } from '../../charts/numbers.ts';

/** What a ladder is called: by its own name, or by its setting where nobody named it. */
export function nameOfLadder({ name, setting: kind }: Pick<Ladder, 'name' | 'setting'>): string {
  if (name === 'Spark lead' && kind === 'lead') return 'Spark ladder';
  if (name === 'Lambda' && kind === 'lambda') return 'Lambda ladder';
  return name;
}

/** A setting of this kind as a figure: `30°`, `0.86`. */
export const settingText = (value: number, kind: SettingName): string =>
  setting(value, SETTING_KINDS[kind].unit, 3);

/** Which pulls are the ladder's: `all pulls`, or `part test A, lambda held at 0.86`. */
export function choiceInWords(
  ladder: Pick<Ladder, 'setting' | 'group' | 'heldLeadDeg' | 'heldLambda'>,
  pulls: readonly Pick<Pull, 'group'>[],
): string {
  const parts: string[] = [];
  if (ladder.group === null) {
    if (pulls.some((pull) => pull.group !== null)) parts.push('of no part test');
  } else parts.push(`part test ${ladder.group}`);
  if (ladder.setting !== 'lead' && ladder.heldLeadDeg !== null)
    parts.push(`lead held at ${settingText(ladder.heldLeadDeg, 'lead')}`);
  if (ladder.setting !== 'lambda' && ladder.heldLambda !== null)
    parts.push(`lambda held at ${settingText(ladder.heldLambda, 'lambda')}`);
  return parts.length === 0 ? 'all pulls' : parts.join(', ');
}

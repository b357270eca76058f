import type { Due } from '../../src/trade/calibration/index.ts';
import { CheckIcon, LookIcon, NoteIcon } from '../theme/icons.tsx';
import { dueWord } from './words.ts';

/** Whether a calibration holds, with its icon and its word, so that colour is never alone. */
export function DueMark({ due }: { readonly due: Due | null }) {
  const word = dueWord(due);
  if (word === 'past due')
    return (
      <span className="look">
        <LookIcon /> {word}
      </span>
    );
  return (
    <span className="quiet">
      {word === 'holds' ? <CheckIcon /> : <NoteIcon />} {word}
    </span>
  );
}

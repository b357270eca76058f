import type { Verdict } from '../../src/build/index.ts';
import { CheckIcon, LookIcon, NoteIcon, StopIcon } from '../theme/icons.tsx';
import styles from './sheet.module.css';

const ICONS = { fine: CheckIcon, 'look again': LookIcon, stop: StopIcon, 'not known': NoteIcon };
const CLASSES = { fine: styles.fine, 'look again': 'look', stop: 'stop', 'not known': 'quiet' };

/** Icon and word; the colour only repeats them, and is left out where there are none of the kind. */
export function VerdictMark({ verdict, count }: { verdict: Verdict; count?: number }) {
  const Icon = ICONS[verdict];
  return (
    <span className={`${styles.verdict} ${count === 0 ? 'quiet' : CLASSES[verdict]}`}>
      <Icon />
      {count === undefined ? '' : `${count} `}
      {verdict}
    </span>
  );
}

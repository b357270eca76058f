import { Button } from '@mantine/core';
import { asSentence } from '../shell/words.ts';
import { CheckIcon, StopIcon } from '../theme/icons.tsx';
import type { Keeping } from './saver.ts';
import styles from './sheet.module.css';

const WORDS = {
  saved: 'Saved',
  waiting: 'Not saved yet',
  saving: 'Saving…',
  conflict: 'Not saved: changed elsewhere',
};

/** How far the sheet is saved, in a word beside undo; what went wrong, with a way to try again. */
export function KeepingMark({ keeping, retry }: { keeping: Keeping; retry: () => void }) {
  if (keeping.state === 'trouble')
    return (
      <span className={`${styles.keeping} stop`} role="alert">
        <StopIcon /> Not saved. {asSentence(keeping.sentence)}
        <Button variant="default" size="compact-sm" onClick={retry}>
          Try again
        </Button>
      </span>
    );
  return (
    <span
      className={`${styles.keeping} ${keeping.state === 'conflict' ? 'look' : 'quiet'}`}
      role="status"
    >
      {keeping.state === 'saved' && <CheckIcon />} {WORDS[keeping.state]}
    </span>
  );
}

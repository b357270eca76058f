import { type KeyboardEvent, useEffect, useState } from 'react';
import { undoLatest } from '../../api/changes.ts';
import type { Pull } from '../../api/types.gen.ts';
import type { Column } from './cells.ts';
import styles from './lead-table.module.css';

interface LeadCellProps {
  readonly column: Column;
  readonly pull: Pull;
  readonly name: string;
  readonly trouble: string | null;
  readonly commit: (text: string) => void;
  /** Goes to the same column of another pull; false where there is none. */
  readonly move: (down: number) => boolean;
}

/** One cell a person fills in. It keeps what was typed until it is left, then hands it on. */
export function LeadCell({ column, pull, name, trouble, commit, move }: LeadCellProps) {
  const stored = column.text(pull);
  const [draft, setDraft] = useState(stored);
  useEffect(() => setDraft(stored), [stored]);
  const label = `${column.title}, pull ${pull.order + 1}`;
  const common = {
    'data-cell': name,
    'aria-label': label,
    'aria-invalid': trouble !== null,
    title: trouble ?? (draft.length > 12 ? draft : column.hint),
  };

  if (column.kind === 'tick')
    return (
      <input
        {...common}
        type="checkbox"
        className={styles.tick}
        checked={stored === 'yes'}
        onChange={(event) => commit(event.currentTarget.checked ? 'yes' : 'no')}
        onKeyDown={(event) => walk(event, move)}
      />
    );

  if (column.kind === 'choice')
    return (
      <select
        {...common}
        className={classOf(column)}
        value={stored}
        onChange={(event) => commit(event.currentTarget.value)}
        onKeyDown={(event) => {
          // Up and down belong to the choice itself.
          if (event.key === 'Enter') {
            event.preventDefault();
            move(event.shiftKey ? -1 : 1);
          }
        }}
      >
        {column.choices?.map((choice) => (
          <option key={choice} value={choice}>
            {choice === '' ? 'not said' : choice}
          </option>
        ))}
      </select>
    );

  return (
    <input
      {...common}
      type="text"
      className={classOf(column)}
      value={draft}
      autoComplete="off"
      onChange={(event) => setDraft(event.currentTarget.value)}
      onFocus={(event) => event.currentTarget.select()}
      onBlur={() => {
        if (draft !== stored || trouble !== null) commit(draft);
      }}
      onKeyDown={(event) => {
        if ((event.ctrlKey || event.metaKey) && event.key === 'z' && draft === stored) {
          // Nothing was typed here that the field itself could take back.
          event.preventDefault();
          void undoLatest();
        } else if (event.key === 'Escape') {
          setDraft(stored);
          event.currentTarget.select();
        } else walk(event, move);
      }}
    />
  );
}

/** Enter and the arrows go to the pull below or above. */
function walk(event: KeyboardEvent<HTMLElement>, move: (down: number) => boolean): void {
  const up = event.key === 'ArrowUp' || (event.key === 'Enter' && event.shiftKey);
  const down = event.key === 'ArrowDown' || (event.key === 'Enter' && !event.shiftKey);
  if (!up && !down) return;
  event.preventDefault();
  if (move(up ? -1 : 1)) return;
  // At the end of the table there is nowhere to go, but what was typed counts all the same.
  const { currentTarget } = event;
  currentTarget.blur();
  currentTarget.focus();
}

/** Wider where words go, heavier where the lead stands. */
function classOf(column: Column): string {
  const own = {
    leadDeg: `${styles.lead} ${styles.narrow}`,
    lambdaTarget: styles.narrow,
    lambdaMeasured: styles.narrow,
    lambdaErrorSd: styles.narrow,
    jets: styles.words,
    loadPercent: styles.narrow,
    knockHeard: styles.narrow,
    group: styles.part,
    watched: styles.watched,
    note: styles.words,
    excludedBecause: styles.words,
  } as Readonly<Record<string, string | undefined>>;
  return `${styles.cell} ${own[column.key] ?? ''}`;
}

import { TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import styles from './search.module.css';

interface FindListProps<T> {
  /** Of the element that holds the list; no other on the page has it. */
  readonly id: string;
  /** What is typed, for those who hear the page. */
  readonly label: string;
  readonly placeholder: string;
  /** Told of what is typed, where the finding is done elsewhere. */
  readonly onWords?: (words: string) => void;
  /** What these words find, as many as are shown. */
  readonly find: (words: string) => readonly T[];
  readonly keyOf: (one: T) => string;
  readonly textOf: (one: T) => {
    readonly label: string;
    readonly beside: string;
    /** What it stands under. */
    readonly trail?: string;
  };
  readonly onPick: (one: T) => void;
  /** Said where nothing is found. */
  readonly none: (words: string) => ReactNode;
  /** Between the field and the list, while nothing is typed. */
  readonly first?: ReactNode;
  /** Under the list. */
  readonly foot?: ReactNode;
}

/** A field and what its words find; keys stay in the field, which owns the list. */
export function FindList<T>(props: FindListProps<T>) {
  const { id, label, placeholder, find, keyOf, textOf, onPick, none, first, foot, onWords } = props;
  const [words, setWords] = useState('');
  const [chosen, setChosen] = useState(0);
  const found = find(words);
  return (
    <>
      <TextInput
        data-autofocus
        aria-label={label}
        placeholder={placeholder}
        role="combobox"
        aria-expanded={found.length > 0}
        aria-controls={id}
        aria-activedescendant={found[chosen] ? `${id}-${chosen}` : undefined}
        value={words}
        onChange={(event) => {
          setWords(event.currentTarget.value);
          onWords?.(event.currentTarget.value);
          setChosen(0);
        }}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown') setChosen(Math.min(found.length - 1, chosen + 1));
          else if (event.key === 'ArrowUp') setChosen(Math.max(0, chosen - 1));
          else if (event.key === 'Enter' && found[chosen] !== undefined) onPick(found[chosen]);
          else return;
          event.preventDefault();
        }}
      />
      {words === '' && first}
      <div id={id} role="listbox" aria-label="Found" className={styles.found}>
        {found.map((one, index) => {
          const text = textOf(one);
          return (
            // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the field that owns the list
            <div
              key={keyOf(one)}
              id={`${id}-${index}`}
              ref={index === chosen ? (row) => row?.scrollIntoView({ block: 'nearest' }) : null}
              role="option"
              tabIndex={-1}
              aria-selected={index === chosen}
              className={styles.place}
              onClick={() => onPick(one)}
            >
              <span className={styles.label}>
                {text.label}
                {text.trail !== undefined && text.trail !== '' && (
                  <span className={styles.trail}>{text.trail}</span>
                )}
              </span>
              <span className={styles.kind}>{text.beside}</span>
            </div>
          );
        })}
      </div>
      {found.length === 0 && <p className={styles.none}>{none(words)}</p>}
      {foot !== undefined && foot !== '' && (
        <p className={styles.none} role="status">
          {foot}
        </p>
      )}
    </>
  );
}

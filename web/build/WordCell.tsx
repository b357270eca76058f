import { useState } from 'react';
import type { FieldSpec } from '../../src/build/index.ts';
import { readDate } from '../form/fields.ts';
import { useSheetActs } from './context.ts';
import { entryAt, setEntry } from './edit.ts';
import styles from './inputs.module.css';

interface WordCellProps {
  readonly path: string;
  readonly field: FieldSpec;
  readonly value: number | string | boolean | null;
  readonly marks: Readonly<Record<string, string | number>>;
}

/** An input for what is said, not measured: a text, a choice, a day, yes or no. */
export function WordCell({ path, field, value, marks }: WordCellProps) {
  const { change } = useSheetActs();
  const say = (next: string | boolean | null) =>
    change(
      (now) => setEntry(now, path, next === null ? null : { ...entryAt(now, path), value: next }),
      path,
    );
  const text = value === null ? '' : String(value);
  if (field.kind === 'choice' || field.kind === 'yesNo') {
    const choices =
      field.kind === 'choice'
        ? field.choices!
        : [
            { value: 'true', label: 'yes' },
            { value: 'false', label: 'no' },
          ];
    return (
      <select
        {...marks}
        className={styles.pick}
        aria-label={field.label}
        value={text}
        onChange={(event) => {
          const chosen = event.currentTarget.value;
          say(chosen === '' ? null : field.kind === 'yesNo' ? chosen === 'true' : chosen);
        }}
      >
        <option value="">not said</option>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    );
  }
  if (field.kind === 'date')
    return <DateCell field={field} text={text} marks={marks} onDate={say} />;
  return (
    <input
      {...marks}
      className={`${styles.input} ${styles.words}`}
      aria-label={field.label}
      autoComplete="off"
      value={text}
      onChange={(event) => {
        const typed = event.currentTarget.value;
        say(typed === '' ? null : typed);
      }}
    />
  );
}

interface DateCellProps {
  readonly field: FieldSpec;
  readonly text: string;
  readonly marks: WordCellProps['marks'];
  readonly onDate: (date: string | null) => void;
}

function DateCell({ field, text, marks, onDate }: DateCellProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const wrong = draft !== null && draft.trim() !== '' && readDate(draft.trim()) === null;
  return (
    <span className={styles.cell}>
      <input
        {...marks}
        className={styles.input}
        aria-label={`${field.label}, year-month-day`}
        aria-invalid={wrong}
        placeholder="2026-05-17"
        autoComplete="off"
        value={draft ?? text}
        onChange={(event) => {
          const typed = event.currentTarget.value;
          setDraft(typed);
          const date = readDate(typed.trim());
          if (typed.trim() === '' || date !== null) onDate(date);
        }}
        onBlur={() => !wrong && setDraft(null)}
      />
      {wrong && (
        <span role="alert" className={styles.wrong}>
          {field.label}: expected year, month and day such as 2026-05-17.
        </span>
      )}
    </span>
  );
}

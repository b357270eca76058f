import { type ClipboardEvent, useId, useState } from 'react';
import type { FieldSpec } from '../../src/build/index.ts';
import styles from './inputs.module.css';
import { cellMarks } from './moving.ts';
import { isBlock } from './pasting.ts';
import { readCell, type Typing } from './typing.ts';

export interface NumberCellProps {
  readonly path: string;
  readonly field: FieldSpec;
  readonly label: string;
  readonly value: number | null;
  readonly unit: string | undefined;
  readonly column: number;
  readonly row: number;
  /** What was typed, where it can be read. */
  readonly onTyped: (typing: Exclude<Typing, { wrong: string }>) => void;
  /** A block of cells pasted here; answers what is wrong with it, or null. */
  readonly onBlock?: (text: string) => string | null;
}

interface Draft {
  readonly text: string;
  /** The value it made; where the sheet says another one by now, the draft is over. */
  readonly made: number | null;
  readonly wrong: string | null;
}

/** An input for one number. What cannot be read stays in it with its reason; the sheet keeps what it had. */
export function NumberCell(props: NumberCellProps) {
  const { path, field, label, value, unit, column, row, onTyped, onBlock } = props;
  const [draft, setDraft] = useState<Draft | null>(null);
  const [writing, setWriting] = useState(false);
  const errorId = useId();
  const held = draft !== null && draft.made === value ? draft : null;
  const wrong = held?.wrong ?? null;
  const shown = held?.text ?? (value === null ? '' : String(value));
  const type = (text: string) => {
    const typing = readCell(field, text, unit);
    if (typing !== null && 'wrong' in typing) {
      setDraft({ text, made: value, wrong: typing.wrong });
      return;
    }
    setDraft({ text, made: typing?.value ?? null, wrong: null });
    onTyped(typing);
  };
  const paste = (event: ClipboardEvent<HTMLInputElement>) => {
    const text = event.clipboardData.getData('text/plain');
    if (onBlock === undefined || !isBlock(text)) return;
    event.preventDefault();
    const refused = onBlock(text);
    setDraft(refused === null ? null : { text: shown, made: value, wrong: refused });
    setWriting(false);
  };
  return (
    <span className={styles.cell}>
      <input
        {...cellMarks(path, column, row)}
        className={styles.input}
        aria-label={label}
        aria-invalid={wrong !== null && !writing}
        {...(wrong !== null && !writing ? { 'aria-describedby': errorId } : {})}
        inputMode="decimal"
        autoComplete="off"
        spellCheck={false}
        value={shown}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => {
          setWriting(true);
          type(event.currentTarget.value);
        }}
        onBlur={() => {
          setWriting(false);
          if (draft?.wrong === null) setDraft(null);
        }}
        onPaste={paste}
      />
      {wrong !== null && !writing && (
        <span id={errorId} role="alert" className={styles.wrong}>
          {wrong}{' '}
          {value === null ? 'The sheet holds nothing here.' : `The sheet still holds ${value}.`}
        </span>
      )}
    </span>
  );
}

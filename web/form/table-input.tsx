import { Button } from '@mantine/core';
import { type ClipboardEvent, useId, useState } from 'react';
import styles from './edit-sheet.module.css';
import type { Field } from './fields.ts';
import { isTable, pasteRows, type Rows, textOfRows } from './table-text.ts';

interface TableInputProps {
  readonly field: Field;
  /** A line a row, a tab between cells. */
  readonly text: string;
  readonly trouble: string | undefined;
  readonly onChange: (text: string) => void;
}

/** A small table of a form: typed cell by cell, or a block from a spreadsheet pasted into any cell. */
export function TableInput({ field, text, trouble, onChange }: TableInputProps) {
  const id = useId();
  const [wrong, setWrong] = useState<string | null>(null);
  const columns = field.columns ?? [];
  const rows: Rows = text.split('\n').map((line) => line.split('\t'));
  const last = rows.at(-1)!;
  // One line more than there are, to be typed into.
  const shown = last.every((cell) => cell === '') ? rows : [...rows, []];
  const put = (next: Rows) => {
    setWrong(null);
    onChange(textOfRows(next));
  };
  const type = (row: number, column: number, typed: string) =>
    put(
      shown.map((cells, i) =>
        i === row
          ? columns.map((_, j) => (j === column ? typed.replace(/[\t\n]/g, ' ') : (cells[j] ?? '')))
          : cells,
      ),
    );
  const paste = (event: ClipboardEvent, row: number, column: number) => {
    const block = event.clipboardData.getData('text');
    if (!isTable(block)) return;
    event.preventDefault();
    const pasted = pasteRows(shown, { row, column, columns: columns.length }, block);
    if ('wrong' in pasted) setWrong(pasted.wrong);
    else put(pasted.rows);
  };
  const { offer } = field;
  const said = wrong ?? trouble;
  return (
    <fieldset className={styles.table} aria-describedby={`${id}-hint`}>
      <legend>{field.label}</legend>
      <div className={styles.rows}>
        <table>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((cells, row) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a line of the table is its place
              <tr key={row}>
                {columns.map((column, at) => (
                  <td key={column}>
                    <input
                      aria-label={`${column}, line ${row + 1}`}
                      autoComplete="off"
                      inputMode="decimal"
                      value={cells[at] ?? ''}
                      onChange={(event) => type(row, at, event.currentTarget.value)}
                      onPaste={(event) => paste(event, row, at)}
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p id={`${id}-hint`} className="quiet">
        {field.hint} A block from a spreadsheet can be pasted into any cell.
      </p>
      {said !== undefined && (
        <p role="alert" className={styles.wrong}>
          {said}
        </p>
      )}
      {(offer !== undefined || text !== '') && (
        <div className={styles.offer}>
          {offer !== undefined && text !== offer.text && (
            <Button variant="default" size="xs" onClick={() => onChange(offer.text)}>
              {offer.label}
            </Button>
          )}
          {text !== '' && (
            <Button variant="default" size="xs" onClick={() => onChange('')}>
              Empty the table
            </Button>
          )}
        </div>
      )}
    </fieldset>
  );
}

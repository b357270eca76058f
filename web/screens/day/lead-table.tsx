import { type ClipboardEvent, type ReactNode, useRef, useState } from 'react';
import type { Pull, PullPatch } from '../../api/types.gen.ts';
import type { Column } from './cells.ts';
import { LeadCell } from './lead-cell.tsx';
import styles from './lead-table.module.css';
import { placeBlock, readBlock } from './paste.ts';

/** What the rows show beside what a person fills in. */
export interface PullRow {
  readonly pull: Pull;
  /** Number, colour and link of the pull. */
  readonly head: ReactNode;
  /** Peaks and what differs from the day, read only. */
  readonly tail: ReactNode;
}

interface LeadTableProps {
  readonly rows: readonly PullRow[];
  /** What is filled in, in the order in which a paste runs across. */
  readonly columns: readonly Column[];
  readonly tailHead: ReactNode;
  /** Stores many patches in one change. */
  readonly change: (patches: readonly { id: string; patch: PullPatch }[], what: string) => void;
}

/** Marks a cell so that the keys can find it. */
const cellKey = (row: number, column: Column) => `${row}:${column.key}`;

/** The table of a day's pulls: typed, pasted into and walked through like a sheet. */
export function LeadTable({ rows, columns, tailHead, change }: LeadTableProps) {
  const table = useRef<HTMLTableElement>(null);
  const [troubles, setTroubles] = useState<ReadonlyMap<string, string>>(new Map());
  const [notice, setNotice] = useState<string | null>(null);

  const focus = (row: number, column: Column): boolean => {
    const found = table.current?.querySelector<HTMLElement>(
      `[data-cell="${cellKey(row, column)}"]`,
    );
    found?.focus();
    return found !== null && found !== undefined;
  };

  const trouble = (row: number, column: Column, sentence: string | null) => {
    setTroubles((now) => {
      const next = new Map(now);
      if (sentence === null) next.delete(cellKey(row, column));
      else next.set(cellKey(row, column), sentence);
      return next;
    });
  };

  const commit = (row: number, column: Column, text: string) => {
    const { pull } = rows[row]!;
    const meaning = column.meaning(text);
    if ('trouble' in meaning) return trouble(row, column, meaning.trouble);
    trouble(row, column, null);
    if (column.text(pull) === column.text({ ...pull, ...meaning.patch })) return;
    change([{ id: pull.id, patch: meaning.patch }], `${column.title} of pull ${pull.order + 1}`);
  };

  const paste = (event: ClipboardEvent) => {
    const text = event.clipboardData.getData('text/plain');
    const cell = (event.target as HTMLElement).dataset.cell;
    if (cell === undefined || !/[\t\n\r]/.test(text.trimEnd())) return;
    event.preventDefault();
    const [row, key] = cell.split(':') as [string, string];
    const at = { row: Number(row), column: columns.findIndex((one) => one.key === key) };
    const size = { rows: rows.length, columns: columns.length };
    const { placed, left } = placeBlock(readBlock(text), at, size);
    const patches = new Map<string, PullPatch>();
    const refused = new Map(troubles);
    for (const one of placed) {
      const column = columns[one.column]!;
      const meaning = column.meaning(one.text);
      const key = cellKey(one.row, column);
      if ('trouble' in meaning) refused.set(key, meaning.trouble);
      else {
        refused.delete(key);
        const { id } = rows[one.row]!.pull;
        patches.set(id, { ...patches.get(id), ...meaning.patch });
      }
    }
    setTroubles(refused);
    setNotice(
      left === 0 ? null : `${left} pasted ${left === 1 ? 'cell' : 'cells'} found no pull to go to.`,
    );
    if (patches.size > 0)
      change(
        [...patches].map(([id, patch]) => ({ id, patch })),
        `Pasted into ${patches.size} ${patches.size === 1 ? 'pull' : 'pulls'}`,
      );
  };

  return (
    <div className={styles.scroll}>
      <table ref={table} className={styles.table} onPaste={paste}>
        <caption className={styles.caption}>
          Pulls of the day in the order they were made. Paste a column or a block from a spreadsheet
          into any cell.
        </caption>
        <thead>
          <tr>
            <th scope="col">Pull</th>
            {columns.map((column) => (
              <th
                key={column.key}
                scope="col"
                title={column.hint}
                className={column.kind === 'tick' ? styles.centred : undefined}
              >
                {column.title}
              </th>
            ))}
            {tailHead}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ pull, head, tail }, row) => (
            <tr key={pull.id} data-out={pull.excludedBecause !== null || undefined}>
              <th scope="row">{head}</th>
              {columns.map((column) => (
                <td
                  key={column.key}
                  className={column.kind === 'tick' ? styles.centred : undefined}
                >
                  <LeadCell
                    column={column}
                    pull={pull}
                    name={cellKey(row, column)}
                    trouble={troubles.get(cellKey(row, column)) ?? null}
                    commit={(text) => commit(row, column, text)}
                    move={(down) => focus(row + down, column)}
                  />
                </td>
              ))}
              {tail}
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles.notice} aria-live="polite">
        {[...new Set(troubles.values())].join(' ')} {notice}
      </p>
    </div>
  );
}

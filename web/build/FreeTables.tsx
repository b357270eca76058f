import { Button } from '@mantine/core';
import { memo } from 'react';
import type { FieldSpec, SectionSpec, Table, TableSpec } from '../../src/build/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { TakeTable } from '../table/TakeTable.tsx';
import { useSheetActs, useSheetWork } from './context.ts';
import { type Cell, type Row, setTable, tableAt } from './edit.ts';
import styles from './inputs.module.css';
import { cellMarks, moveByKey } from './moving.ts';
import { NumberCell } from './NumberCell.tsx';
import { freeTable } from './sheet-tables.ts';
import { usualUnit } from './typing.ts';
import { UnitPick } from './UnitPick.tsx';

/** The free tables of a section: as many rows as there are things to write down. */
export function FreeTables({ section }: { readonly section: SectionSpec }) {
  const { sheet } = useSheetWork();
  return (section.tables ?? []).map((spec) => {
    const path = `${section.id}.${spec.id}`;
    return (
      <FreeTable key={spec.id} path={path} spec={spec} table={tableAt(sheet, path) ?? NO_ROWS} />
    );
  });
}

const NO_ROWS: Table = { rows: [] };

interface FreeTableProps {
  readonly path: string;
  readonly spec: TableSpec;
  readonly table: Table;
}

/** Drawn again only where one of its own rows changes. */
const FreeTable = memo(function FreeTable({ path, spec, table }: FreeTableProps) {
  const { change } = useSheetActs();
  const { units } = usePreferences();
  const unitOf = (column: FieldSpec) => table.units?.[column.id] ?? usualUnit(column, units);
  /** Units in use are written with the first row, so that what stands in it keeps its meaning. */
  const write = (rows: readonly Row[], name?: string, set: Readonly<Record<string, string>> = {}) =>
    change((now) => {
      const said = Object.fromEntries(
        spec.columns.flatMap((column) => {
          const unit = set[column.id] ?? unitOf(column);
          return unit === undefined ? [] : [[column.id, unit] as const];
        }),
      );
      const before = tableAt(now, path) ?? { rows: [] };
      const { units: _, ...others } = before;
      return setTable(now, path, {
        ...others,
        ...(Object.keys(said).length === 0 ? {} : { units: said }),
        rows,
      });
    }, name);
  const put = (row: number, column: FieldSpec, cell: Cell, unit?: string) =>
    write(
      table.rows.map((one, i) => (i === row ? { ...one, [column.id]: cell } : one)),
      `${path}.${row}.${column.id}`,
      unit === undefined ? {} : { [column.id]: unit },
    );
  return (
    <section className={styles.block} aria-label={spec.label}>
      <header>
        <h3>{spec.label}</h3>
        {spec.help !== undefined && <small className="quiet">{spec.help}</small>}
        {table.rows.length > 0 && (
          <TakeTable title={spec.label} table={() => freeTable(spec, table, unitOf)} />
        )}
      </header>
      {table.rows.length > 0 && (
        // biome-ignore lint/a11y/noStaticElementInteractions: keys of the inputs inside, gathered
        <div className={styles.scroll} onKeyDown={moveByKey}>
          <table className={styles.places}>
            <thead>
              <tr>
                {spec.columns.map((column) => (
                  <th key={column.id} scope="col">
                    <span className={styles.heading}>{column.label}</span>
                    <span className={styles.under}>
                      <UnitPick
                        field={column}
                        unit={unitOf(column)}
                        onPick={(unit) => write(table.rows, undefined, { [column.id]: unit })}
                      />
                    </span>
                  </th>
                ))}
                <th scope="col">
                  <span className="unseen">Remove</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name
                <tr key={at}>
                  {spec.columns.map((column, index) => (
                    <td key={column.id}>
                      <FreeCell
                        path={path}
                        field={column}
                        unit={unitOf(column)}
                        cell={row[column.id] ?? null}
                        column={index}
                        row={at}
                        onCell={(cell, unit) => put(at, column, cell, unit)}
                      />
                    </td>
                  ))}
                  <td>
                    <button
                      type="button"
                      className={styles.more}
                      aria-label={`Remove row ${at + 1} of ${spec.label}`}
                      onClick={() => write(table.rows.filter((_, i) => i !== at))}
                    >
                      <span aria-hidden="true">×</span>
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <Button
        variant="default"
        size="compact-md"
        data-path={path}
        onClick={() =>
          write([...table.rows, Object.fromEntries(spec.columns.map(({ id }) => [id, null]))])
        }
      >
        Add a row
      </Button>
    </section>
  );
});

interface FreeCellProps {
  readonly path: string;
  readonly field: FieldSpec;
  readonly unit: string | undefined;
  readonly cell: Cell;
  readonly column: number;
  readonly row: number;
  readonly onCell: (cell: Cell, unit?: string) => void;
}

function FreeCell({ path, field, unit, cell, column, row, onCell }: FreeCellProps) {
  const label = `${field.label}, row ${row + 1}`;
  if (field.kind === 'yesNo')
    return (
      <input
        type="checkbox"
        className={styles.tick}
        {...cellMarks(path, column, row)}
        aria-label={label}
        checked={cell === true}
        onChange={(event) => onCell(event.currentTarget.checked)}
      />
    );
  if (field.kind === 'quantity' || field.kind === 'number')
    return (
      <NumberCell
        path={path}
        field={field}
        label={label}
        value={typeof cell === 'number' ? cell : null}
        unit={unit}
        column={column}
        row={row}
        onTyped={(typed) => onCell(typed?.value ?? null, typed?.unit)}
      />
    );
  return (
    <input
      {...cellMarks(path, column, row)}
      className={`${styles.input} ${styles.words}`}
      aria-label={label}
      autoComplete="off"
      value={typeof cell === 'string' ? cell : ''}
      onChange={(event) => {
        const typed = event.currentTarget.value;
        onCell(typed === '' ? null : typed);
      }}
    />
  );
}

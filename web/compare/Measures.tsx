import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { CompareAnswer } from '../../src/compare/types.ts';
import ladder from '../ladder/ladder.module.css';
import { TakeTable } from '../table/TakeTable.tsx';
import take from '../table/table.module.css';
import styles from './compare.module.css';
import { type MeasureRow, measureRows, measuresTable } from './measure-rows.ts';
import type { CompareViewProps } from './props.ts';
import { SideHeads } from './SideHeads.tsx';
import { letterOf } from './words.ts';

/** The figures of each side and what changed, each with its interval. */
export function Measures({ answer, units }: CompareViewProps & { readonly answer: CompareAnswer }) {
  const [chosen, setChosen] = useState(0);
  const { groups, pairs } = answer;
  const pair = pairs[Math.min(chosen, pairs.length - 1)]!;
  const changeHead = pairs.length > 1 ? `${letterOf(chosen + 1)} less A` : 'change';
  const rows = measureRows(answer, pair, units);
  return (
    <section aria-labelledby="compare-measures" className={styles.measures}>
      <header className={styles.head}>
        <h2 id="compare-measures" className={ladder.sectionTitle}>
          In figures
        </h2>
        <span className={take.acts}>
          {pairs.length > 1 && (
            <SegmentedControl
              size="xs"
              aria-label="Change of"
              data={pairs.map((_, at) => ({
                value: String(at),
                label: `${letterOf(at + 1)} less ${letterOf(0)}`,
              }))}
              value={String(chosen)}
              onChange={(value) => setChosen(Number(value))}
            />
          )}
          <TakeTable
            title="In figures"
            table={() =>
              measuresTable(
                rows,
                groups.map(({ name }) => name),
                changeHead,
              )
            }
          />
        </span>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section className={ladder.tableWrap} tabIndex={0} aria-label="In figures, a table">
        <table className={ladder.table}>
          <thead>
            <tr>
              <th scope="col" data-left="">
                95 % intervals beside
              </th>
              <SideHeads names={groups.map(({ name }) => name)} />
              <th scope="col">{changeHead}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Row key={row.name} row={row} />
            ))}
          </tbody>
        </table>
      </section>
      <p className={ladder.quiet}>
        The interval of one side holds how far its day may be off; a change of two sides made on one
        day does not.
      </p>
    </section>
  );
}

function Row({ row }: { readonly row: MeasureRow }) {
  return (
    <tr>
      <th scope="row" data-left="" className={styles.measure}>
        {row.name}
        {row.unit !== '' && <small className={styles.unit}>{`, ${row.unit}`}</small>}
        <small>{row.means}</small>
      </th>
      {row.sides.map((side, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a side is its place
        <td key={at}>
          {side.text}
          <small className={styles.under}>{side.interval}</small>
        </td>
      ))}
      <td data-told={row.change?.told} data-way={row.change?.way}>
        {row.change === null ? (
          <small>not known</small>
        ) : (
          <>
            <b>{row.change.text}</b>
            <small className={styles.under}>
              {row.change.told ? row.change.interval : `${row.change.interval}, chance`}
            </small>
          </>
        )}
      </td>
    </tr>
  );
}

import { Menu } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { SaveIcon } from '../theme/icons.tsx';
import type { TableModel } from './model.ts';
import styles from './table.module.css';
import { TAKEN_AS, type TakenAs, takeTable } from './take.ts';
import { useTakenFrom } from './taken-from.ts';

interface TakeTableProps {
  /** What the table is called. */
  readonly title: string;
  /** Asked for only when it is taken. */
  readonly table: () => TableModel;
  /** What it is of beyond what the page says, such as the sides held against each other. */
  readonly scenario?: string;
}

/** The quiet menu at the head of a table: take it as CSV, as a workbook, as Parquet. */
export function TakeTable(props: TakeTableProps) {
  const { problem, items } = useTaking(props);
  return (
    <>
      <Menu position="bottom-end">
        <Menu.Target>
          <button
            type="button"
            className={`${styles.take} offPaper`}
            aria-label={`${props.title}: take the table`}
            title="Take the table"
          >
            <SaveIcon />
          </button>
        </Menu.Target>
        <Menu.Dropdown>{items}</Menu.Dropdown>
      </Menu>
      {problem !== null && <span role="alert">{problem}</span>}
    </>
  );
}

/** The same, in a line of its own over a table that has no head with room for it. */
export const TakeRow = (props: TakeTableProps) => (
  <div className={`${styles.over} offPaper`}>
    <TakeTable {...props} />
  </div>
);

/** A heading with that menu at the end of its line. */
export const TakeHead = ({
  children,
  ...props
}: TakeTableProps & { readonly children: ReactNode }) => (
  <div className={styles.head}>
    {children}
    <TakeTable {...props} />
  </div>
);

/** The items of such a menu, where it stands among others, and what went wrong. */
export function useTaking({ title, table, scenario }: TakeTableProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const from = useTakenFrom();
  const take = async (as: TakenAs) => {
    setProblem(null);
    try {
      const facts = await from.about();
      const about = [
        ...facts,
        ...(scenario === undefined ? [] : [['Of', scenario] as const]),
        ['Made', new Date().toISOString()] as const,
      ];
      const place = scenario ?? from.place.slice(1).join(' ');
      await takeTable(title, table(), as, { about, place });
    } catch (error) {
      setProblem(
        `The table was not taken: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  };
  const items = (
    <>
      <Menu.Label>The table, at full precision, as</Menu.Label>
      {Object.entries(TAKEN_AS).map(([as, name]) => (
        <Menu.Item key={as} onClick={() => void take(as as TakenAs)}>
          {name}
        </Menu.Item>
      ))}
    </>
  );
  return { problem, items };
}

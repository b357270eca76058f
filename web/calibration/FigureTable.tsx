import type { TableModel } from '../table/model.ts';
import { TableRows } from '../table/TableView.tsx';
import { TakeRow } from '../table/TakeTable.tsx';
import styles from './calibration.module.css';

/** A table of figures that stands on the page by itself. The first cell of a row names it. */
export function FigureTable({ caption, columns, rows }: TableModel & { readonly caption: string }) {
  return (
    <div className={styles.scroll}>
      <TakeRow title={caption} table={() => ({ columns, rows })} />
      <table className={`sheet ${styles.figures}`}>
        <caption className="unseen">{caption}</caption>
        <TableRows {...{ columns, rows }} />
      </table>
    </div>
  );
}

import type { TableModel } from '../charts/index.ts';
import styles from './calibration.module.css';

/** A table of figures that stands on the page by itself. The first cell of a row names it. */
export function FigureTable({ caption, columns, rows }: TableModel & { readonly caption: string }) {
  return (
    <div className={styles.scroll}>
      <table className={`sheet ${styles.figures}`}>
        <caption className="unseen">{caption}</caption>
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
          {rows.map((row, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows never move within one table
            <tr key={at}>
              {row.map((cell, column) =>
                column === 0 ? (
                  <th key={columns[column]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={columns[column]}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

import styles from './charts.module.css';

/** A picture's numbers. The first cell of a row names it. */
export interface TableModel {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The same numbers as the picture, for reading, copying and listening. */
export function TableView({ caption, columns, rows }: TableModel & { readonly caption: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section className={styles.tableWrap} tabIndex={0} aria-label={`${caption}, as a table`}>
      <table className={styles.table}>
        <TableRows {...{ columns, rows }} />
      </table>
    </section>
  );
}

/** The head and the rows of a table, for whatever table they stand in. */
export function TableRows({ columns, rows }: TableModel) {
  return (
    <>
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
    </>
  );
}

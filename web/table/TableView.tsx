import chart from '../charts/charts.module.css';
import { cellText, headText, type TableModel } from './model.ts';

/** The same numbers as the picture, for reading, copying and listening. */
export function TableView({ caption, columns, rows }: TableModel & { readonly caption: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section className={chart.tableWrap} tabIndex={0} aria-label={`${caption}, as a table`}>
      <table className={chart.table}>
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
          {columns.map((column, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: columns never move within one table
            <th key={at} scope="col">
              {headText(column)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows never move within one table
          <tr key={at}>
            {columns.map((column, place) => {
              const text = cellText(column, row[place] ?? null);
              return place === 0 ? (
                // biome-ignore lint/suspicious/noArrayIndexKey: the place is the column
                <th key={place} scope="row">
                  {text}
                </th>
              ) : (
                // biome-ignore lint/suspicious/noArrayIndexKey: the place is the column
                <td key={place}>{text}</td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </>
  );
}

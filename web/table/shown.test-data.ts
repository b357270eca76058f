import { cellText, headText, type TableModel } from './model.ts';

/** A table as it is read on screen. */
export const shownOf = ({ columns, rows }: TableModel) => ({
  columns: columns.map(headText),
  rows: rows.map((row) => columns.map((column, at) => cellText(column, row[at] ?? null))),
});

/** One line of a typed curve, in the units that it was typed in. */
export interface PaperRow {
  readonly speedRpm: number;
  readonly torque: number;
}

/** What a typed table says, or the sentence that says which line it fails in. */
export type PaperTable =
  | { readonly rows: readonly PaperRow[]; readonly problem: null }
  | { readonly rows: null; readonly problem: string };

const LEAST_ROWS = 4;

/**
 * A table of engine speed and torque, one pair a line, as typed or pasted from a spreadsheet: parted by tabs, blanks,
 * semicolons or commas. A line without a digit (a heading) is passed over; where no point stands in a line, a comma
 * between two digits is a decimal one.
 */
export function paperTable(text: string): PaperTable {
  const rows: PaperRow[] = [];
  const lines = text.split(/\r?\n/);
  for (const [at, raw] of lines.entries()) {
    const line = raw.trim();
    if (line === '' || !/\d/.test(line)) continue;
    const parts = line.split(/[\t;]|\s+/).filter(Boolean);
    const cells = parts.length === 1 ? line.split(',') : parts;
    const [speed, torque] = cells.map((cell) =>
      Number(cell.trim().replace(/,$/, '').replace(',', '.')),
    );
    if (cells.length !== 2 || !(speed! > 0) || !(torque! > 0))
      return {
        rows: null,
        problem: `Line ${at + 1} says "${line.slice(0, 40)}"; expected an engine speed and a torque, such as 4500 312.`,
      };
    rows.push({ speedRpm: speed!, torque: torque! });
  }
  return rows.length < LEAST_ROWS
    ? {
        rows: null,
        problem: `${rows.length === 0 ? 'No line' : `Only ${rows.length}`} of the table can be read yet; a curve needs ${LEAST_ROWS} speeds at least.`,
      }
    : { rows, problem: null };
}

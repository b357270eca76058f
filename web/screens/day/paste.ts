/** A block of cells as a spreadsheet puts it on the clipboard: rows by line, cells by tab, quotes where needed. */
export function readBlock(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < text.length; at++) {
    const char = text[at]!;
    if (quoted) {
      if (char !== '"') cell += char;
      else if (text[at + 1] === '"') {
        cell += '"';
        at++;
      } else quoted = false;
    } else if (char === '"' && cell === '') quoted = true;
    else if (char === '\t') {
      row.push(cell);
      cell = '';
    } else if (char === '\n' || char === '\r') {
      if (char === '\r' && text[at + 1] === '\n') at++;
      row.push(cell);
      rows.push(row);
      row = [];
      cell = '';
    } else cell += char;
  }
  if (cell !== '' || row.length > 0) {
    row.push(cell);
    rows.push(row);
  }
  // Spreadsheets close the last row with a line end, which makes no row of its own.
  return rows.map((cells) => cells.map((value) => value.trim()));
}

/** One text for one cell of the table. */
export interface Placed {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

export interface Placement {
  readonly placed: readonly Placed[];
  /** Cells that found no room below or beside. */
  readonly left: number;
}

/** Lays a block into a table of `rows` × `columns` with its upper left corner at the given cell. */
export function placeBlock(
  block: readonly (readonly string[])[],
  at: { readonly row: number; readonly column: number },
  size: { readonly rows: number; readonly columns: number },
): Placement {
  const placed: Placed[] = [];
  let left = 0;
  block.forEach((cells, down) => {
    cells.forEach((text, across) => {
      const row = at.row + down;
      const column = at.column + across;
      if (row < size.rows && column < size.columns) placed.push({ row, column, text });
      else if (text !== '') left++;
    });
  });
  return { placed, left };
}

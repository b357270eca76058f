import { type Cell, isBlank, textOfCell, valueOfCell } from './cells.ts';
import type { Draft } from './draft.ts';
import { readHead } from './head.ts';
import { fieldNamed, sectionNamed } from './named.ts';

const PARTS = ['name', 'serial', 'note'];
const PROVENANCE = ['by', 'with', 'on', 'note'];

/**
 * A free table: a row `table`, `heads.flow` (and by, with, date, note behind it), a row of column names with their
 * units (`lift (in)`), then rows down to the next blank one. `heads.parts` are the part lines of a section.
 * @returns the index of its last row
 */
export function readFreeTable(
  rows: readonly (readonly Cell[])[],
  at: number,
  first: number,
  decimal: '.' | ',',
  draft: Draft,
): number {
  let last = at;
  while (last + 1 < rows.length && !isEnd(rows[last + 1]!)) last += 1;
  const [sectionText = '', id = ''] = textOfCell(rows[at]![first + 1]).split('.');
  const section = sectionNamed(sectionText);
  const table = section?.tables?.find((one) => one.id === id || one.label === id);
  const isParts = section !== undefined && id === 'parts';
  if (section === undefined || (table === undefined && !isParts)) {
    draft.refuse(
      at,
      first + 1,
      rows[at]![first + 1],
      'a table such as "heads.flow" or "heads.parts"',
    );
    return last;
  }
  const body = rows.slice(at + 2, last + 1);
  const heads = rows[at + 1] ?? [];
  if (isParts) {
    const columns = heads.map(textOfCell);
    draft.parts(
      section.id,
      partsOf(columns, body, (column) =>
        draft.refuse(at + 1, column, columns[column], `one of ${PARTS.join(', ')}`),
      ),
    );
    for (const i of body.keys()) draft.seen(`sections.${section.id}.parts[${i}]`, at + 2 + i, 0);
    return last;
  }
  const path = `sections.${section.id}.tables.${table!.id}`;
  draft.seen(path, at, first);
  const units: Record<string, string> = {};
  const columns = heads.map((cell, column) => {
    if (isBlank(cell)) return null;
    const text = textOfCell(cell);
    const split = /^(.*?)\s*[([]([^)\]]*)[)\]]\s*$/.exec(text);
    const owner = { fields: table!.columns };
    const whole = fieldNamed(owner, text);
    const spec = whole ?? fieldNamed(owner, split?.[1] ?? text);
    if (spec === undefined) {
      draft.refuse(
        at + 1,
        column,
        text,
        `a column of ${section.id}.${table!.id}: ${table!.columns.map((one) => one.id).join(', ')}`,
      );
      return null;
    }
    if (whole === undefined && split !== null) units[spec.id] = split[2]!;
    draft.seen(`${path}.units.${spec.id}`, at + 1, column);
    return spec;
  });
  const read = body.map((row, i) => {
    const out: Record<string, unknown> = {};
    columns.forEach((spec, column) => {
      if (spec === null) return;
      draft.seen(`${path}.rows[${i}].${spec.id}`, at + 2 + i, column);
      const value = valueOfCell(spec, row[column], units[spec.id], decimal);
      if (value === null) return;
      if ('wrong' in value) draft.refuse(at + 2 + i, column, row[column], value.wrong);
      else {
        out[spec.id] = value.value;
        // A unit in the cell speaks for a column without one.
        if (value.unit !== undefined) units[spec.id] ??= value.unit;
        if (value.unit !== undefined && value.unit !== units[spec.id])
          draft.refuse(
            at + 2 + i,
            column,
            row[column],
            `the unit of its column, ${units[spec.id]}`,
          );
      }
    });
    return out;
  });
  const about = rows[at]!.slice(first + 2).map(textOfCell);
  draft.table(section.id, table!.id, {
    ...(Object.keys(units).length === 0 ? {} : { units }),
    rows: read,
    ...Object.fromEntries(
      PROVENANCE.flatMap((name, i) => (about[i] ? [[name, about[i]] as const] : [])),
    ),
  });
  return last;
}

const isEnd = (row: readonly Cell[]) =>
  row.every(isBlank) ||
  readHead(row) !== null ||
  textOfCell(row.find((cell) => !isBlank(cell))).toLowerCase() === 'table';

function partsOf(
  columns: readonly string[],
  body: readonly (readonly Cell[])[],
  refuse: (column: number) => void,
): unknown[] {
  columns.forEach((name, column) => {
    if (name !== '' && !PARTS.includes(name.toLowerCase())) refuse(column);
  });
  return body.map((row) =>
    Object.fromEntries(
      columns.flatMap((name, column) =>
        isBlank(row[column]) || name === ''
          ? []
          : [[name.toLowerCase(), textOfCell(row[column])] as const],
      ),
    ),
  );
}

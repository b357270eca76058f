import { SECTIONS } from '../sections/index.ts';
import { layoutOf, placeLabels } from '../sheet/layout.ts';
import { nearest } from '../sheet/near.ts';
import { readSheet } from '../sheet/read.ts';
import { readLayout } from '../sheet/readLayout.ts';
import { textOf } from '../sheet/shape.ts';
import type { Layout, Place, Sheet } from '../sheet/types.ts';
import { type Cell, type CellProblem, isBlank, key, textOfCell, valueOfCell } from './cells.ts';
import { Draft } from './draft.ts';
import { readFreeTable } from './freeTable.ts';
import { type Head, readHead } from './head.ts';
import { fieldNamed, sectionNamed } from './named.ts';

export interface TableOptions {
  /** Of the engine, where the table does not say it. */
  readonly layout?: Layout;
  /** Of a sheet that the table goes onto: what the table does not say of the layout stays. */
  readonly standing?: Layout;
  /** How the file writes decimals in cells that are text. */
  readonly decimal?: '.' | ',';
}

/**
 * A sheet from the rows of a plain spreadsheet table. A row that has the cell `field` is a header: below it each row is
 * one field, with its value in the column `value`, or one value a place under the places' names (`Cylinder 1`). A row
 * that begins with `table` begins a free table, down to the next blank row. Sections and fields by id or by label.
 * @returns the sheet, or everything that is wrong, by row and column (50 at most)
 */
export function sheetFromTable(
  rows: readonly (readonly Cell[])[],
  options: TableOptions = {},
): { readonly sheet: Sheet } | { readonly problems: readonly CellProblem[] } {
  const draft = new Draft();
  const layout = layoutIn(rows, options, draft);
  if (layout === null) return { problems: draft.problems.slice(0, 50) };
  let head: Head | null = null;
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at]!;
    if (row.every(isBlank)) continue;
    const first = row.findIndex((cell) => !isBlank(cell));
    if (key(textOfCell(row[first])) === 'table' && !isBlank(row[first + 1])) {
      at = readFreeTable(rows, at, first, options.decimal ?? '.', draft);
      continue;
    }
    const found = readHead(row);
    if (found !== null) head = found;
    else if (head === null) {
      draft.refuse(at, first, row[first], 'a header with the cells "section", "field" and "value"');
      break;
    } else readRow(row, at, head, layout, options.decimal ?? '.', draft);
  }
  if (draft.problems.length > 0) return { problems: draft.problems.slice(0, 50) };
  const read = readSheet(draft.sheet(layout));
  if ('sheet' in read) return read;
  return { problems: read.problems.map((problem) => draft.placed(problem)) };
}

/** The layout rows of the table, else what was handed in, else as many cylinders as places are named. */
function layoutIn(
  rows: readonly (readonly Cell[])[],
  options: TableOptions,
  draft: Draft,
): Layout | null {
  const said: Record<string, unknown> = {};
  const where = new Map<string, readonly [number, number]>();
  let head: Head | null = null;
  let most = 0;
  rows.forEach((row, at) => {
    const found = readHead(row);
    if (found !== null) head = found;
    for (const cell of row)
      most = Math.max(
        most,
        Number(/^cyl(?:inder)?\.?\s*(\d{1,2})$/i.exec(textOfCell(cell))?.[1] ?? 0),
      );
    if (head === null || found !== null || key(textOfCell(row[head.section ?? -1])) !== 'layout')
      return;
    const name = textOfCell(row[head.field]);
    const known = nearest(name, Object.keys(layoutOf(1))) ?? name;
    const column = head.value ?? head.field + 1;
    const cell = row[column];
    const number = Number(textOfCell(cell));
    said[known] = isBlank(cell) ? null : Number.isNaN(number) ? textOfCell(cell) : number;
    where.set(`layout.${known}`, [at, column]);
  });
  const { standing = null } = options;
  const known = standing ?? options.layout;
  if (Object.keys(said).length === 0 && known !== undefined) return known;
  if (said.cylinders === undefined && most > 0) said.cylinders = known?.cylinders ?? most;
  const before = draft.problems.length;
  const layout = readLayout(
    { ...standing, ...said },
    {
      add: (path, found, expected) => {
        const [row, column] = where.get(path) ?? [0, 0];
        draft.refuse(
          row,
          column,
          textOf(found),
          path === 'layout.cylinders' && !where.has(path)
            ? 'a row "layout", "cylinders" with how many there are, or places such as "Cylinder 1"'
            : expected,
        );
      },
    },
  );
  return draft.problems.length > before ? null : layout;
}

/** One field of a long or wide table. */
function readRow(
  row: readonly Cell[],
  at: number,
  head: Head,
  layout: Layout,
  decimal: '.' | ',',
  draft: Draft,
): void {
  const cell = (column: number | undefined) =>
    column === undefined ? '' : textOfCell(row[column]);
  const [sectionText, fieldText] = splitPath(cell(head.section), cell(head.field));
  if (key(sectionText) === 'layout') return;
  if (key(sectionText) === 'sheet') {
    draft.say(key(fieldText), cell(head.value), at, head.value ?? 0);
    return;
  }
  const section = sectionNamed(sectionText);
  if (section === undefined) {
    const near = nearest(
      sectionText,
      SECTIONS.map((one) => one.id),
      SECTIONS.map((one) => [one.id, one.title] as const),
    );
    draft.refuse(
      at,
      head.section ?? head.field,
      sectionText,
      near === null
        ? `a section: ${SECTIONS.map((one) => one.id).join(', ')}`
        : `a section; perhaps "${near}" is meant`,
    );
    return;
  }
  if (key(fieldText) === 'notes') {
    draft.note(section.id, cell(head.value), at, head.value ?? 0);
    return;
  }
  const field = fieldNamed(section, fieldText);
  if (field === undefined) {
    const near = nearest(
      fieldText,
      section.fields.map((one) => one.id),
      section.fields.map((one) => [one.id, one.label] as const),
    );
    draft.refuse(
      at,
      head.field,
      fieldText,
      near === null
        ? `a field of ${section.id}: ${section.fields.map((one) => one.id).join(', ')}`
        : `a field of ${section.id}; perhaps "${near}" is meant`,
    );
    return;
  }
  const unit = cell(head.unit) || undefined;
  const target = draft.entry(section.id, field, at, {
    by: cell(head.by),
    with: cell(head.with),
    on: cell(head.on),
    note: cell(head.note),
  });
  if (!isBlank(row[head.plusMinus ?? -1])) {
    const tolerance = valueOfCell(
      { ...field, kind: 'number' },
      row[head.plusMinus!],
      undefined,
      decimal,
    );
    if (tolerance === null || 'wrong' in tolerance)
      draft.refuse(at, head.plusMinus!, row[head.plusMinus!], 'a number, in the unit of the value');
    else target.tolerance(tolerance.value as number, at, head.plusMinus!);
  }
  const named = cell(head.place);
  const places: [column: number, label: string | null][] = [
    ...(head.value === undefined
      ? []
      : [[head.value, named === '' ? null : named] as [number, string | null]]),
    ...head.places.map(([column, label]) => [column, label] as [number, string | null]),
  ];
  for (const [column, label] of places) {
    if (isBlank(row[column])) continue;
    const value = valueOfCell(field, row[column], unit, decimal);
    if (value === null) continue;
    if ('wrong' in value) draft.refuse(at, column, row[column], value.wrong);
    else if (label === null) target.one(value, at, column, head.unit);
    else {
      const index = field.per === undefined ? null : placeIndex(field.per, label, layout);
      if (index === null)
        draft.refuse(
          at,
          column,
          label,
          field.per === undefined
            ? `no place: ${field.label} stands once`
            : `a place of ${field.label}: ${placeLabels(field.per, layout).join(', ')}`,
        );
      else target.each(index, placeLabels(field.per!, layout).length, value, at, column, head.unit);
    }
  }
}

/** `block.boreNominal` in the field's cell says the section too. */
function splitPath(section: string, field: string): [string, string] {
  if (section !== '' || !field.includes('.')) return [section, field];
  const dot = field.indexOf('.');
  return [field.slice(0, dot), field.slice(dot + 1)];
}

/** Index of `Cylinder 3`, `Cyl 3`, `Intake 4b` or a plain `3` among the places of a field; null where it is none. */
function placeIndex(place: Place, label: string, layout: Layout): number | null {
  const labels = placeLabels(place, layout);
  const wanted = key(label).replace(/^cyl(?=\d)/, 'cylinder');
  const named = labels.findIndex((one) => key(one) === wanted);
  if (named >= 0) return named;
  const number = /^\d{1,3}$/.test(wanted) ? Number(wanted) : 0;
  return number >= 1 && number <= labels.length ? number - 1 : null;
}

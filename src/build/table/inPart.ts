import { type FieldProblem, readSheet } from '../sheet/read.ts';
import type { Layout, Sheet } from '../sheet/types.ts';
import { inOrder } from '../sheet/write.ts';
import type { Cell } from './cells.ts';
import { sheetFromTable, type TableOptions } from './read.ts';

/** Something in a file that was not taken, by its cell (from 1) or its path. */
export interface NotTaken {
  readonly row: number | null;
  readonly column: number | null;
  readonly path: string | null;
  readonly found: string;
  readonly expected: string;
}

export interface ReadInPart {
  /** What could be read; null where nothing could. */
  readonly sheet: Sheet | null;
  readonly refused: readonly NotTaken[];
}

/** More that is wrong than this, and the file is another one than was meant. */
const MOST_REFUSED = 100;
const MOST_ROUNDS = 25;

/**
 * What can be read of the rows of a table: every cell that is wrong is told and left out, a row whose name is wrong as a
 * whole. What the table leaves open of the layout is as `options.standing` has it.
 */
export function tableInPart(
  given: readonly (readonly Cell[])[],
  options: TableOptions = {},
): ReadInPart {
  let rows = given.map((cells, at) => ({ at, cells: [...cells] }));
  const refused: NotTaken[] = [];
  const toldRows = new Set<number>();
  const emptied = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const read = sheetFromTable(
      rows.map(({ cells }) => cells),
      options,
    );
    if ('sheet' in read) {
      const sheet = inOrder(read.sheet);
      // A layout that nobody wrote is nothing that was read.
      const known = options.standing ?? options.layout;
      const isNothing =
        isBare(sheet) && JSON.stringify(read.sheet.layout) === JSON.stringify(known);
      return { sheet: isNothing && refused.length > 0 ? null : sheet, refused: byCell(refused) };
    }
    const toldBefore = new Set(toldRows);
    const gone = new Set<number>();
    for (const { row, column, found, expected } of read.problems) {
      const line = rows[row - 1];
      // A table without any row has no cell to leave out.
      if (line === undefined)
        return { sheet: null, refused: [notTaken(row, column, found, expected)] };
      // What follows from a cell that was left out is not told again.
      if (!toldBefore.has(line.at)) refused.push(notTaken(line.at + 1, column, found, expected));
      toldRows.add(line.at);
      const cell = `${line.at} ${column}`;
      if (emptied.has(cell) || (line.cells[column - 1] ?? null) === null) gone.add(line.at);
      emptied.add(cell);
      line.cells[column - 1] = null;
    }
    if (refused.length > MOST_REFUSED) break;
    rows = rows.filter(({ at }) => !gone.has(at));
  }
  return { sheet: null, refused: byCell(refused).slice(0, MOST_REFUSED) };
}

const byCell = (refused: readonly NotTaken[]): NotTaken[] =>
  [...refused].sort((a, b) => a.row! - b.row! || a.column! - b.column!);

const isBare = ({ name, use, sections }: Sheet): boolean =>
  name === undefined && use === undefined && Object.keys(sections).length === 0;

const notTaken = (row: number, column: number, found: string, expected: string): NotTaken => ({
  row,
  column,
  path: null,
  found,
  expected,
});

/** The same of a build file: every value that is wrong is told and left out. Its photos and files are passed over. */
export function buildFileInPart(given: unknown, standing: Layout | null = null): ReadInPart {
  let value = withLayout(given, standing);
  const refused: NotTaken[] = [];
  const dropped = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const read = readSheet(value);
    if ('sheet' in read) return { sheet: inOrder(read.sheet), refused };
    for (const problem of read.problems) {
      if (!inside(dropped, problem.path)) refused.push(ofPath(problem));
      // What was left out and is missed then is left out with what it belongs to.
      let path = problem.path;
      while (dropped.has(path)) path = parentOf(path);
      if (path === '') return { sheet: null, refused };
      value = without(value, stepsOf(path));
      dropped.add(path);
    }
    if (refused.length > MOST_REFUSED) break;
  }
  return { sheet: null, refused: refused.slice(0, MOST_REFUSED) };
}

const ofPath = ({ path, found, expected }: FieldProblem): NotTaken => ({
  row: null,
  column: null,
  path,
  found,
  expected,
});

type Json = Record<string, unknown>;
const isObject = (value: unknown): value is Json => typeof value === 'object' && value !== null;

function withLayout(value: unknown, standing: Layout | null): unknown {
  if (!isObject(value) || Array.isArray(value)) return value;
  const { attachments: _, ...own } = value;
  if (standing === null) return own;
  const { layout = {} } = own;
  return isObject(layout) && !Array.isArray(layout)
    ? { ...own, layout: { ...standing, ...layout } }
    : own;
}

const stepsOf = (path: string): string[] => path.split(/[.[\]]+/).filter((step) => step !== '');
const parentOf = (path: string): string => path.replace(/(?:\.[^.[\]]+|\[[^[\]]*\]|^[^.[]+)$/, '');
const inside = (paths: ReadonlySet<string>, path: string): boolean =>
  [...paths].some(
    (one) => path === one || one.startsWith(`${path}.`) || one.startsWith(`${path}[`),
  );

/** The same without what stands at a path; a place of a list becomes empty, so that the others stay where they are. */
function without(value: unknown, [step, ...rest]: readonly string[]): unknown {
  if (step === undefined || !isObject(value) || !Object.hasOwn(value, step)) return value;
  if (Array.isArray(value))
    return value.map((one, at) =>
      at !== Number(step) ? one : rest.length === 0 ? null : without(one, rest),
    );
  const { [step]: own, ...others } = value;
  return rest.length === 0 ? others : { ...others, [step]: without(own, rest) };
}

import { type PlanPart, q, say } from '../plan/say.ts';
import type { FieldSpec, TableSpec } from '../sections/field.ts';
import { SECTIONS } from '../sections/index.ts';
import { isEach, type Sheet, type Table } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';

/** What differs in a free table, in sentences that each unit system prints its own way. */
export interface TableChange {
  readonly path: string;
  readonly label: string;
  readonly sentences: readonly (readonly PlanPart[])[];
}

/** Two numbers nearer than this share are one, typed in two units. */
const SAME_SHARE = 1e-9;
/** Curves nearer than this share of their largest reading are called alike. */
const ALIKE_SHARE = 0.001;
/** Rows that are told one by one; of more, only how many. */
const ROWS_TOLD = 8;

/**
 * Free tables that differ, in the order of the sheet. One whose first column is measured is a curve: it is told by
 * where it now stands higher or lower, at the places where both were read, else straight between readings. One whose first
 * column is a name is told row by row.
 */
export function tableChanges(before: Sheet, after: Sheet): TableChange[] {
  return SECTIONS.flatMap((section) =>
    (section.tables ?? []).flatMap((spec) => {
      const path = `${section.id}.${spec.id}`;
      const [was, is] = [before, after].map((sheet) =>
        rowsOf(sheet.sections[section.id]?.tables?.[spec.id], spec),
      ) as [Rows, Rows];
      const isCurve = spec.columns[0]!.kind === 'quantity';
      const sentences = isCurve
        ? curveSentences(spec, was, is, otherDepression(path, before, after))
        : namedSentences(spec, was, is);
      return sentences.length === 0 ? [] : [{ path, label: spec.label, sentences }];
    }),
  );
}

type Cell = number | string | boolean | null;
type Rows = readonly Readonly<Record<string, Cell>>[];

/** Rows with their numbers in inside units; empty ones left out. */
const rowsOf = (table: Table | undefined, spec: TableSpec): Rows =>
  (table?.rows ?? [])
    .map((row) =>
      Object.fromEntries(
        spec.columns.map((column) => {
          const cell = row[column.id] ?? null;
          const unit = table?.units?.[column.id];
          return [column.id, typeof cell === 'number' ? insideOf(column, cell, unit) : cell];
        }),
      ),
    )
    .filter((row) => Object.values(row).some((cell) => cell !== null && cell !== ''));

const isSame = (a: Cell, b: Cell): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= SAME_SHARE * Math.max(Math.abs(a), Math.abs(b))
    : a === b || ((a ?? '') === '' && (b ?? '') === '');

/** A cell as a part of a sentence. */
function told(field: FieldSpec, cell: Cell) {
  if (cell === null || cell === '') return 'not said';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  return typeof cell === 'number' && field.shown !== undefined
    ? q(cell, field.shown)
    : String(cell);
}

// Curves

type Point = readonly [x: number, y: number];

function pointsOf(rows: Rows, x: FieldSpec, y: FieldSpec): Point[] {
  const points = rows.flatMap((row): Point[] => {
    const [at, value] = [row[x.id], row[y.id]];
    return typeof at === 'number' && typeof value === 'number' ? [[at, value]] : [];
  });
  return points.sort((a, b) => a[0] - b[0]);
}

/** Straight between two readings; within the readings only. */
function valueAt(points: readonly Point[], x: number): number {
  const after = points.findIndex(([at]) => at >= x || isSame(at, x));
  const [x1, y1] = points[after]!;
  if (after === 0 || isSame(x1, x)) return y1;
  const [x0, y0] = points[after - 1]!;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

function curveSentences(
  spec: TableSpec,
  was: Rows,
  is: Rows,
  notComparable: readonly PlanPart[] | null,
): (readonly PlanPart[])[] {
  const [x, ...others] = spec.columns as [FieldSpec, ...FieldSpec[]];
  const compared = others.flatMap((y): (readonly PlanPart[])[] => {
    const [old, now] = [pointsOf(was, x, y), pointsOf(is, x, y)];
    if (
      old.length === now.length &&
      old.every((point, i) => point.every((v, k) => isSame(v, now[i]![k]!)))
    )
      return [];
    if (old.length === 0 || now.length === 0)
      return [
        now.length === 0
          ? say`${y.label}: ${count(old)} before, none now.`
          : say`${y.label}: ${count(now)} now, none before.`,
      ];
    if (notComparable !== null) return [[{ text: `${y.label}: ` }, ...notComparable]];
    return [curveSentence(x, y, old, now)];
  });
  return compared;
}

const count = ({ length }: readonly unknown[]) =>
  length === 1 ? 'one reading' : `${length} readings`;

function curveSentence(
  x: FieldSpec,
  y: FieldSpec,
  old: readonly Point[],
  now: readonly Point[],
): readonly PlanPart[] {
  const from = Math.max(old[0]![0], now[0]![0]);
  const to = Math.min(old.at(-1)![0], now.at(-1)![0]);
  // A straight line between readings sags under a bent curve, so places that both were read at go first.
  const shared = old.flatMap(([one]) => (now.some(([other]) => isSame(one, other)) ? [one] : []));
  const all = [...new Set([...old, ...now].map(([one]) => one))].sort((a, b) => a - b);
  const isShared = shared.length > 1;
  const at = isShared ? shared : all.filter((one) => one >= from && one <= to);
  if (at.length === 0)
    return say`${y.label}: read over another stretch than before, so the two cannot be laid side by side.`;
  const size = Math.max(...[...old, ...now].map(([, value]) => Math.abs(value)));
  const differences = at.map((one) => ({
    x: one,
    was: valueAt(old, one),
    is: valueAt(now, one),
    by: valueAt(now, one) - valueAt(old, one),
  }));
  const real = differences.filter(({ by }) => Math.abs(by) > ALIKE_SHARE * size);
  if (real.length === 0)
    return say`${y.label}: the same where both were read; ${count(old)} before, ${count(now)} now.`;
  const most = real.reduce((a, b) => (Math.abs(b.by) > Math.abs(a.by) ? b : a));
  const shown = (value: number) => told(y, value);
  const where = (value: number) => told(x, value);
  const place = x.label.toLowerCase().replace(/ at the lifter$/, '');
  const side = (by: number) => (by > 0 ? 'higher' : 'lower');
  const peak = say`most at ${place} ${where(most.x)}: ${shown(most.was)} to ${shown(most.is)}`;
  const turns = real.slice(1).filter((one, i) => Math.sign(one.by) !== Math.sign(real[i]!.by));
  const opening =
    turns.length === 0
      ? say`${y.label}: ${side(most.by)}${real.length === at.length ? ' all the way' : ` at ${String(real.length)} of ${String(at.length)} readings`}, `
      : turns.length === 1
        ? say`${y.label}: ${side(real[0]!.by)} below ${place} ${where(turns[0]!.x)}, ${side(turns[0]!.by)} from there on, `
        : say`${y.label}: now higher, now lower, `;
  const how = isShared ? '.' : '. They were read at other places; straight between readings.';
  return [...opening, ...peak, { text: how }];
}

/** Flow at two depressions is not one quantity: what follows from it compares them at one. */
function otherDepression(path: string, before: Sheet, after: Sheet): readonly PlanPart[] | null {
  if (path !== 'heads.flow') return null;
  const [was, is] = [before, after].map((sheet) => {
    const entry = sheet.sections.heads?.values?.flowDepression;
    return entry === undefined || isEach(entry) || typeof entry.value !== 'number'
      ? null
      : insideOf(
          { id: '', label: '', kind: 'quantity', dimension: 'pressure' },
          entry.value,
          entry.unit,
        );
  }) as [number | null, number | null];
  if (was !== null && is !== null && isSame(was, is)) return null;
  return was === null || is === null
    ? say`read anew; at which depression is not said of both, so the readings are not compared.`
    : say`read anew at ${q(is, 'depression')} in place of ${q(was, 'depression')}, so the readings are not compared; the flow at 28 inches above is.`;
}

// Named rows

function namedSentences(spec: TableSpec, was: Rows, is: Rows): (readonly PlanPart[])[] {
  const [name] = spec.columns as [FieldSpec];
  const [old, now] = [keyed(was, name), keyed(is, name)];
  const all = [...new Set([...old.keys(), ...now.keys()])].flatMap(
    (key): (readonly PlanPart[])[] => {
      const [a, b] = [old.get(key), now.get(key)];
      if (a === undefined) return [say`${key} is new.`];
      if (b === undefined) return [say`${key} is gone.`];
      const changed = spec.columns.filter(({ id }) => !isSame(a[id] ?? null, b[id] ?? null));
      if (changed.length === 0) return [];
      return [
        changed.flatMap((field, i) => [
          ...say`${i === 0 ? `${key}: ` : ', '}${field.label.toLowerCase()} `,
          ...say`${told(field, a[field.id] ?? null)} to ${told(field, b[field.id] ?? null)}`,
          ...(i === changed.length - 1 ? [{ text: '.' }] : []),
        ]),
      ];
    },
  );
  if (all.length <= ROWS_TOLD) return all;
  return [...all.slice(0, ROWS_TOLD), say`And ${String(all.length - ROWS_TOLD)} more rows.`];
}

/** Rows by their name; of one name several times, by which of them. */
function keyed(rows: Rows, name: FieldSpec): ReadonlyMap<string, Rows[number]> {
  const found = new Map<string, Rows[number]>();
  for (const row of rows) {
    const called = String(row[name.id] ?? '') || 'A row without a name';
    let key = called;
    for (let i = 2; found.has(key); i++) key = `${called}, ${i}`;
    found.set(key, row);
  }
  return found;
}

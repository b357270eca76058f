import { fieldOf, tableOf } from '../sections/index.ts';
import { countOf } from '../sheet/layout.ts';
import type { Layout, Sheet } from '../sheet/types.ts';
import { isEach } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';

/**
 * What a computation needs, as a question to a sheet. Needs are put together from smaller ones, so that what was
 * used and what is missing is known without anybody listing it.
 */
export type Need<T> = (ask: Ask) => T;

/**
 * Thrown inside a computation when something it needs is not on the sheet; caught by `answerFrom`. No Error: a half
 * filled sheet throws it by the thousand, and a stack trace nobody reads costs more than the computation.
 */
export class NotMeasured {
  readonly paths: readonly string[];
  constructor(paths: readonly string[]) {
    this.paths = paths;
  }
}

/** A row of a free table, its numbers in inside units. */
export type Row = Readonly<Record<string, number | string | boolean | null>>;

/** One field moved by so much [inside units], to see what its tolerance does. */
export interface Shift {
  readonly path: string;
  readonly by: number;
}

/** What a need came to: its value, or what it threw. */
export type Came<T> = { readonly value: T } | { readonly thrown: unknown };

/** A need that can also be asked without throwing: on a half filled sheet most of the time would go into throws. */
type QuietNeed<T> = Need<T> & { readonly quietly?: (ask: Ask) => Came<T> };

/** What a need comes to, whatever it throws. */
export function tried<T>(ask: Ask, need: QuietNeed<T>): Came<T> {
  if (need.quietly !== undefined) return need.quietly(ask);
  try {
    return { value: need(ask) };
  } catch (thrown) {
    return { thrown };
  }
}

/** Makes a need of its quiet form; whoever just calls it gets the throw. */
const quiet = <T>(quietly: (ask: Ask) => Came<T>): Need<T> =>
  Object.assign(
    (ask: Ask): T => {
      const came = quietly(ask);
      if ('thrown' in came) throw came.thrown;
      return came.value;
    },
    { quietly },
  );

const orMissing = <T>(value: T | null, path: string): Came<T> =>
  value === null ? { thrown: new NotMeasured([path]) } : { value };

type Remembered = Came<unknown> & {
  readonly used: ReadonlySet<string>;
  readonly assumed: ReadonlySet<string>;
};

/**
 * What needs came to on one sheet. A field that is shifted changes only the needs that use it: all others are taken
 * as they were. Needs are told apart by identity, so one that is to be found again stands at the top of its file.
 */
export class Memory {
  readonly #sheet: Sheet;
  readonly #typed = new Map<string, Typed>();
  readonly #rows = new Map<string, readonly Row[]>();
  readonly #plain: Layer = new Map();

  constructor(sheet: Sheet) {
    this.#sheet = sheet;
  }

  /** What stands at a path, numbers in inside units. */
  typed(path: string): Typed {
    let typed = this.#typed.get(path);
    if (typed === undefined) {
      typed = typedAt(this.#sheet, path);
      this.#typed.set(path, typed);
    }
    return typed;
  }

  rows(path: string): readonly Row[] {
    let rows = this.#rows.get(path);
    if (rows === undefined) {
      rows = rowsAt(this.#sheet, path);
      this.#rows.set(path, rows);
    }
    return rows;
  }

  /** Where what came of needs is kept: a place of its own for each shift. */
  layer(shift: Shift | null): Layer {
    return shift === null ? this.#plain : new Map();
  }

  /** What a need came to: without the shift, where what is shifted plays no part in it. */
  find(need: Need<unknown>, shift: Shift | null, layer: Layer): Remembered | undefined {
    const plain = this.#plain.get(need);
    if (shift === null || (plain !== undefined && !plain.used.has(shift.path))) return plain;
    return layer.get(need);
  }
}

type Layer = Map<Need<unknown>, Remembered>;

/** An entry with its numbers in inside units. */
type Typed =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'number'; readonly value: number; readonly count: number | null }
  | { readonly kind: 'each'; readonly values: readonly (number | null)[] }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'yesNo'; readonly value: boolean };

function typedAt(sheet: Sheet, path: string): Typed {
  const [section, id] = path.split('.') as [string, string];
  const entry = sheet.sections[section]?.values?.[id];
  const field = fieldOf(path);
  if (entry === undefined || field === undefined) return { kind: 'nothing' };
  if (isEach(entry)) {
    const values = entry.each.map((one) =>
      one === null ? null : insideOf(field, one, entry.unit),
    );
    return values.every((one) => one === null) ? { kind: 'nothing' } : { kind: 'each', values };
  }
  const { value } = entry;
  if (typeof value === 'boolean') return { kind: 'yesNo', value };
  if (typeof value === 'string')
    return value.trim() === '' ? { kind: 'nothing' } : { kind: 'text', value };
  return {
    kind: 'number',
    value: insideOf(field, value, entry.unit),
    count: field.per === undefined ? null : countOf(field.per, sheet.layout),
  };
}

function rowsAt(sheet: Sheet, path: string): readonly Row[] {
  const [section, id] = path.split('.') as [string, string];
  const table = sheet.sections[section]?.tables?.[id];
  const spec = tableOf(section, id);
  if (table === undefined || spec === undefined) return [];
  return table.rows.map((row) =>
    Object.fromEntries(
      spec.columns.map((column) => {
        const cell = row[column.id] ?? null;
        const value =
          typeof cell === 'number' ? insideOf(column, cell, table.units?.[column.id]) : cell;
        return [column.id, value];
      }),
    ),
  );
}

/**
 * One computation's look at a sheet. Numbers come out in inside units (SI; rev/min; degrees).
 * It keeps which fields it was asked for, and can shift one of them to see what its tolerance does.
 */
export class Ask {
  readonly layout: Layout;
  /** Paths that were used; not kept with a field shifted, where they are the same. */
  readonly used = new Set<string>();
  /** Paths in whose place something usual was taken. */
  readonly assumed = new Set<string>();
  readonly #sheet: Sheet;
  readonly #shift: Shift | null;
  readonly #memory: Memory;
  readonly #layer: Layer;

  /** @param memory  one for all computations of one answer, so that what several ask for is worked out once */
  constructor(sheet: Sheet, shift: Shift | null = null, memory: Memory = new Memory(sheet)) {
    this.#layer = memory.layer(shift);
    this.#sheet = sheet;
    this.layout = sheet.layout;
    this.#shift = shift;
    this.#memory = memory;
  }

  /** What a need comes to on this sheet, worked out once for all who ask; paths it used count for each of them. */
  once<T>(need: Need<T>): T {
    const came = this.recall(need);
    if ('thrown' in came) throw came.thrown;
    return came.value;
  }

  /** The same without a throw. */
  recall<T>(need: Need<T>): Came<T> {
    const known = this.#memory.find(need, this.#shift, this.#layer) ?? this.#workOut(need);
    if (this.#shift === null) {
      for (const path of known.used) this.used.add(path);
      for (const path of known.assumed) this.assumed.add(path);
    }
    return known as Came<T>;
  }

  #workOut(need: Need<unknown>): Remembered {
    // What a need uses is known from the sheet as it is; with a field shifted nobody asks for it again.
    const ask = this.#shift === null ? new Ask(this.#sheet, null, this.#memory) : this;
    const remembered = { ...tried(ask, need), used: ask.used, assumed: ask.assumed };
    this.#layer.set(need, remembered);
    return remembered;
  }

  #note(path: string): void {
    if (this.#shift === null) this.used.add(path);
  }

  /** Says that something usual was taken in place of what nobody measured. */
  assume(path: string): void {
    if (this.#shift === null) this.assumed.add(path);
  }

  get use(): string | null {
    return this.#sheet.use ?? null;
  }

  #moved(path: string, value: number): number {
    return this.#shift?.path === path ? value + this.#shift.by : value;
  }

  /** A value that stands once, or null. */
  numberOrNull(path: string): number | null {
    const typed = this.#memory.typed(path);
    if (typed.kind !== 'number') return null;
    this.#note(path);
    return this.#moved(path, typed.value);
  }

  /** Values by place, null where not measured; null when nothing was measured. One value for all is repeated. */
  eachOrNull(path: string): readonly (number | null)[] | null {
    const typed = this.#memory.typed(path);
    if (typed.kind === 'each') {
      this.#note(path);
      if (this.#shift?.path !== path) return typed.values;
      return typed.values.map((one) => (one === null ? null : this.#moved(path, one)));
    }
    if (typed.kind !== 'number' || typed.count === null || typed.count === 0) return null;
    this.#note(path);
    return Array<number>(typed.count).fill(this.#moved(path, typed.value));
  }

  textOrNull(path: string): string | null {
    const typed = this.#memory.typed(path);
    if (typed.kind !== 'text') return null;
    this.#note(path);
    return typed.value;
  }

  yesOrNull(path: string): boolean | null {
    const typed = this.#memory.typed(path);
    if (typed.kind !== 'yesNo') return null;
    this.#note(path);
    return typed.value;
  }

  /** Rows of a free table (`camshaft.card`) with numbers in inside units; empty when there are none. */
  rows(path: string): readonly Row[] {
    const rows = this.#memory.rows(path);
    if (rows.length > 0) this.#note(path);
    return rows;
  }

  /** All of these at once; what is missing among them is told together. */
  all<T extends Record<string, Need<unknown>>>(
    needs: T,
  ): { readonly [K in keyof T]: T[K] extends Need<infer V> ? V : never } {
    const missing: string[] = [];
    const out: Record<string, unknown> = {};
    for (const key of Object.keys(needs)) {
      const came = tried(this, needs[key]!);
      if ('value' in came) out[key] = came.value;
      else if (came.thrown instanceof NotMeasured) missing.push(...came.thrown.paths);
      else throw came.thrown;
    }
    if (missing.length > 0) throw new NotMeasured([...new Set(missing)]);
    return out as { readonly [K in keyof T]: T[K] extends Need<infer V> ? V : never };
  }
}

/** A number that must be there. */
export const one = (path: string): Need<number> =>
  quiet((ask) => orMissing(ask.numberOrNull(path), path));

/** A number, or what stands for it where it is not on the sheet. */
export const oneOr =
  <T>(path: string, otherwise: T): Need<number | T> =>
  (ask) =>
    ask.numberOrNull(path) ?? otherwise;

/** A number, or what is usual in its place; the answer then says that it was assumed, and asks for it. */
export const oneOrUsual =
  (path: string, usual: number | Need<number>): Need<number> =>
  (ask) => {
    const value = ask.numberOrNull(path);
    if (value !== null) return value;
    ask.assume(path);
    return typeof usual === 'number' ? usual : usual(ask);
  };

/** A need that several figures share, worked out once an answer. */
export const once = <T>(need: Need<T>): Need<T> => quiet((ask) => ask.recall(need));

/** Values by place; at least one must be there. Places that were not measured stay null. */
export const eachOf = (path: string): Need<readonly (number | null)[]> =>
  quiet((ask) => orMissing(ask.eachOrNull(path), path));

export const textOf = (path: string): Need<string> =>
  quiet((ask) => orMissing(ask.textOrNull(path), path));

/** The first of several ways that the sheet allows. Where none does, the missing of the first way are told. */
export const firstOf = <T>(...ways: readonly Need<T>[]): Need<T> =>
  quiet((ask) => {
    let first: Came<T> | undefined;
    for (const way of ways) {
      const came = tried(ask, way);
      if ('value' in came || !(came.thrown instanceof NotMeasured)) return came;
      first ??= came;
    }
    return first ?? { thrown: new NotMeasured([]) };
  });

/** Null instead of a complaint: for what sharpens an answer but is not needed for one. */
export const ifThere = <T>(need: Need<T>): Need<T | null> =>
  quiet((ask) => {
    const came: Came<T | null> = tried(ask, need);
    return 'thrown' in came && came.thrown instanceof NotMeasured ? { value: null } : came;
  });

/** Mean over the places that were measured. */
export const meanOf = (need: Need<readonly (number | null)[]>): Need<number> =>
  quiet((ask) => {
    const came = tried(ask, need);
    if ('thrown' in came) return came;
    const values = came.value.filter((value): value is number => value !== null);
    return { value: values.reduce((sum, value) => sum + value, 0) / values.length };
  });

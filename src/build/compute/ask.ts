import { fieldOf, tableOf } from '../sections/index.ts';
import { countOf } from '../sheet/layout.ts';
import type { Entry, Layout, Sheet } from '../sheet/types.ts';
import { isEach } from '../sheet/types.ts';
import { insideOf } from '../sheet/units.ts';

/**
 * What a computation needs, as a question to a sheet. Needs are put together from smaller ones, so that what was
 * used and what is missing is known without anybody listing it.
 */
export type Need<T> = (ask: Ask) => T;

/** Thrown inside a computation when something it needs is not on the sheet; caught by `answerOf`. */
export class NotMeasured extends Error {
  readonly paths: readonly string[];
  constructor(paths: readonly string[]) {
    super(`not measured: ${paths.join(', ')}`);
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

type Remembered = ({ readonly value: unknown } | { readonly thrown: unknown }) & {
  readonly used: ReadonlySet<string>;
  readonly assumed: ReadonlySet<string>;
};

/**
 * What needs came to on one sheet. A field that is shifted changes only the needs that use it: all others are taken
 * as they were. Needs are told apart by identity, so one that is to be found again stands at the top of its file.
 */
export class Memory {
  readonly #plain = new Map<Need<unknown>, Remembered>();
  readonly #shifted = new Map<string, Map<Need<unknown>, Remembered>>();

  find(need: Need<unknown>, shift: Shift | null): Remembered | undefined {
    const plain = this.#plain.get(need);
    if (shift === null || (plain !== undefined && !plain.used.has(shift.path))) return plain;
    return this.#shifted.get(keyOf(shift))?.get(need);
  }

  keep(need: Need<unknown>, shift: Shift | null, remembered: Remembered): void {
    if (shift === null) {
      this.#plain.set(need, remembered);
      return;
    }
    const key = keyOf(shift);
    let needs = this.#shifted.get(key);
    if (needs === undefined) {
      needs = new Map();
      this.#shifted.set(key, needs);
    }
    needs.set(need, remembered);
  }
}

const keyOf = ({ path, by }: Shift) => `${path} ${by}`;

/**
 * One computation's look at a sheet. Numbers come out in inside units (SI; rev/min; degrees).
 * It keeps which fields it was asked for, and can shift one of them to see what its tolerance does.
 */
export class Ask {
  readonly layout: Layout;
  readonly used = new Set<string>();
  /** Paths in whose place something usual was taken. */
  readonly assumed = new Set<string>();
  readonly #sheet: Sheet;
  readonly #shift: Shift | null;
  readonly #memory: Memory;

  /** @param memory  one for all computations of one answer, so that what several ask for is worked out once */
  constructor(sheet: Sheet, shift: Shift | null = null, memory: Memory = new Memory()) {
    this.#sheet = sheet;
    this.layout = sheet.layout;
    this.#shift = shift;
    this.#memory = memory;
  }

  /** What a need comes to on this sheet, worked out once for all who ask; paths it used count for each of them. */
  once<T>(need: Need<T>): T {
    const known = this.#memory.find(need, this.#shift) ?? this.#workOut(need);
    for (const path of known.used) this.used.add(path);
    for (const path of known.assumed) this.assumed.add(path);
    if ('thrown' in known) throw known.thrown;
    return known.value as T;
  }

  #workOut(need: Need<unknown>): Remembered {
    const ask = new Ask(this.#sheet, this.#shift, this.#memory);
    let came: { readonly value: unknown } | { readonly thrown: unknown };
    try {
      came = { value: need(ask) };
    } catch (thrown) {
      came = { thrown };
    }
    const remembered = { ...came, used: ask.used, assumed: ask.assumed };
    this.#memory.keep(need, this.#shift, remembered);
    return remembered;
  }

  get use(): string | null {
    return this.#sheet.use ?? null;
  }

  #entry(path: string) {
    const [section, field] = path.split('.') as [string, string];
    return this.#sheet.sections[section]?.values?.[field];
  }

  #moved(path: string, value: number): number {
    return this.#shift?.path === path ? value + this.#shift.by : value;
  }

  /** A value that stands once, or null. */
  numberOrNull(path: string): number | null {
    const entry = this.#entry(path);
    if (entry === undefined || isEach(entry) || typeof entry.value !== 'number') return null;
    this.used.add(path);
    return this.#moved(path, insideOf(fieldOf(path)!, entry.value, entry.unit));
  }

  /** Values by place, null where not measured; null when nothing was measured. One value for all is repeated. */
  eachOrNull(path: string): readonly (number | null)[] | null {
    const entry = this.#entry(path);
    if (entry === undefined) return null;
    const field = fieldOf(path)!;
    const inside = (value: number) => this.#moved(path, insideOf(field, value, entry.unit));
    if (isEach(entry)) {
      if (entry.each.every((one) => one === null)) return null;
      this.used.add(path);
      return entry.each.map((one) => (one === null ? null : inside(one)));
    }
    if (typeof entry.value !== 'number' || field.per === undefined) return null;
    this.used.add(path);
    return Array.from({ length: countOf(field.per, this.layout) }, () =>
      inside(entry.value as number),
    );
  }

  textOrNull(path: string): string | null {
    const entry = this.#entry(path) as Entry | undefined;
    if (typeof entry?.value !== 'string' || entry.value.trim() === '') return null;
    this.used.add(path);
    return entry.value;
  }

  yesOrNull(path: string): boolean | null {
    const entry = this.#entry(path) as Entry | undefined;
    if (typeof entry?.value !== 'boolean') return null;
    this.used.add(path);
    return entry.value;
  }

  /** Rows of a free table (`camshaft.card`) with numbers in inside units; empty when there are none. */
  rows(path: string): readonly Row[] {
    const [section, id] = path.split('.') as [string, string];
    const table = this.#sheet.sections[section]?.tables?.[id];
    const spec = tableOf(section, id);
    if (table === undefined || spec === undefined || table.rows.length === 0) return [];
    this.used.add(path);
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

  /** All of these at once; what is missing among them is told together. */
  all<T extends Record<string, Need<unknown>>>(
    needs: T,
  ): { readonly [K in keyof T]: T[K] extends Need<infer V> ? V : never } {
    const missing: string[] = [];
    const out: Record<string, unknown> = {};
    for (const [key, need] of Object.entries(needs)) {
      try {
        out[key] = need(this);
      } catch (error) {
        if (!(error instanceof NotMeasured)) throw error;
        missing.push(...error.paths);
      }
    }
    if (missing.length > 0) throw new NotMeasured([...new Set(missing)]);
    return out as { readonly [K in keyof T]: T[K] extends Need<infer V> ? V : never };
  }
}

/** A number that must be there. */
export const one =
  (path: string): Need<number> =>
  (ask) => {
    const value = ask.numberOrNull(path);
    if (value === null) throw new NotMeasured([path]);
    return value;
  };

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
    ask.assumed.add(path);
    return typeof usual === 'number' ? usual : usual(ask);
  };

/** A need that several figures share, worked out once an answer. */
export const once =
  <T>(need: Need<T>): Need<T> =>
  (ask) =>
    ask.once(need);

/** Values by place; at least one must be there. Places that were not measured stay null. */
export const eachOf =
  (path: string): Need<readonly (number | null)[]> =>
  (ask) => {
    const values = ask.eachOrNull(path);
    if (values === null) throw new NotMeasured([path]);
    return values;
  };

export const textOf =
  (path: string): Need<string> =>
  (ask) => {
    const value = ask.textOrNull(path);
    if (value === null) throw new NotMeasured([path]);
    return value;
  };

/** The first of several ways that the sheet allows. Where none does, the missing of the first way are told. */
export const firstOf =
  <T>(...ways: readonly Need<T>[]): Need<T> =>
  (ask) => {
    let first: NotMeasured | undefined;
    for (const way of ways) {
      try {
        return way(ask);
      } catch (error) {
        if (!(error instanceof NotMeasured)) throw error;
        first ??= error;
      }
    }
    throw first ?? new NotMeasured([]);
  };

/** Null instead of a complaint: for what sharpens an answer but is not needed for one. */
export const ifThere =
  <T>(need: Need<T>): Need<T | null> =>
  (ask) => {
    try {
      return need(ask);
    } catch (error) {
      if (error instanceof NotMeasured) return null;
      throw error;
    }
  };

/** Mean over the places that were measured. */
export const meanOf =
  (need: Need<readonly (number | null)[]>): Need<number> =>
  (ask) => {
    const values = need(ask).filter((value): value is number => value !== null);
    return values.reduce((sum, value) => sum + value, 0) / values.length;
  };

import type { FieldSpec } from '../sections/index.ts';
import type { FieldProblem } from '../sheet/read.ts';
import { textOf } from '../sheet/shape.ts';
import type { Layout } from '../sheet/types.ts';
import type { Cell, CellProblem, CellValue } from './cells.ts';

type Value = Exclude<CellValue, null | { readonly wrong: string }>;
type Json = Record<string, unknown>;

/** A sheet as it comes together from cells, which remembers the cell that each path was read from. */
export class Draft {
  readonly problems: CellProblem[] = [];
  readonly #sheet: Json = {};
  readonly #sections: Record<string, Json> = {};
  readonly #cells = new Map<string, readonly [row: number, column: number]>();
  readonly #entries = new Map<string, Target>();

  refuse(row: number, column: number, found: Cell | undefined, expected: string): void {
    this.problems.push({
      row: row + 1,
      column: column + 1,
      found: textOf(found ?? undefined),
      expected,
    });
  }

  /** Name or use of the whole sheet. */
  say(name: string, text: string, row: number, column: number): void {
    if (name === 'name' || name === 'use') this.#sheet[name] = text;
    else this.refuse(row, column, name, '"name" or "use" in the row of the sheet');
  }

  note(section: string, text: string, row: number, column: number): void {
    this.#section(section).notes = text;
    this.seen(`sections.${section}.notes`, row, column);
  }

  entry(
    section: string,
    field: FieldSpec,
    row: number,
    about: Readonly<Record<string, string>>,
  ): Target {
    const path = `sections.${section}.values.${field.id}`;
    const target = this.#entries.get(path) ?? new Target(this, path, field);
    this.#entries.set(path, target);
    for (const [name, text] of Object.entries(about)) if (text !== '') target.json[name] ??= text;
    this.seen(path, row, 0);
    this.#within(section, 'values')[field.id] = target.json;
    return target;
  }

  table(section: string, table: string, json: unknown): void {
    this.#within(section, 'tables')[table] = json;
  }

  parts(section: string, parts: unknown): void {
    this.#section(section).parts = parts;
  }

  seen(path: string, row: number, column: number): void {
    this.#cells.set(path, [row, column]);
  }

  /** The whole as JSON, for `readSheet` to judge. Fields of whose places none was filled in are left out. */
  sheet(layout: Layout): Json {
    for (const section of Object.values(this.#sections)) {
      const values = (section.values ?? {}) as Record<string, Json>;
      for (const [id, entry] of Object.entries(values))
        if (!('value' in entry) && !('each' in entry)) delete values[id];
    }
    return { format: 'sheet/1', ...this.#sheet, layout, sections: this.#sections };
  }

  /** A problem of the sheet at the cell it came from. */
  placed(problem: FieldProblem): CellProblem {
    for (
      let path = problem.path;
      path !== '';
      path = path.replace(/(?:\.[^.[\]]+|\[[^[\]]*\]|^[^.[]+)$/, '')
    ) {
      const cell = this.#cells.get(path);
      if (cell !== undefined)
        return {
          row: cell[0] + 1,
          column: cell[1] + 1,
          found: problem.found,
          expected: problem.expected,
        };
    }
    return { row: 1, column: 1, found: problem.found, expected: problem.expected };
  }

  #section(id: string): Json {
    this.#sections[id] ??= {};
    return this.#sections[id];
  }

  #within(id: string, part: 'values' | 'tables'): Json {
    const section = this.#section(id);
    section[part] ??= {};
    return section[part] as Json;
  }
}

/** One entry that cells are filled into. */
class Target {
  readonly json: Json = {};
  readonly #draft: Draft;
  readonly #path: string;
  readonly #field: FieldSpec;

  constructor(draft: Draft, path: string, field: FieldSpec) {
    this.#draft = draft;
    this.#path = path;
    this.#field = field;
  }

  one(read: Value, row: number, column: number, unitColumn: number | undefined): void {
    if ('value' in this.json || 'each' in this.json) {
      this.#draft.refuse(
        row,
        column,
        read.value,
        `${this.#field.label} once only: another row has it already`,
      );
      return;
    }
    this.json.value = read.value;
    this.#draft.seen(`${this.#path}.value`, row, column);
    this.#beside(read, row, column, unitColumn);
  }

  each(
    index: number,
    count: number,
    read: Value,
    row: number,
    column: number,
    unitColumn: number | undefined,
  ): void {
    this.json.each ??= Array<null>(count).fill(null);
    const each = this.json.each as (Value['value'] | null)[];
    if ('value' in this.json || each[index] !== null) {
      this.#draft.refuse(
        row,
        column,
        read.value,
        `one value for each place of ${this.#field.label}: another cell has it already`,
      );
      return;
    }
    each[index] = read.value;
    this.#draft.seen(`${this.#path}.each[${index}]`, row, column);
    this.#beside(read, row, column, unitColumn);
  }

  tolerance(plusMinus: number, row: number, column: number): void {
    this.json.plusMinus ??= plusMinus;
    this.#draft.seen(`${this.#path}.plusMinus`, row, column);
  }

  #beside(read: Value, row: number, column: number, unitColumn: number | undefined): void {
    if (read.unit !== undefined) {
      this.json.unit ??= read.unit;
      if (this.json.unit !== read.unit)
        this.#draft.refuse(
          row,
          unitColumn ?? column,
          read.unit,
          `one unit for ${this.#field.label}: ${String(this.json.unit)}, as above`,
        );
    }
    this.#draft.seen(`${this.#path}.unit`, row, unitColumn ?? column);
    if (read.plusMinus !== undefined) this.tolerance(read.plusMinus, row, column);
  }
}

import { FormatError, InputError } from '../errors.ts';
import { type Dimension, exampleOf, findUnit, parseQuantity } from '../units/index.ts';
import { quoted, shown } from './display.ts';

const LARGEST_SESSION = 4_000_000;
const LONGEST_QUANTITY = 80;

/** One value of a session file that knows its path, so that every refusal can name it. */
export class SessionNode {
  private readonly touched = new Set<string>();
  private readonly children = new Map<string, SessionNode>();

  constructor(
    readonly value: unknown,
    readonly path: string,
    private readonly fileName: string,
  ) {}

  /** @throws FormatError always */
  refuse(why: string, expected: string): never {
    const where = this.path === '' ? 'the file' : this.path;
    throw new FormatError(`${where}: ${why}; expected ${expected}`, {
      file: this.fileName,
      found: shown(this.value === undefined ? 'nothing' : JSON.stringify(this.value), 80),
      expected,
    });
  }

  has(name: string): boolean {
    const object = this.object();
    return Object.hasOwn(object, name) && object[name] !== null;
  }

  /** The child of that name; a missing one is refused when its value is asked for. */
  key(name: string): SessionNode {
    const object = this.object();
    this.touched.add(name);
    let child = this.children.get(name);
    if (child === undefined) {
      const path = this.path === '' ? name : `${this.path}.${name}`;
      child = new SessionNode(
        Object.hasOwn(object, name) ? object[name] : undefined,
        path,
        this.fileName,
      );
      this.children.set(name, child);
    }
    return child;
  }

  items(): SessionNode[] {
    if (!Array.isArray(this.value)) return this.refuse(this.stands(), 'a list');
    return this.value.map((_, at) => this.at(at));
  }

  entries(): (readonly [string, SessionNode])[] {
    return Object.keys(this.object()).map((name) => [shown(name, 60), this.key(name)] as const);
  }

  text(): string {
    if (typeof this.value !== 'string' || this.value.trim() === '')
      return this.refuse(this.stands(), 'a text');
    return shown(this.value, 2000);
  }

  optionalText(name: string): string | null {
    return this.has(name) ? this.key(name).text() : null;
  }

  truth(): boolean {
    return typeof this.value === 'boolean'
      ? this.value
      : this.refuse(this.stands(), 'true or false');
  }

  number(least: number, most: number): number {
    const value =
      typeof this.value === 'string'
        ? Number(this.value.slice(0, 40).replace(/ ?: ?1$/, ''))
        : this.value;
    if (typeof value !== 'number' || !(value >= least && value <= most))
      return this.refuse(this.stands(), `a number from ${least} to ${most}`);
    return value;
  }

  count(least: number, most: number): number {
    const value = this.number(least, most);
    return Number.isInteger(value) ? value : this.refuse(this.stands(), 'a whole number');
  }

  oneOf<Word extends string>(words: readonly Word[]): Word {
    const text = typeof this.value === 'string' ? this.value.trim().toLowerCase() : '';
    const word = words.find((one) => one === text);
    return word ?? this.refuse(this.stands(), words.join(', '));
  }

  /**
   * A quantity as text with its unit, in inside units.
   * @param bareUnit  the unit in which a bare number is taken; without it a bare number is refused
   */
  quantity(
    dimension: Dimension,
    least = Number.MIN_VALUE,
    most = Number.MAX_VALUE,
    bareUnit?: string,
  ): number {
    const text = typeof this.value === 'number' ? String(this.value) : this.value;
    if (typeof text !== 'string' || text.length > LONGEST_QUANTITY)
      return this.refuse(this.stands(), exampleOf(dimension));
    const assume = bareUnit === undefined ? undefined : findUnit(bareUnit, dimension);
    let value: number;
    try {
      value = parseQuantity(text, dimension, assume === undefined ? {} : { assume });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const expected = error.place.expected ?? exampleOf(dimension);
      return this.refuse(error.message.replace(/; expected .*$/s, ''), expected);
    }
    if (!(value >= least && value <= most))
      return this.refuse(
        `${quoted(text)} is out of range`,
        `${exampleOf(dimension)}, ${rangeWords(least, most, bareUnit)}`,
      );
    return value;
  }

  /** Paths of keys nobody asked for. */
  unread(): string[] {
    if (typeof this.value !== 'object' || this.value === null) return [];
    const own = Array.isArray(this.value)
      ? []
      : Object.keys(this.value)
          .filter((name) => !this.touched.has(name))
          .map((name) => shown(this.path === '' ? name : `${this.path}.${name}`));
    return [...own, ...[...this.children.values()].flatMap((child) => child.unread())];
  }

  private at(index: number): SessionNode {
    const name = `[${index}]`;
    let child = this.children.get(name);
    if (child === undefined) {
      child = new SessionNode(
        (this.value as unknown[])[index],
        `${this.path}${name}`,
        this.fileName,
      );
      this.children.set(name, child);
    }
    return child;
  }

  private object(): Record<string, unknown> {
    if (typeof this.value !== 'object' || this.value === null || Array.isArray(this.value))
      return this.refuse(this.stands(), 'an object with keys');
    return this.value as Record<string, unknown>;
  }

  private stands(): string {
    if (this.value === undefined || this.value === null) return 'nothing stands here';
    if (typeof this.value === 'string') return `${quoted(this.value)} stands here`;
    return `${shown(JSON.stringify(this.value), 48)} stands here`;
  }
}

/** Ends of a range in inside units, which are the bare unit's where both ends are told. */
function rangeWords(least: number, most: number, unit = ''): string {
  if (least === Number.MIN_VALUE) return 'above zero';
  return most === Number.MAX_VALUE ? 'not below zero' : `from ${least} to ${most} ${unit}`.trim();
}

/** The root of a session file. @throws FormatError  not JSON: with line and column where the parser tells them */
export function parseSessionJson(text: string, fileName: string): SessionNode {
  if (text.length > LARGEST_SESSION)
    throw new FormatError('the session file is far too long', {
      file: fileName,
      found: `${text.length} characters`,
      expected: `at most ${LARGEST_SESSION}`,
    });
  const bare = text.replace(/^\uFEFF/, '');
  if (bare.trim() === '')
    throw new FormatError('the session file is empty', {
      file: fileName,
      line: 1,
      found: 'nothing',
      expected: '"session/1" as JSON',
    });
  let value: unknown;
  try {
    value = JSON.parse(bare);
  } catch (error) {
    const message = error instanceof Error ? error.message : '';
    const position = /position (\d+)/.exec(message)?.[1];
    const before = position === undefined ? null : bare.slice(0, Number(position)).split('\n');
    throw new FormatError(
      `the session file is not JSON${before === null ? ': it ends too early' : ''}`,
      {
        file: fileName,
        line: before === null ? bare.split('\n').length : before.length,
        ...(before === null ? {} : { column: before.at(-1)!.length + 1 }),
        found: shown(
          position === undefined ? 'the end' : bare.slice(Number(position), Number(position) + 20),
          40,
        ),
        expected: '"session/1" as JSON',
      },
      error,
    );
  }
  return new SessionNode(value, '', fileName);
}

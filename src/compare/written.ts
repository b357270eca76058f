import { FormatError } from '../errors.ts';
import { type Dimension, exampleOf, parseQuantity } from '../units/index.ts';

/** Reading what a person wrote as JSON (a vehicle, a use): every slip named by its field, all of them in one look. */

/** One thing wrong: where, by its path (`tyre.radius`, `gears[2]`), and what to do about it. */
export interface WrittenProblem {
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

/** Of a file with this many slips the rest would only bury the first. */
const MOST_PROBLEMS = 30;
const LONGEST = 60;

type Plain = Readonly<Record<string, unknown>>;
const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A value with its path, and where its slips go. What is wrong reads as null, and reading goes on. */
export class Written {
  constructor(
    readonly value: unknown,
    readonly path: string,
    private readonly problems: WrittenProblem[],
  ) {}

  wrong(expected: string): null {
    if (this.problems.length < MOST_PROBLEMS) {
      const text =
        this.value === undefined ? 'nothing' : (JSON.stringify(this.value) ?? String(this.value));
      this.problems.push({
        path: this.path === '' ? 'the file' : this.path,
        found: text.length > LONGEST ? `${text.slice(0, LONGEST - 3)}...` : text,
        expected,
      });
    }
    return null;
  }

  /** An object with no keys but these; null where it is none. */
  object(keys: readonly string[]): ((key: string) => Written) | null {
    if (!isPlain(this.value)) return this.wrong(`an object with ${keys.join(', ')}`);
    const { value } = this;
    for (const key of Object.keys(value).slice(0, MOST_PROBLEMS))
      if (!keys.includes(key))
        this.child(key, key).wrong(`a key that is known here: ${keys.join(', ')}`);
    return (key) => this.child(key, Object.hasOwn(value, key) ? value[key] : undefined);
  }

  private child(key: string, value: unknown): Written {
    const name = /^[\w-]{1,40}$/.test(key) ? key : JSON.stringify(key.slice(0, 40));
    return new Written(value, this.path === '' ? name : `${this.path}.${name}`, this.problems);
  }

  get isMissing(): boolean {
    return this.value === undefined || this.value === null || this.value === '';
  }

  /** A text of number and unit within bounds (inside units), as `"1450 kg"`. */
  quantity(dimension: Dimension, least: number, most: number, bounds: string): number | null {
    const expected = `${exampleOf(dimension)}, ${bounds}`;
    if (typeof this.value !== 'string' || this.value.length > LONGEST) return this.wrong(expected);
    try {
      const value = parseQuantity(this.value, dimension);
      return value >= least && value <= most ? value : this.wrong(expected);
    } catch {
      return this.wrong(expected);
    }
  }

  /** A plain number within bounds; a text of one is taken too. */
  number(least: number, most: number, what: string): number | null {
    const expected = `${what} from ${least} to ${most}`;
    const value =
      typeof this.value === 'string' && /^\s*\d+([.,]\d+)?\s*$/.test(this.value)
        ? Number(this.value.replace(',', '.'))
        : this.value;
    return typeof value === 'number' && value >= least && value <= most
      ? value
      : this.wrong(expected);
  }

  text(most: number): string | null {
    return typeof this.value === 'string' && this.value.trim() !== '' && this.value.length <= most
      ? this.value.trim()
      : this.wrong(`a text of at most ${most} letters`);
  }

  oneOf<T extends string>(words: readonly T[]): T | null {
    return words.find((word) => word === this.value) ?? this.wrong(words.join(' or '));
  }

  /** A list of at least and at most so many. */
  list(least: number, most: number, what: string): readonly Written[] | null {
    if (!Array.isArray(this.value) || this.value.length < least || this.value.length > most)
      return this.wrong(`a list of ${least} to ${most} ${what}`);
    return this.value.map((one, i) => new Written(one, `${this.path}[${i}]`, this.problems));
  }
}

export type ReadWritten<T> =
  | { readonly value: T }
  | { readonly problems: readonly WrittenProblem[] };

/** Reads with a reader that answers null where anything is wrong. */
export function readWritten<T>(
  value: unknown,
  reader: (written: Written) => T | null,
): ReadWritten<T> {
  const problems: WrittenProblem[] = [];
  const read = reader(new Written(value, '', problems));
  return problems.length > 0 || read === null ? { problems } : { value: read };
}

/** `tyre.radius: found "12 kg"; expected a length such as "88.4 mm", from 0.1 to 1 m`. */
const writtenSentence = ({ path, found, expected }: WrittenProblem): string =>
  `${path}: found ${found}; expected ${expected}`;

/** @throws FormatError  naming the first field that is wrong, and how many more there are */
export function orRefuse<T>(read: ReadWritten<T>, file?: string): T {
  if ('value' in read) return read.value;
  const [first] = read.problems;
  const others = read.problems.length - 1;
  const more = others > 0 ? ` (and ${others} more)` : '';
  throw new FormatError(`${writtenSentence(first!)}${more}`, {
    ...(file === undefined ? {} : { file }),
    found: first!.found,
    expected: first!.expected,
  });
}

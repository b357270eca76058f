import { figureEnds, figureText } from './figuresIn.ts';
import { filled, type Pattern, type Place } from './pattern.ts';
import type { PhraseBook } from './phrases.ts';

/** Places tried before a sentence is given up: what is written to be slow costs a few milliseconds and stays English. */
const MOST_TRIES = 20_000;
/** Texts that one sentence can mean, and ways to fill one pair, that are kept apart: with more it is ambiguous anyway. */
const MOST_READINGS = 4;
const MOST_FILLS = 16;
/** Phrases within phrases. */
const MOST_DEPTH = 150;

/** One sentence being read: what it can mean, by all the pairs that fit it and its parts. */
export class Reading {
  readonly #book: PhraseBook;
  readonly #names: ReadonlySet<string>;
  readonly #isStrict: boolean;
  readonly #kept = new Map<string, readonly string[]>();
  #tries = 0;
  #depth = 0;

  /** @param isStrict  words from outside must be known names */
  constructor(book: PhraseBook, names: ReadonlySet<string>, isStrict: boolean) {
    this.#book = book;
    this.#names = names;
    this.#isStrict = isStrict;
  }

  /** The one text that the sentence can mean; null: none, several, or it takes too long to say. */
  of(english: string): string | null {
    const readings = this.#readings(english);
    return this.#tries < MOST_TRIES && readings.length === 1 ? readings[0]! : null;
  }

  /** Every different text that the words can mean, at most `MOST_READINGS`. */
  #readings(english: string): readonly string[] {
    const exact = this.#book.exact.get(english);
    if (exact !== undefined) return [exact];
    const kept = this.#kept.get(english);
    if (kept !== undefined) return kept;
    if (english === '') return [];
    if (this.#depth >= MOST_DEPTH) this.#tries = MOST_TRIES;
    if (this.#tries >= MOST_TRIES) return [];
    this.#depth += 1;
    const readings = this.#read(english);
    this.#depth -= 1;
    this.#kept.set(english, readings);
    return readings;
  }

  #read(english: string): readonly string[] {
    const readings = this.#fitting(english);
    if (readings.length > 0) return readings;
    for (const [words, back] of otherwise(english)) {
      const found = this.#book.exact.has(words)
        ? [this.#book.exact.get(words)!]
        : this.#fitting(words);
      if (found.length > 0) return found.map(back);
    }
    return [];
  }

  #fitting(english: string): readonly string[] {
    const found = new Set<string>();
    for (const pattern of this.#book.patternsFor(english)) {
      for (const text of this.#fitted(pattern, english)) found.add(text);
      if (found.size >= MOST_READINGS) break;
    }
    for (const text of this.#joined(english)) found.add(text);
    return [...found].slice(0, MOST_READINGS);
  }

  /** Sentences in a row, and parts with semicolons between, each known alone. */
  #joined(english: string): Set<string> {
    const found = new Set<string>();
    for (const { between, at } of JOINS)
      for (const end of endsOf(english, between, at)) {
        if (++this.#tries >= MOST_TRIES || found.size >= MOST_READINGS) return found;
        const head = this.#readings(english.slice(0, end));
        if (head.length === 0) continue;
        for (const rest of this.#readings(english.slice(end + between.length)))
          for (const one of head) found.add(`${one}${between}${rest}`);
      }
    return found;
  }

  #fitted({ literals, places, own }: Pattern, english: string): string[] {
    const head = literals[0]!;
    const tail = literals.at(-1)!;
    if (english.length < head.length + tail.length) return [];
    if (!english.startsWith(head) || !english.endsWith(tail)) return [];
    if (literals.some((literal) => !english.includes(literal))) return [];
    const end = english.length - tail.length;
    const texts = this.#fills(literals, places, english, 0, head.length, end);
    return [...new Set(texts.map((fill) => filled(own, places, fill)))];
  }

  /** What the places from `index` on can hold, from letter `start` up to `end`. */
  #fills(
    literals: readonly string[],
    places: readonly Place[],
    english: string,
    index: number,
    start: number,
    end: number,
  ): (readonly string[])[] {
    const place = places[index];
    if (place === undefined) return start === end ? [[]] : [];
    const fills: (readonly string[])[] = [];
    const isLast = index === places.length - 1;
    const next = literals[index + 1]!;
    for (const stop of this.#stops(place, english, start, isLast ? null : next, end)) {
      if (++this.#tries >= MOST_TRIES || fills.length >= MOST_FILLS) break;
      const rest = isLast
        ? [[]]
        : this.#fills(literals, places, english, index + 1, stop + next.length, end);
      if (rest.length === 0) continue;
      const held = this.#held(place, english.slice(start, stop));
      for (const one of held) for (const other of rest) fills.push([one, ...other]);
    }
    return fills;
  }

  /** Where a place that begins at `start` can end: where the text after it begins. */
  #stops(
    { kind }: Place,
    english: string,
    start: number,
    next: string | null,
    end: number,
  ): readonly number[] {
    if (kind === 'figures')
      return figureEnds(english, start).filter((stop) =>
        next === null ? stop === end : stop < end && english.startsWith(next, stop),
      );
    if (next === null) return start < end ? [end] : [];
    const stops: number[] = [];
    let at = english.indexOf(next, start + 1);
    while (at !== -1 && at + next.length <= end) {
      stops.push(at);
      at = english.indexOf(next, at + 1);
    }
    return stops;
  }

  #held({ kind }: Place, text: string): readonly string[] {
    if (kind === 'outside') return this.#isStrict && !this.#names.has(text) ? [] : [text];
    if (kind === 'list') return this.#listed(text, false).map((items) => this.#joinedItems(items));
    if (kind === 'figures' || (kind === 'words' && figureEnds(text, 0).includes(text.length)))
      return [figureText(text, this.#book.figures)];
    const readings = this.#readings(text);
    // A part in a row of parts ends where the next begins.
    return kind === 'either' && readings.length === 0 && !text.includes('; ') ? [text] : readings;
  }

  /** `a, b and c` taken apart into names and words that are known. */
  #listed(text: string, hasAnd: boolean): (readonly string[])[] {
    const whole = this.#item(text);
    const found: (readonly string[])[] = whole.map((one) => [one]);
    for (const { between, at } of LISTS) {
      if (hasAnd && between !== ', ') continue;
      for (const end of endsOf(text, between, at)) {
        if (++this.#tries >= MOST_TRIES || found.length >= MOST_READINGS) return found;
        // The last comes first: only before it stands an `and`.
        const tail = text.slice(end + between.length);
        const last = this.#item(tail);
        if (last.length === 0) continue;
        for (const head of this.#listed(text.slice(0, end), true))
          for (const one of last) found.push([...head, one]);
      }
    }
    return found;
  }

  /** One of a list: a name, or words that are known; where a semicolon stands, the list has ended. */
  #item(text: string): readonly string[] {
    if (this.#names.has(text)) return [text];
    return text.includes('; ') ? [] : this.#readings(text);
  }

  #joinedItems(items: readonly string[]): string {
    const { and } = this.#book.figures;
    return items.length < 2
      ? items.join('')
      : `${items.slice(0, -1).join(', ')} ${and} ${items.at(-1)}`;
  }
}

const LISTS = [
  { between: ' and ', at: / and /g },
  { between: ', ', at: /, /g },
] as const;
const JOINS = [
  { between: ' ', at: /[.!?] (?=\p{Lu}|“|"|\d)/gu },
  { between: '; ', at: /; /g },
] as const;

/** Where a part can end before `between`. */
function endsOf(english: string, between: string, at: RegExp): number[] {
  return [...english.matchAll(at)].map((match) => match.index + match[0].length - between.length);
}

/**
 * The same words as they stand elsewhere: at the head of a sentence or inside of one, with its full stop or without; and
 * how what is found for them is written here.
 */
function otherwise(english: string): (readonly [string, (own: string) => string])[] {
  const first = english.charAt(0);
  const isCapital = first !== first.toLowerCase();
  const turned = (isCapital ? first.toLowerCase() : first.toUpperCase()) + english.slice(1);
  // A German noun stays large wherever it stands; a small word grows at the head of a sentence.
  const back = (own: string) => (isCapital ? own.charAt(0).toUpperCase() + own.slice(1) : own);
  const hasStop = english.endsWith('.');
  const stop = (text: string) => (hasStop ? text.slice(0, -1) : `${text}.`);
  const restop = (own: string) => (hasStop ? `${own}.` : own.replace(/\.$/, ''));
  return [
    [turned, back],
    [stop(english), restop],
    [stop(turned), (own) => restop(back(own))],
  ];
}

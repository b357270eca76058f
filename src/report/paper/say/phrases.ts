/**
 * Sentences of the computing rooms in another language. The rooms speak English; a language lists what they say as
 * pairs, and a sentence is told only where exactly one reading of it leads to exactly one text. Everything else comes
 * back as null and stays English: a name from outside can make a sentence stay, it can never make it say another thing.
 */
import { type FigureWords, figureEnds, figureText } from './figuresIn.ts';

/**
 * What a room says, and the same in the language. Places stand in braces, and both sides have the same ones:
 * `{#gain}` figures (`28°`, `-1.4`, `2500 to 6500 rpm`, `3, 4 and 5`), `{@name}` words from outside, which stay as they
 * are, `{why}` words or sentences that are pairs themselves, or figures.
 */
export type Phrase = readonly [english: string, own: string];

type PlaceKind = 'figures' | 'outside' | 'words';
interface Place {
  readonly name: string;
  readonly kind: PlaceKind;
}
interface Pattern {
  /** Text before, between and after the places: always one more than there are places. */
  readonly literals: readonly string[];
  readonly places: readonly Place[];
  readonly own: string;
}

const PLACE = /\{([#@]?)([a-zA-Z]\w*)\}/g;
/** Longer ones are no sentence of ours. */
const MOST_LETTERS = 2000;
/** Places tried before a sentence is given up: what is written to be slow costs a few milliseconds and stays English. */
const MOST_TRIES = 20_000;
/** Texts that one sentence can mean, and ways to fill one pair, that are kept apart: with more it is ambiguous anyway. */
const MOST_READINGS = 4;
const MOST_FILLS = 16;
const MOST_KEPT = 5000;
/** Phrases within phrases. */
const MOST_DEPTH = 150;

/** All pairs of one language. Stateless to the caller: the same sentence always gives the same text. */
export class PhraseBook {
  readonly #exact = new Map<string, string>();
  /** By the first letter of their text; under '' those that begin with a place. */
  readonly #patterns = new Map<string, Pattern[]>();
  readonly #figures: FigureWords;
  readonly #kept = new Map<string, readonly string[]>();
  #tries = 0;
  #depth = 0;

  constructor(phrases: readonly Phrase[], figures: FigureWords) {
    this.#figures = figures;
    for (const [english, own] of phrases) {
      const pattern = patternOf(english, own);
      if (pattern.places.length === 0) this.#exact.set(english, own);
      else {
        const first = pattern.literals[0]!.charAt(0);
        const alike = this.#patterns.get(first);
        if (alike === undefined) this.#patterns.set(first, [pattern]);
        else alike.push(pattern);
      }
    }
  }

  /** @returns the sentence in the language; null: no pair fits, or several that differ */
  told(english: string): string | null {
    if (english.length > MOST_LETTERS) return null;
    this.#tries = 0;
    const readings = this.#readings(english);
    const isWhole = this.#tries < MOST_TRIES;
    if (!isWhole || this.#kept.size > MOST_KEPT) this.#kept.clear();
    return isWhole && readings.length === 1 ? readings[0]! : null;
  }

  /** Every different text that the words can mean, at most `MOST_READINGS`. */
  #readings(english: string): readonly string[] {
    const exact = this.#exact.get(english);
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
    const found = new Set<string>();
    for (const first of [english.charAt(0), ''])
      for (const pattern of this.#patterns.get(first) ?? []) {
        for (const text of this.#fitted(pattern, english)) found.add(text);
        if (found.size >= MOST_READINGS) break;
      }
    for (const text of this.#joined(english)) found.add(text);
    if (found.size === 0) {
      // `none` and `None`: a word at the head of a sentence is the same word.
      const small = english.charAt(0).toLowerCase() + english.slice(1);
      if (small !== english) for (const text of this.#readings(small)) found.add(capital(text));
    }
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
    if (kind === 'outside') return [text];
    if (kind === 'figures') return [figureText(text, this.#figures)];
    if (figureEnds(text, 0).includes(text.length)) return [figureText(text, this.#figures)];
    return this.#readings(text);
  }
}

const JOINS = [
  { between: ' ', at: /[.!?] (?=\p{Lu}|“|"|\d)/gu },
  { between: '; ', at: /; /g },
] as const;

/** Where a part can end before `between`. */
function endsOf(english: string, between: string, at: RegExp): number[] {
  return [...english.matchAll(at)].map((match) => match.index + match[0].length - between.length);
}

/** @throws Error  the two sides have not the same places, or two places touch: a mistake of the catalogue */
export function patternOf(english: string, own: string): Pattern {
  const places: Place[] = [];
  const literals: string[] = [];
  let from = 0;
  for (const match of english.matchAll(PLACE)) {
    literals.push(english.slice(from, match.index));
    const kind = match[1] === '#' ? 'figures' : match[1] === '@' ? 'outside' : 'words';
    places.push({ name: match[0], kind });
    from = match.index + match[0].length;
  }
  literals.push(english.slice(from));
  const wrong = (why: string) => new Error(`Phrase "${english}": ${why}.`);
  const names = (text: string) => [...text.matchAll(PLACE)].map(([all]) => all).sort();
  if (String(names(english)) !== String(names(own))) throw wrong('both sides need the same places');
  if (new Set(places.map(({ name }) => name)).size < places.length)
    throw wrong('a place stands in it twice');
  if (literals.slice(1, -1).some((literal) => literal === '')) throw wrong('two places touch');
  if (places.length > 0 && literals.every((literal) => !/\S/.test(literal)))
    throw wrong('it has no text of its own');
  return { literals, places, own };
}

/** In one pass, so that braces in what was put in mean nothing. */
const filled = (own: string, places: readonly Place[], fills: readonly string[]): string =>
  own.replace(PLACE, (name) => fills[places.findIndex((place) => place.name === name)]!);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

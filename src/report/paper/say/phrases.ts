/**
 * Sentences of the computing rooms in another language. The rooms speak English; a language lists what they say as
 * pairs, and a sentence is told only where exactly one reading of it leads to exactly one text. Everything else comes
 * back as null and stays English: a name from outside can make a sentence stay, it can never make it say another thing.
 */
import type { FigureWords } from './figuresIn.ts';
import { type Pattern, type Phrase, patternOf } from './pattern.ts';
import { Reading } from './reading.ts';

export type { Phrase } from './pattern.ts';

/** Longer ones are no sentence of ours. */
const MOST_LETTERS = 2000;
const NO_NAMES: ReadonlySet<string> = new Set();

/** All pairs of one language. */
export class PhraseBook {
  /** Pairs without a place. */
  readonly exact = new Map<string, string>();
  readonly figures: FigureWords;
  /** By the first letter of their text; under '' those that begin with a place. */
  readonly #patterns = new Map<string, Pattern[]>();

  constructor(phrases: readonly Phrase[], figures: FigureWords) {
    this.figures = figures;
    for (const [english, own] of phrases) {
      const pattern = patternOf(english, own);
      if (pattern.places.length === 0) this.exact.set(english, own);
      else {
        const first = pattern.literals[0]!.charAt(0);
        const alike = this.#patterns.get(first);
        if (alike === undefined) this.#patterns.set(first, [pattern]);
        else alike.push(pattern);
      }
    }
  }

  /** Pairs with places that could fit. */
  patternsFor(english: string): readonly Pattern[] {
    const of = (first: string) => this.#patterns.get(first) ?? [];
    return [...of(english.charAt(0)), ...of('')];
  }

  /**
   * @param names  that came from outside, as far as they are known: they settle where a name ends, and what a list holds
   * @returns the sentence in the language; null: no pair fits, or several that differ
   */
  told(english: string, names: ReadonlySet<string> = NO_NAMES): string | null {
    if (english.length > MOST_LETTERS) return null;
    const told = new Reading(this, names, false).of(english);
    // A second try, where a name could end at several places: then it must be a known one.
    return told ?? (names.size === 0 ? null : new Reading(this, names, true).of(english));
  }
}

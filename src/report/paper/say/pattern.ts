/** One pair taken apart: its text and its places. */

/**
 * What a room says, and the same in the language. Places stand in braces, and both sides have the same ones:
 * `{#gain}` figures (`28°`, `-1.4`, `2500 to 6500 rpm`, `3, 4 and 5`), `{why}` words or sentences that are pairs
 * themselves, or figures; `{@name}` words from outside, which stay as they are; `{?use}` words that are pairs, or else from
 * outside; `{*parts}` a list of names and of words that are pairs.
 */
export type Phrase = readonly [english: string, own: string];

const KINDS = { '': 'words', '#': 'figures', '@': 'outside', '?': 'either', '*': 'list' } as const;
type PlaceKind = (typeof KINDS)[keyof typeof KINDS];
export interface Place {
  readonly name: string;
  readonly kind: PlaceKind;
}
export interface Pattern {
  /** Text before, between and after the places: always one more than there are places. */
  readonly literals: readonly string[];
  readonly places: readonly Place[];
  readonly own: string;
}

const PLACE = /\{([#@?*]?)([a-zA-Z]\w*)\}/g;
/** @throws Error  the two sides have not the same places, or two places touch: a mistake of the catalogue */
export function patternOf(english: string, own: string): Pattern {
  const places: Place[] = [];
  const literals: string[] = [];
  let from = 0;
  for (const match of english.matchAll(PLACE)) {
    literals.push(english.slice(from, match.index));
    places.push({ name: match[0], kind: KINDS[match[1] as keyof typeof KINDS] });
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
export const filled = (own: string, places: readonly Place[], fills: readonly string[]): string =>
  own.replace(PLACE, (name) => fills[places.findIndex((place) => place.name === name)]!);

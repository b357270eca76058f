import { de } from './de/index.ts';
import { en } from './en/index.ts';
import { PhraseBook } from './phrases.ts';
import type { Catalogue } from './types.ts';

export type { PhraseBook } from './phrases.ts';
export type { Catalogue, Words } from './types.ts';

/** Languages that the report speaks; each is a folder here. */
const CATALOGUES = { en, de } as const satisfies Readonly<Record<string, Catalogue>>;
export type Language = keyof typeof CATALOGUES;
export const LANGUAGES = Object.keys(CATALOGUES) as readonly Language[] as readonly [
  Language,
  ...Language[],
];

export const catalogueOf = (language: Language): Catalogue => CATALOGUES[language];

const books = new Map<Catalogue, PhraseBook>();

/** What the computing rooms say in that language, made once; null: they speak it themselves. */
export function bookOf(catalogue: Catalogue): PhraseBook | null {
  if (catalogue.spoken === null) return null;
  const known = books.get(catalogue);
  if (known !== undefined) return known;
  const made = new PhraseBook(catalogue.spoken.phrases, catalogue.spoken.figures);
  books.set(catalogue, made);
  return made;
}

import { de } from './de.ts';
import { en } from './en.ts';
import type { Words } from './types.ts';

export type { Words } from './types.ts';

/** Languages that the report speaks. */
export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

const CATALOGUE: Readonly<Record<Language, Words>> = { en, de };

export const wordsOf = (language: Language): Words => CATALOGUE[language];

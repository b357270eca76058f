import type { Phrase } from '../../phrases.ts';

/** What `src/ladder` says. */
export const ladders: readonly Phrase[] = [
  ['The pull at {#setting} is left out: {why}.', 'Der Lauf bei {#setting} zählt nicht: {why}.'],
];

import type { Catalogue } from '../types.ts';
import { en as words } from './words.ts';

/** The computing rooms speak English themselves. */
export const en: Catalogue = { words, spoken: null };

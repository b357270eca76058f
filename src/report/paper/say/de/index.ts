import type { Catalogue } from '../types.ts';
import { comparisons } from './phrases/comparisons.ts';
import { ladders } from './phrases/ladders.ts';
import { pulls } from './phrases/pulls.ts';
import { records } from './phrases/records.ts';
import { sheet } from './sheet/index.ts';
import { de as words } from './words.ts';

export const de: Catalogue = {
  words,
  spoken: {
    figures: {
      decimalComma: words.decimalComma,
      date: words.date,
      to: 'bis',
      and: 'und',
      or: 'oder',
      units: { rpm: '1/min', 'rpm/s': '1/min/s', deg: 'Grad' },
    },
    phrases: [...pulls, ...ladders, ...comparisons, ...records, ...sheet],
  },
};

/** The language a picture speaks: English, unless it stands in a report of another. */
import { createContext, useContext } from 'react';
import { CHARTS_IN_ENGLISH, type ChartWords } from '../../src/chartWords.ts';
import { type Figures, figuresIn } from './numbers.ts';

/** Words with the figures of their language. */
export interface Say extends Figures {
  readonly words: ChartWords;
}

export const sayIn = (words: ChartWords): Say => ({ words, ...figuresIn(words) });
const IN_ENGLISH = sayIn(CHARTS_IN_ENGLISH);

export const SayContext = createContext<Say>(IN_ENGLISH);
export const useSay = (): Say => useContext(SayContext);

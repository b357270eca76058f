/** A document as a row of blocks, in words ready to be read; every text is plain, whatever is written in it. */
import type { FigureWanted } from '../../figures.ts';

export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly quiet?: boolean }
  /** Label and value; `beside`: short ones, in two halves side by side. */
  | {
      readonly kind: 'facts';
      readonly rows: readonly (readonly [string, string])[];
      readonly beside?: boolean;
    }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly columns: readonly Head[];
      readonly rows: readonly (readonly string[])[];
      /** What stands under it in small letters. */
      readonly note?: string;
    }
  | {
      readonly kind: 'figure';
      readonly figure: FigureWanted;
      readonly caption: string;
      readonly height: number;
    }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Something to be careful about: its word stands beside the sign. */
  | { readonly kind: 'care'; readonly word: string; readonly items: readonly string[] }
  | { readonly kind: 'newPage' };

export interface Head {
  readonly title: string;
  readonly align: 'left' | 'right';
  /** Share of the width that a column of long words may take; numbers take what they need. */
  readonly wide?: boolean;
}

export interface Paper {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  readonly author: string;
  /** The shop's mark, PNG or SVG as a data URL: always a picture, never markup. */
  readonly mark: string | null;
  readonly madeAt: string;
  /** At the foot of every page. */
  readonly foot: string;
  /** `Page 2 of 7`, with the two numbers left out. */
  readonly page: readonly [string, string];
  readonly blocks: readonly Block[];
}

export const left = (title: string): Head => ({ title, align: 'left' });
export const right = (title: string): Head => ({ title, align: 'right' });
export const wide = (title: string): Head => ({ title, align: 'left', wide: true });

/** A document as a row of blocks, in words ready to be read; every text is plain, whatever is written in it. */
import type { FigureWanted } from '../../figures.ts';

export type Block =
  | {
      readonly kind: 'heading';
      readonly level: 1 | 2 | 3;
      readonly text: string;
      /** In small letters above it: what kind of document this is. */
      readonly over?: string;
      /** After it stands where each part that follows begins. */
      readonly contents?: boolean;
    }
  | { readonly kind: 'paragraph'; readonly text: string; readonly quiet?: boolean }
  /** Label and value; `beside`: short ones, in two halves side by side. */
  | {
      readonly kind: 'facts';
      readonly rows: readonly (readonly [string, string])[];
      readonly beside?: boolean;
    }
  /** The few figures that a reader looks for first, large, each with what bounds it and where it is. */
  | { readonly kind: 'headline'; readonly figures: readonly Headline[] }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly columns: readonly Head[];
      /** A row of one cell alone names what the rows under it are of, which begin with INDENT. */
      readonly rows: readonly (readonly string[])[];
      /** What stands under it in small letters. */
      readonly note?: string;
      /** Numbered from 1 under it; cells name their number, as `[1]`. */
      readonly sources?: { readonly title: string; readonly items: readonly string[] };
      /** Long and narrow: on paper its rows stand in two halves side by side. */
      readonly halves?: boolean;
    }
  | {
      readonly kind: 'figure';
      readonly figure: FigureWanted;
      readonly caption: string;
      readonly height: number;
    }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** What was to be done, with a box that is ticked or not, and by whom and when. */
  | { readonly kind: 'ticks'; readonly items: readonly Tick[] }
  /** Something to be careful about: its word stands beside the sign. */
  | { readonly kind: 'care'; readonly word: string; readonly items: readonly string[] }
  | { readonly kind: 'newPage' };

/** Before the label of a row that belongs to the row of one cell above it. */
export const INDENT = '\u2003';

export interface Headline {
  readonly label: string;
  readonly value: string;
  readonly interval: string;
  readonly where: string;
}

export interface Tick {
  /** Struck: somebody said that it is not to be done, and why. */
  readonly state: 'done' | 'open' | 'struck';
  readonly text: string;
  /** Empty where the line above the list says it for all. */
  readonly by: string;
}

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
  /** What opens and folds all parts of the page for the owner. */
  readonly parts: { readonly open: string; readonly fold: string };
  readonly blocks: readonly Block[];
}

export const left = (title: string): Head => ({ title, align: 'left' });
export const right = (title: string): Head => ({ title, align: 'right' });
export const wide = (title: string): Head => ({ title, align: 'left', wide: true });

type Table = Extract<Block, { kind: 'table' }>;

/** Without the columns in which no row knows anything; under the table stands which those were. */
export function withoutUnknown(table: Table, notKnown: string): Table {
  const isKnown = table.columns.map((_, i) => table.rows.some((row) => !/^–?$/.test(row[i]!)));
  const gone = table.columns.filter((_, i) => !isKnown[i]).map(({ title }) => title);
  if (gone.length === 0) return table;
  const said = `${gone.join('; ')}: ${notKnown}.`;
  return {
    ...table,
    columns: table.columns.filter((_, i) => isKnown[i]),
    rows: table.rows.map((row) => row.filter((_, i) => isKnown[i])),
    note: table.note === undefined ? said : `${said} ${table.note}`,
  };
}

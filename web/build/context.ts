import { createContext, useContext } from 'react';
import type { Layout, Sheet, SheetAnswer } from '../../src/build/index.ts';

/** What stays the same from keystroke to keystroke, so that what only needs this is not drawn again. */
export interface SheetActs {
  readonly layout: Layout;
  /** Changes the sheet; steps of one name are one step of undo. */
  change(edit: (sheet: Sheet) => Sheet, name?: string): void;
  /** Address of a section, or of the overview. */
  href(section: string | null): string;
  go(section: string | null): void;
  /** The way to the history of a part; null where there is none. */
  readonly parts: PartWay | null;
  /** Goes to a field and puts the cursor into it. */
  goTo(path: string): void;
}

/** Where the history of a part stands. */
export interface PartWay {
  href(serial: string): string;
  go(serial: string): void;
}

/** What every part of the sheet's screen stands on. */
export interface SheetWork {
  readonly sheet: Sheet;
  /** What follows; its tolerances a moment behind while somebody types fast. */
  readonly answer: SheetAnswer;
}

export const SheetActsContext = createContext<SheetActs | null>(null);

export function useSheetActs(): SheetActs {
  const acts = useContext(SheetActsContext);
  if (acts === null) throw new Error('useSheetActs stands outside of SheetActsContext');
  return acts;
}

export const SheetContext = createContext<SheetWork | null>(null);

export function useSheetWork(): SheetWork {
  const work = useContext(SheetContext);
  if (work === null) throw new Error('useSheetWork stands outside of SheetContext');
  return work;
}

import { createContext, useContext } from 'react';
import type { Sheet, SheetAnswer } from '../../src/build/index.ts';

/** What every part of the sheet's screen stands on. */
export interface SheetWork {
  readonly sheet: Sheet;
  /** What follows; a moment behind while somebody types fast. */
  readonly answer: SheetAnswer;
  /** Changes the sheet; steps of one name are one step of undo. */
  change(edit: (sheet: Sheet) => Sheet, name?: string): void;
  /** Address of a section, or of the overview. */
  href(section: string | null): string;
  go(section: string | null): void;
  /** Goes to a field and puts the cursor into it. */
  goTo(path: string): void;
}

export const SheetContext = createContext<SheetWork | null>(null);

export function useSheetWork(): SheetWork {
  const work = useContext(SheetContext);
  if (work === null) throw new Error('useSheetWork stands outside of SheetContext');
  return work;
}

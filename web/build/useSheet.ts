import { useCallback, useDeferredValue, useEffect, useMemo, useState } from 'react';
import {
  answerSheet,
  type Sheet,
  type SheetAnswer,
  type WindowRule,
} from '../../src/build/index.ts';
import { back, begin, forth, step } from './history.ts';

export interface SheetInHand {
  readonly sheet: Sheet;
  readonly answer: SheetAnswer;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  change(edit: (sheet: Sheet) => Sheet, name?: string): void;
  undo(): void;
  redo(): void;
}

/**
 * A sheet that is being worked on, what follows from it, and its way back. What follows is computed of the latest sheet
 * that the browser finds time for, so that typing never waits.
 */
export function useSheet(first: Sheet, own: readonly WindowRule[] = []): SheetInHand {
  const [history, setHistory] = useState(() => begin(first));
  const { now: sheet } = history;
  const latest = useDeferredValue(sheet);
  const answer = useMemo(() => answerSheet(latest, own), [latest, own]);
  const change = useCallback((edit: (sheet: Sheet) => Sheet, name?: string) => {
    setHistory((before) => step(before, edit(before.now), name ?? null));
  }, []);
  const undo = useCallback(() => setHistory(back), []);
  const redo = useCallback(() => setHistory(forth), []);
  useUndoKeys(undo, redo);
  return {
    sheet,
    answer,
    canUndo: history.past.length > 0,
    canRedo: history.future.length > 0,
    change,
    undo,
    redo,
  };
}

/** On this screen the keys of undo belong to the sheet, in its inputs too, and not to the record. */
function useUndoKeys(undo: () => void, redo: () => void): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== 'z' && key !== 'y')) return;
      if (document.querySelector('[role="dialog"]') !== null) return;
      event.preventDefault();
      event.stopPropagation();
      if (key === 'y' || event.shiftKey) redo();
      else undo();
    };
    window.addEventListener('keydown', press, { capture: true });
    return () => window.removeEventListener('keydown', press, { capture: true });
  }, [undo, redo]);
}

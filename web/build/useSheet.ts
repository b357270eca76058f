import { useCallback, useDeferredValue, useEffect, useMemo, useState } from 'react';
import {
  answerSheet,
  answerSheetAtOnce,
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

/** One and the same list, so that nothing is computed again for want of any. */
const NONE: readonly WindowRule[] = [];

/**
 * A sheet that is being worked on, what follows from it, and its way back. Values and verdicts follow every keystroke;
 * what tolerances leave open is computed of the latest sheet that the browser finds time for, and stays as it was till
 * then, so that typing never waits.
 */
export function useSheet(first: Sheet, own: readonly WindowRule[] = NONE): SheetInHand {
  const [history, setHistory] = useState(() => begin(first));
  const { now: sheet } = history;
  const latest = useDeferredValue(sheet);
  const whole = useMemo(() => answerSheet(latest, own), [latest, own]);
  const answer = useMemo(
    () => (latest === sheet ? whole : withTolerancesOf(answerSheetAtOnce(sheet, own), whole)),
    [sheet, latest, whole, own],
  );
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

/** The values of one answer with the tolerances of an earlier one. */
export function withTolerancesOf(values: SheetAnswer, earlier: SheetAnswer): SheetAnswer {
  const known = new Map(
    [...earlier.figures, ...earlier.checks].map(({ id, plusMinus }) => [id, plusMinus]),
  );
  const merge = <T extends { readonly id: string; readonly value: number | null }>(one: T): T => ({
    ...one,
    plusMinus: one.value === null ? null : (known.get(one.id) ?? null),
  });
  return { ...values, figures: values.figures.map(merge), checks: values.checks.map(merge) };
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

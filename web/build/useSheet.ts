import { useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
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
  const shown = useRef<SheetAnswer | null>(null);
  const answer = useMemo(
    () =>
      sharing(
        latest === sheet ? whole : withTolerancesOf(answerSheetAtOnce(sheet, own), whole),
        shown.current,
      ),
    [sheet, latest, whole, own],
  );
  useEffect(() => {
    shown.current = answer;
  }, [answer]);
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

/** The same answer, in which everything that says what it said before is the object that it was. */
export function sharing(answer: SheetAnswer, before: SheetAnswer | null): SheetAnswer {
  if (before === null) return answer;
  const share = <T extends { readonly id: string }>(all: readonly T[], old: readonly T[]) => {
    const known = new Map(old.map((one) => [one.id, one]));
    return all.map((one) => {
      const was = known.get(one.id);
      return was !== undefined && isAlike(one, was) ? was : one;
    });
  };
  return {
    ...answer,
    figures: share(answer.figures, before.figures),
    checks: share(answer.checks, before.checks),
  };
}

/** Plain data that says the same; every answer of one kind has the same keys. */
function isAlike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((one, i) => isAlike(one, b[i]));
  for (const key in a)
    if (!isAlike(a[key as keyof typeof a], b[key as keyof typeof b])) return false;
  return true;
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

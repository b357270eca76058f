import type { KeyboardEvent } from 'react';

/** Marks of a cell by which keys find their way; put on the input itself. */
export const cellMarks = (path: string, column: number, row: number) => ({
  'data-path': path,
  'data-column': column,
  'data-row': row,
});

/**
 * Keys in a table of inputs: Enter and the arrows go up and down, the arrows to the sides where the cursor stands at the
 * end of its text, Enter on the last row goes to the head of the next column. Tab is the browser's own.
 */
export function moveByKey(event: KeyboardEvent<HTMLElement>): void {
  const from = event.target;
  if (!(from instanceof HTMLElement) || from.dataset.row === undefined) return;
  if (event.altKey || event.ctrlKey || event.metaKey || event.nativeEvent.isComposing) return;
  const choosing = from instanceof HTMLSelectElement;
  const [column, row] = [Number(from.dataset.column), Number(from.dataset.row)];
  const to = (c: number, r: number) =>
    event.currentTarget.querySelector<HTMLElement>(`[data-column="${c}"][data-row="${r}"]`);
  let target: HTMLElement | null = null;
  switch (event.key) {
    case 'Enter':
      target = event.shiftKey ? to(column, row - 1) : (to(column, row + 1) ?? to(column + 1, 0));
      break;
    case 'ArrowDown':
      if (!choosing) target = to(column, row + 1);
      break;
    case 'ArrowUp':
      if (!choosing) target = to(column, row - 1);
      break;
    case 'ArrowRight':
      if (atEnd(from, 'right')) target = to(column + 1, row);
      break;
    case 'ArrowLeft':
      if (atEnd(from, 'left')) target = to(column - 1, row);
      break;
    default:
      return;
  }
  if (target === null) return;
  event.preventDefault();
  target.focus();
}

function atEnd(input: HTMLElement, side: 'left' | 'right'): boolean {
  if (!(input instanceof HTMLInputElement)) return false;
  const { selectionStart, selectionEnd, value } = input;
  if (selectionStart === 0 && selectionEnd === value.length) return true;
  return selectionStart === selectionEnd && selectionStart === (side === 'left' ? 0 : value.length);
}

/** Puts the cursor into the first cell of a field that is still empty, or else into its first one. */
export function focusField(path: string): boolean {
  const cells = [...document.querySelectorAll<HTMLElement>(`[data-path="${path}"]`)];
  const empty = cells.find((cell) => cell instanceof HTMLInputElement && cell.value === '');
  const target = empty ?? cells[0];
  if (target === undefined) return false;
  target.scrollIntoView({ block: 'center' });
  target.focus({ preventScroll: true });
  return true;
}

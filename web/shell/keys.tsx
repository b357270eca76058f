import { Kbd, Table } from '@mantine/core';
import { useEffect, useSyncExternalStore } from 'react';
import { Sheet } from '../form/sheet.tsx';

/** What can be opened from anywhere over the page. */
type SheetName = 'keys' | 'search' | null;

let open: SheetName = null;
const listeners = new Set<() => void>();

export function openSheet(sheet: SheetName): void {
  open = sheet;
  for (const listener of listeners) listener();
}

export const showKeys = () => openSheet('keys');
export const showSearch = () => openSheet('search');

export function useSheet(): SheetName {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => open,
  );
}

const NO_TEXT = new Set(['checkbox', 'radio', 'range', 'button', 'submit', 'file', 'color']);

/** True while a person writes in a field: then keys belong to the field. */
export function isWriting(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return !NO_TEXT.has(target.type);
  return (
    target instanceof HTMLElement && (target.isContentEditable || target.tagName === 'TEXTAREA')
  );
}

/** Bare letters choose in a list, and over the page lies something with words of its own. */
function lettersAreTaken(target: EventTarget | null): boolean {
  return target instanceof HTMLSelectElement || document.querySelector('[role="dialog"]') !== null;
}

/** Runs on a key pressed outside of fields; `mod+z` means Ctrl or Cmd, `mod+shift+z` the same with Shift. */
export function useKeys(keys: Readonly<Record<string, () => void>>): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (isWriting(event.target) || event.defaultPrevented) return;
      const mod = event.ctrlKey || event.metaKey;
      if (event.altKey || (!mod && lettersAreTaken(event.target))) return;
      const before = mod ? (event.shiftKey ? 'mod+shift+' : 'mod+') : '';
      const run = keys[`${before}${event.key.toLowerCase()}`];
      if (run === undefined) return;
      event.preventDefault();
      run();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [keys]);
}

const KEYS: readonly (readonly [string, readonly string[], string])[] = [
  ['Everywhere', ['?'], 'Show these keys'],
  ['Everywhere', ['/'], 'Search the whole shop'],
  ['Everywhere', ['u'], 'Switch between US and metric units'],
  ['Everywhere', ['d'], 'Switch between light and dark'],
  ['Everywhere', ['w'], 'Wall size: readable from across the cell'],
  ['Everywhere', ['h'], 'Back to the shop'],
  ['Everywhere', ['Ctrl', 'Z'], 'Take back the last change'],
  ['Everywhere', ['Ctrl', 'Shift', 'Z'], 'Bring it back'],
  ['Table of pulls', ['Tab'], 'Next cell; with Shift the one before'],
  ['Table of pulls', ['Enter'], 'Same column, next pull'],
  ['Table of pulls', ['↑', '↓'], 'Same column, pull above or below'],
  ['Table of pulls', ['Ctrl', 'V'], 'Paste a column or a block from a spreadsheet'],
  ['Table of pulls', ['Esc'], 'Leave the cell as it was'],
  ['Charts', ['←', '→'], 'Move the cursor; with Shift in larger steps'],
  ['Ends of a band', ['←', '→'], 'Move the end; with Shift in larger steps'],
];

/** The sheet that names every key. */
export function KeysSheet() {
  const sheet = useSheet();
  if (sheet !== 'keys') return null;
  return (
    <Sheet onClose={() => openSheet(null)} title="Keys" size="lg">
      <Table>
        <Table.Thead>
          <Table.Tr>
            <Table.Th>Where</Table.Th>
            <Table.Th>Keys</Table.Th>
            <Table.Th>What they do</Table.Th>
          </Table.Tr>
        </Table.Thead>
        <Table.Tbody>
          {KEYS.map(([where, keys, what]) => (
            <Table.Tr key={`${where}${keys.join()}`}>
              <Table.Td c="dimmed">{where}</Table.Td>
              <Table.Td>
                {keys.map((key, index) => (
                  <span key={key}>
                    {index > 0 && ' '}
                    <Kbd>{key}</Kbd>
                  </span>
                ))}
              </Table.Td>
              <Table.Td>{what}</Table.Td>
            </Table.Tr>
          ))}
        </Table.Tbody>
      </Table>
    </Sheet>
  );
}

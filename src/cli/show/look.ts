import type { LookObject, RefusedObject } from '../../report/index.ts';
import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';

/** What was understood of a run file, for a person. */
export function showLook(look: LookObject, system: UnitSystem, columns: number): string {
  const pulls = look.pulls.length === 1 ? '1 pull' : `${look.pulls.length} pulls`;
  return [
    `${plain(look.file)}: ${look.kind}, ${look.rows} rows, ${pulls}\n`,
    table(
      [{ title: 'column' }, { title: 'taken as' }, { title: 'unit' }],
      look.channels.map(({ header, quantity, unit }) => [header, quantity, unit ?? '–']),
      '  ',
    ),
    ...look.pulls.map(
      ({ firstRow, lastRow, from, to }, index) =>
        `  pull ${index + 1}: rows ${firstRow} to ${lastRow}, ${from.toFixed(0)} to ${to.toFixed(0)} rpm\n`,
    ),
    ...look.warnings.map((warning) =>
      wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  '),
    ),
  ].join('');
}

/** A refusal as one sentence with its place. */
export function showRefusal({ file, error }: RefusedObject): string {
  const place = [
    error.line === null ? '' : `line ${error.line}`,
    error.column === null ? '' : `column ${error.column}`,
  ].filter((part) => part !== '');
  const expected =
    error.expected !== null && !error.message.includes(error.expected)
      ? ` (expected ${error.expected})`
      : '';
  const before = [file, ...place].join(', ');
  const also = (error.also ?? []).map((sentence) => `  ${plain(sentence)}\n`);
  return `${plain(`${before}: ${error.message}${expected}`)}\n${also.join('')}`;
}

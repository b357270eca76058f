import { csvText } from '../../src/build/table/csv.ts';
import { fileName, handToPerson } from './save.ts';
import type { Caption } from './standalone.ts';
import type { TableModel } from './TableView.tsx';

const NUMBER = /^[+\u2212-]?\d[\d\u202f]*(\.\d+)?°?$/;
const BETWEEN = /^(\S+) (?:to|–) (\S+)$/;
const isUnknown = (text: string) => text === '–' || text === '';

function numberIn(text: string | undefined): number | null {
  if (text === undefined || !NUMBER.test(text)) return null;
  return Number(text.replace('\u2212', '-').replace(/[+\u202f°]/g, ''));
}

/** Both ends of an interval in words; null where it is none. */
function endsIn(text: string): readonly [number, number] | null {
  const [, one, other] = BETWEEN.exec(text) ?? [];
  const [low, high] = [numberIn(one), numberIn(other)];
  return low === null || high === null ? null : [low, high];
}

/**
 * The table of a picture for a spreadsheet: units in the heads of its columns, figures as plain numbers, an interval in
 * two columns, nothing where a figure is not known; no text of it runs as a formula.
 */
export function tableCsv({ columns, rows }: TableModel): string {
  const made = columns.map((head, at) => {
    const cells = rows.map((row) => row[at] ?? '');
    const known = cells.filter((text) => !isUnknown(text));
    // A degree sign beside every figure goes into the head, so that the figures are numbers.
    const title = known.some((text) => NUMBER.test(text) && text.endsWith('°'))
      ? `${head}, °`
      : head;
    if (known.length > 0 && known.every((text) => endsIn(text) !== null))
      return {
        heads: [`${title} (low)`, `${title} (high)`],
        cells: cells.map((text) => endsIn(text) ?? [null, null]),
      };
    return {
      heads: [title],
      cells: cells.map((text) => [isUnknown(text) ? null : (numberIn(text) ?? text)]),
    };
  });
  return csvText([
    made.flatMap(({ heads }) => heads),
    ...rows.map((_, row) => made.flatMap(({ cells }) => cells[row]!)),
  ]);
}

export function saveCsv(table: TableModel, caption: Caption): void {
  const file = new Blob([tableCsv(table)], { type: 'text/csv;charset=utf-8' });
  handToPerson(file, fileName(caption, 'csv'));
}

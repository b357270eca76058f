import { differenceToInside, fromInside } from '../../units/quantity.ts';
import type { FieldSpec } from '../sections/field.ts';
import { expectedValue, isGood } from '../sheet/good.ts';
import { countOf, placeLabels } from '../sheet/layout.ts';
import type { EachEntry, Layout } from '../sheet/types.ts';
import { insideOf, unitOfField } from '../sheet/units.ts';
import { type CellProblem, valueOfCell } from './cells.ts';

/**
 * A column (or row) copied from a spreadsheet as the values of a field by place. A first line that is no number is a
 * heading, and may say the unit (`Bore (in)`); a unit in a cell stands for that cell; blanks and dashes are places that
 * were not measured, and so are those behind the last line. A comma is a decimal comma where the column shows it, or
 * where the number would else be no part of an engine.
 * @param unit  of numbers without one, where no heading says it: the unit in which the person sees the field
 * @returns the entry, or everything that is wrong with it, by row and column of what was pasted
 */
export function pasteEach(
  text: string,
  field: FieldSpec,
  layout: Layout,
  unit?: string,
): { readonly entry: EachEntry } | { readonly problems: readonly CellProblem[] } {
  const places = field.per === undefined ? 1 : countOf(field.per, layout);
  const cells = cellsOf(text);
  const heading =
    cells[0] !== undefined && !/\d/.test(withoutUnit(cells[0].text)) && /\p{L}/u.test(cells[0].text)
      ? cells.shift()
      : undefined;
  while (cells.length > places && cells.at(-1)!.text === '') cells.pop();
  const problems: CellProblem[] = [];
  const refuse = (cell: { row: number; column: number; text: string }, expected: string) =>
    void problems.push({ row: cell.row, column: cell.column, found: `"${cell.text}"`, expected });
  if (cells.length > places)
    refuse(
      cells[places]!,
      `${places} values at most, ${field.per === undefined ? field.label : placeLabels(field.per, layout).at(-1)} being the last`,
    );
  const said = heading === undefined ? undefined : unitInHeading(field, heading.text);
  const common = said ?? unit;
  const decimal = decimalOf(
    field,
    cells.map((cell) => cell.text),
    common,
  );
  let own: string | undefined;
  let plusMinus: number | undefined;
  const each = cells.slice(0, places).map((cell): number | null => {
    const read = valueOfCell(field, cell.text, common, decimal);
    if (read === null) return null;
    if ('wrong' in read || typeof read.value !== 'number') {
      refuse(cell, 'wrong' in read ? read.wrong : expectedValue(field, common));
      return null;
    }
    if (
      field.kind === 'quantity' &&
      (read.unit === undefined || unitOfField(field, read.unit) === undefined)
    ) {
      refuse(cell, `a unit: ${expectedValue(field)}`);
      return null;
    }
    if (!isGood(field, read.value, read.unit)) {
      refuse(cell, expectedValue(field, read.unit));
      return null;
    }
    own ??= read.unit;
    if (read.plusMinus !== undefined)
      plusMinus = Math.max(plusMinus ?? 0, turned(field, read.plusMinus, read.unit, own, true));
    return turned(field, read.value, read.unit, own, false);
  });
  if (problems.length > 0) return { problems };
  const entryUnit = own ?? common;
  return {
    entry: {
      each: [...each, ...Array<null>(places - each.length).fill(null)],
      ...(field.kind !== 'quantity' || entryUnit === undefined ? {} : { unit: entryUnit }),
      ...(plusMinus === undefined ? {} : { plusMinus }),
    },
  };
}

function cellsOf(text: string): { row: number; column: number; text: string }[] {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  return lines.flatMap((line, i) =>
    line.split('\t').map((cell, j) => ({ row: i + 1, column: j + 1, text: cell.trim() })),
  );
}

/** `Bore (in)`, `Chamber, cc`, `Bore [mm]`, `cc`. */
function unitInHeading(field: FieldSpec, heading: string): string | undefined {
  const tries = [
    /[([]([^)\]]+)[)\]]\s*$/.exec(heading)?.[1],
    heading.split(/[,;/]\s*/).at(-1),
    heading,
  ];
  return tries.find((one) => one !== undefined && unitOfField(field, one) !== undefined)?.trim();
}
const withoutUnit = (heading: string) => heading.replace(/[([][^)\]]*[)\]]/g, '');

/** Whether commas in this column are decimal: one of its cells says so, or thousands would be out of all bounds. */
function decimalOf(
  field: FieldSpec,
  cells: readonly string[],
  unit: string | undefined,
): '.' | ',' {
  if (cells.some((cell) => /\d\.\d/.test(cell))) return '.';
  const commas = cells.filter((cell) => /\d,\d/.test(cell));
  if (commas.some((cell) => !/^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?!\d)/.test(cell))) return ',';
  const asThousands = commas.map((cell) => Number.parseFloat(cell.replaceAll(',', '')));
  return commas.length > 0 && asThousands.every((value) => !isGood(field, value, unit)) ? ',' : '.';
}

/** A number in the unit of the first cell, where another cell has one of its own. */
function turned(
  field: FieldSpec,
  value: number,
  from: string | undefined,
  to: string | undefined,
  difference: boolean,
): number {
  if (from === to || from === undefined || to === undefined) return value;
  const [own, wanted] = [unitOfField(field, from), unitOfField(field, to)];
  if (own === undefined || wanted === undefined) return value;
  const inside = difference ? differenceToInside(value, own) : insideOf(field, value, from);
  const out = difference ? inside / wanted.factor : fromInside(inside, wanted);
  return Number(out.toPrecision(12));
}

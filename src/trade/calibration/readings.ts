import { InputError } from '../../errors.ts';
import {
  type Dimension,
  findUnit,
  fromInside,
  parseQuantity,
  readNumber,
  splitQuantity,
  toInside,
} from '../../units/index.ts';
import type { SensorCheck, WeightPoint } from './measured.ts';

/** What is wrong with one cell of a pasted table; rows and columns from 1. */
export interface ReadingProblem {
  readonly row: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
}
export type Pasted<P> =
  | { readonly points: readonly P[] }
  | { readonly problems: readonly ReadingProblem[] };

interface Cell {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

/**
 * Readings of dead weights as they come from a spreadsheet: a column of weights and a column of readings in the order they
 * were taken, or one column of readings going up and one going down beside each weight. A heading names the columns and
 * their units (`Weight (lb)`); without one the first column is the weight, the second the reading, the third `up` or
 * `down`. Without a direction, weights that grow go up and weights that shrink go down; the top step counts as up.
 * @param units  of numbers without one
 */
export function pastedWeights(
  text: string,
  units: { readonly mass: string; readonly torque: string },
): Pasted<WeightPoint> {
  const { heading, rows } = tableOf(text);
  const named = (words: RegExp) => columnsNamed(heading, words);
  const [mass = heading === null ? 0 : undefined] = named(/weight|mass|load\b|hung/i);
  const [up] = named(/\bup\b|rising|loading/i);
  const [down] = named(/\bdown\b|falling|unloading/i);
  const ways = named(/direction|way\b/i);
  const problems: ReadingProblem[] = [];
  if (mass === undefined || (heading !== null && rows.length === 0))
    return { problems: [noColumn(heading, 'a column of weights and one of readings')] };
  const massUnit = unitOf(heading?.[mass], 'mass') ?? units.mass;
  if (up !== undefined && down !== undefined && up !== down) {
    const side = (column: number, direction: 'up' | 'down') => {
      const torqueUnit = unitOf(heading?.[column], 'torque') ?? units.torque;
      return rows.flatMap((row): WeightPoint[] => {
        if (blank(row[column])) return [];
        const massKg = quantity(row[mass], 'mass', massUnit, problems);
        const readingNm = quantity(row[column], 'torque', torqueUnit, problems);
        return massKg === null || readingNm === null ? [] : [{ massKg, readingNm, direction }];
      });
    };
    // Whatever the order of the lines, weights go on from the least and come off from the most.
    const byMass = (points: readonly WeightPoint[]) =>
      [...points].sort((a, b) => a.massKg - b.massKg);
    const points = [...byMass(side(up, 'up')), ...byMass(side(down, 'down')).reverse()];
    return problems.length > 0 ? { problems } : { points };
  }
  const [reading = heading === null ? 1 : undefined] = named(
    /reading|torque|shown|shows|display|indicated|cell/i,
  );
  if (reading === undefined || reading === mass)
    return { problems: [noColumn(heading, 'a column of readings beside the weights')] };
  const way = ways[0] ?? (heading === null ? 2 : undefined);
  const torqueUnit = unitOf(heading?.[reading], 'torque') ?? units.torque;
  const read = rows.flatMap((row) => {
    const massKg = quantity(row[mass], 'mass', massUnit, problems);
    const readingNm = quantity(row[reading], 'torque', torqueUnit, problems);
    const said = way === undefined ? null : directionOf(row[way], problems);
    return massKg === null || readingNm === null ? [] : [{ massKg, readingNm, said }];
  });
  if (problems.length > 0) return { problems };
  const found = directionsOf(read.map(({ massKg }) => massKg));
  return {
    points: read.map(({ massKg, readingNm, said }, index) => ({
      massKg,
      readingNm,
      direction: said ?? found[index]!,
    })),
  };
}

/**
 * A sensor's readings beside a reference as they come from a spreadsheet: two columns, named by a heading or the reading
 * first. A cell or a heading may say a unit of its own.
 * @param unit  the sensor's own, in which the points are handed back
 * @throws InputError  a unit that nobody knows
 */
export function pastedSensor(text: string, unit: string): Pasted<SensorCheck['points'][number]> {
  const own = findUnit(unit);
  if (own === undefined) throw new InputError(`"${unit}" is not a unit that is known.`);
  const { dimension } = own;
  const { heading, rows } = tableOf(text);
  const [reference = heading === null ? 1 : undefined] = columnsNamed(
    heading,
    /reference|true|standard|master/i,
  );
  const reading =
    heading === null
      ? 0
      : (columnsNamed(heading, /reading|sensor|shown|shows|display|cell/i).find(
          (column) => column !== reference,
        ) ?? heading.findIndex((_, column) => column !== reference));
  if (reference === undefined || reading < 0)
    return { problems: [noColumn(heading, 'a column of readings and one of the reference')] };
  const problems: ReadingProblem[] = [];
  const unitAt = (column: number) => unitOf(heading?.[column], dimension) ?? unit;
  const value = (cell: Cell | undefined, column: number) => {
    const inside = quantity(cell, dimension, unitAt(column), problems);
    // Twelve digits: the way to the inside unit and back leaves no dust on what was typed.
    return inside === null ? null : Number(fromInside(inside, own).toPrecision(12));
  };
  const points = rows.flatMap((row) => {
    const [shown, truth] = [value(row[reading], reading), value(row[reference], reference)];
    return shown === null || truth === null ? [] : [{ reading: shown, reference: truth }];
  });
  return problems.length > 0 ? { problems } : { points };
}

/** Rows of cells; the first row is a heading where no cell of it begins with a figure. */
function tableOf(text: string): {
  readonly heading: readonly Cell[] | null;
  readonly rows: readonly (readonly Cell[])[];
} {
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  const apart = /\t/.test(text) ? /\t/ : /;/.test(text) ? /;/ : /\s{2,}|,\s+|,(?=\D)/;
  const all = lines.flatMap((line, at) =>
    line.trim() === ''
      ? []
      : [
          line.split(apart).map(
            (cell, column): Cell => ({
              text: cell.trim().replace(/^"(.*)"$/, '$1'),
              row: at + 1,
              column: column + 1,
            }),
          ),
        ],
  );
  const [first, ...rest] = all;
  const isHeading = first?.every(({ text: cell }) => !/^[+\-−]?[.,]?\d/.test(cell)) ?? false;
  return isHeading ? { heading: first!, rows: rest } : { heading: null, rows: all };
}

function columnsNamed(heading: readonly Cell[] | null, words: RegExp): number[] {
  return (heading ?? []).flatMap(({ text }, column) => (words.test(text) ? [column] : []));
}

function unitOf(heading: Cell | undefined, dimension: Dimension): string | undefined {
  if (heading === undefined) return undefined;
  const inBrackets = /[([]([^)\]]+)[)\]]\s*$/.exec(heading.text)?.[1];
  const behindComma = heading.text
    .split(/[,;/]\s*/)
    .slice(1)
    .at(-1);
  return [inBrackets, behindComma].find(
    (text) => text !== undefined && findUnit(text, dimension) !== undefined,
  );
}

const blank = (cell: Cell | undefined) => cell === undefined || /^[\s–—-]*$/.test(cell.text);

/** The cell in inside units; null with its problem noted. */
function quantity(
  cell: Cell | undefined,
  dimension: Dimension,
  unit: string,
  problems: ReadingProblem[],
): number | null {
  const refused = (expected: string) => {
    problems.push({
      row: cell?.row ?? 0,
      column: cell?.column ?? 0,
      found: cell === undefined || cell.text === '' ? 'nothing' : cell.text.slice(0, 60),
      expected,
    });
    return null;
  };
  const assume = findUnit(unit, dimension);
  if (cell === undefined || blank(cell) || assume === undefined)
    return refused(`a number in ${unit}`);
  const split = splitQuantity(cell.text);
  if (split?.unit === '') {
    const value = readNumber(split.number);
    // "1,250" alone has two readings: which one was meant only the person knows.
    return value === undefined
      ? refused('a number without a doubtful comma')
      : toInside(value, assume);
  }
  try {
    return parseQuantity(cell.text, dimension, { assume });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return refused(error.place.expected ?? `a number in ${unit}`);
  }
}

function directionOf(cell: Cell | undefined, problems: ReadingProblem[]): 'up' | 'down' | null {
  if (cell === undefined || blank(cell)) return null;
  if (/^(up|u|on|rising|loading|↑)$/i.test(cell.text)) return 'up';
  if (/^(down|d|off|falling|unloading|↓)$/i.test(cell.text)) return 'down';
  problems.push({
    row: cell.row,
    column: cell.column,
    found: cell.text.slice(0, 60),
    expected: '"up" or "down"',
  });
  return null;
}

/** Which way each step went, from the weights alone. Of two equal ones the second goes on as the next different one does. */
export function directionsOf(masses: readonly number[]): ('up' | 'down')[] {
  const found: ('up' | 'down')[] = [];
  for (const [index, mass] of masses.entries()) {
    const before = masses[index - 1];
    const next = masses.slice(index + 1).find((one) => one !== mass);
    const rises = before === undefined || mass > before;
    const goesOn = mass === before && next !== undefined && next > mass;
    if (rises || goesOn) found.push('up');
    else found.push(mass === before ? found[index - 1]! : 'down');
  }
  return found;
}

function noColumn(heading: readonly Cell[] | null, expected: string): ReadingProblem {
  return {
    row: heading?.[0]?.row ?? 1,
    column: 1,
    found:
      heading === null
        ? 'nothing'
        : heading
            .map(({ text }) => text)
            .join(' | ')
            .slice(0, 60),
    expected,
  };
}

/** How numbers and cells are written in one file. */
export interface Dialect {
  readonly delimiter: ',' | ';' | '\t' | '|';
  readonly decimal: '.' | ',';
}

/** Cells of one line, quotes taken off, doubled quotes single, white space around them gone. */
export function splitCells(line: string, delimiter: string): string[] {
  if (!line.includes('"')) return line.split(delimiter).map(trimCell);
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    while (line[at] === ' ') at++;
    let cell = '';
    if (line[at] === '"') {
      at++;
      for (;;) {
        const close = line.indexOf('"', at);
        if (close === -1) {
          cell += line.slice(at);
          at = line.length;
          break;
        }
        cell += line.slice(at, close);
        at = close + 1;
        if (line[at] !== '"') break;
        cell += '"';
        at++;
      }
    }
    const next = line.indexOf(delimiter, at);
    const end = next === -1 ? line.length : next;
    cells.push(trimCell(cell + line.slice(at, end)));
    if (next === -1) return cells;
    at = next + 1;
  }
}

function trimCell(cell: string): string {
  return cell.trim();
}

/** Ways in which loggers and spreadsheets write that there is no value. */
const MISSING =
  /^(?:|[-–—]{1,6}|[.?*_]{1,6}|[-+]?nan(?:\(.*\))?|n\/?a|#n\/a|null|none|nil|missing|[-+]?inf(?:inity)?|[-+]?∞|[-+]?1\.?#(?:inf|ind|qnan|snan|j)\w*|#(?:div\/0!|value!|num!|ref!|name\?|null!))$/i;

export function isMissing(cell: string): boolean {
  if (cell === '') return true;
  if (cell.length > 12) return false;
  // What begins with a figure is a value, save `1.#INF`; this is asked of each cell of a table several times.
  const first = cell.charCodeAt(0);
  if (first >= ZERO && first <= NINE && !cell.includes('#')) return false;
  return MISSING.test(cell);
}

const ZERO = 48;
const NINE = 57;
const MINUS = 45;
const COMMA = 44;
const POINT = 46;
/** Marks of clocks and of other tables. */
const NEVER_IN_NUMBERS = ':;|/"';

const PLAIN = {
  '.': /^[+\-−]?(?:\d+\.?\d*|\.\d+)(?:[eE][+\-−]?\d+)?$/,
  ',': /^[+\-−]?(?:\d+,?\d*|,\d+)(?:[eE][+\-−]?\d+)?$/,
};
const GROUPED = {
  '.': /^[+\-−]?[1-9]\d{0,2}(?:([,'’ \u00a0\u2009\u202f])\d{3})(?:\1\d{3})*(?:\.\d*)?$/,
  ',': /^[+\-−]?[1-9]\d{0,2}(?:([.'’ \u00a0\u2009\u202f])\d{3})(?:\1\d{3})*(?:,\d*)?$/,
};
const LONGEST_NUMBER = 64;

/** The number a cell holds, or undefined where it holds none. Thousands marks are taken out. */
export function cellNumber(cell: string, decimal: Dialect['decimal']): number | undefined {
  switch (formOf(cell, decimal)) {
    case 'figures':
      return Number(decimal === '.' ? cell : cell.replace(',', '.'));
    case 'no number':
      return undefined;
    default:
      return unusualNumber(cell, decimal);
  }
}

/** Whether a cell holds a number, without reading it. */
export function holdsNumber(cell: string, decimal: Dialect['decimal']): boolean {
  const form = formOf(cell, decimal);
  return form === 'figures' || (form === 'unusual' && unusualNumber(cell, decimal) !== undefined);
}

function unusualNumber(cell: string, decimal: Dialect['decimal']): number | undefined {
  // `98 %` is 98: the column is one of per cent.
  if (cell.endsWith('%')) return cellNumber(cell.slice(0, -1).trimEnd(), decimal);
  const plain = PLAIN[decimal].test(cell);
  if (!plain && !GROUPED[decimal].test(cell)) return undefined;
  let text = cell.replace('−', '-').replace('−', '-');
  if (!plain) text = text.replace(decimal === '.' ? /[,'’\s]/g : /[.'’\s]/g, '');
  const value = Number(decimal === '.' ? text : text.replace(',', '.'));
  return Number.isFinite(value) ? value : undefined;
}

/**
 * What can be told of a cell without a pattern, since each cell of a table is asked several times: `figures` as most
 * are written, a minus perhaps and one decimal mark at most; `no number` where the other mark stands with other than
 * three figures after it, or anything stands there that is no part of a number.
 */
function formOf(cell: string, decimal: Dialect['decimal']): 'figures' | 'no number' | 'unusual' {
  if (cell.length === 0 || cell.length > LONGEST_NUMBER) return 'no number';
  const mark = decimal.charCodeAt(0);
  let [figures, marks, others, otherAt] = [0, 0, 0, -1];
  for (let at = cell.charCodeAt(0) === MINUS ? 1 : 0; at < cell.length; at++) {
    const code = cell.charCodeAt(at);
    if (code >= ZERO && code <= NINE) figures++;
    else if (code === mark) marks++;
    else if (code === COMMA || code === POINT) {
      others++;
      otherAt = at;
    } else return NEVER_IN_NUMBERS.includes(cell[at]!) ? 'no number' : 'unusual';
  }
  if (figures > 0 && marks <= 1 && others === 0) return 'figures';
  if (marks === 0 && others === 1 && cell.length - otherAt - 1 !== 3) return 'no number';
  return 'unusual';
}

/** Whether a cell's thousands mark is one that another country reads as its decimal mark. */
export function isGrouped(cell: string, decimal: Dialect['decimal']): boolean {
  return GROUPED[decimal].test(cell);
}

import { type Dialect, holdsNumber, isGrouped, isMissing, splitCells } from './cells.ts';
import { looksLikeClock } from './clock.ts';

/** A line of the head, or several where a quoted cell runs over line ends. */
export interface HeadRecord {
  /** 1-based line on which it starts. */
  readonly line: number;
  readonly lines: number;
  readonly text: string;
}

interface DialectGuess {
  readonly dialect: Dialect;
  /** Cells of a row of numbers. */
  readonly width: number;
  /** Set where `2,549` can be read both ways and nothing in the file tells. */
  readonly doubtfulMark: string | null;
}

const DELIMITERS = ['\t', ';', '|', ','] as const;
const LONGEST_QUOTED_LINES = 6;

/** Splits the head into records; a cut last line is left out unless the head is the whole file. */
export function headRecords(text: string, terminator: '\n' | '\r', whole: boolean): HeadRecord[] {
  const lines = text.split(terminator);
  if (!whole && lines.length > 1) lines.pop();
  if (whole && lines.at(-1) === '') lines.pop();
  const records: HeadRecord[] = [];
  for (let at = 0; at < lines.length; ) {
    let record = stripReturn(lines[at]!);
    let taken = 1;
    if (opensQuote(record)) {
      for (let more = 1; more < LONGEST_QUOTED_LINES && at + more < lines.length; more++) {
        const joined = lines
          .slice(at, at + more + 1)
          .map(stripReturn)
          .join('\n');
        if (!opensQuote(joined)) {
          record = joined;
          taken = more + 1;
          break;
        }
      }
    }
    records.push({ line: at + 1, lines: taken, text: record });
    at += taken;
  }
  return records;
}

function stripReturn(line: string): string {
  return line.endsWith('\r') ? line.slice(0, -1) : line;
}

/** Whether a quote at the start of a cell is still open at the end. */
function opensQuote(text: string): boolean {
  if (!text.includes('"')) return false;
  let open = false;
  for (let at = 0; at < text.length; at++) {
    if (text[at] !== '"') continue;
    if (open) {
      if (text[at + 1] === '"') at++;
      else open = false;
    } else if (at === 0 || /[,;\t|\n]\s*$/.test(text.slice(Math.max(0, at - 8), at))) open = true;
  }
  return open;
}

/** How many of a row's cells are numbers or clock times, and how many hold anything else. */
export function countCells(
  cells: readonly string[],
  decimal: Dialect['decimal'],
): { numbers: number; words: number } {
  let numbers = 0;
  let words = 0;
  for (const cell of cells) {
    if (isMissing(cell)) continue;
    if (holdsNumber(cell, decimal) || looksLikeClock(cell)) numbers++;
    else words++;
  }
  return { numbers, words };
}

/** Whether a row is one of numbers: at least one, and no more words than numbers. */
export function isDataRow(cells: readonly string[], decimal: Dialect['decimal']): boolean {
  const { numbers, words } = countCells(cells, decimal);
  return numbers >= Math.min(2, cells.length) && numbers >= words;
}

interface Candidate {
  readonly dialect: Dialect;
  readonly width: number;
  readonly score: number;
}

/** The delimiter and decimal mark under which most cells are numbers, or null where no line has two numbers. */
export function sniffDialect(records: readonly HeadRecord[], known?: Dialect): DialectGuess | null {
  const texts = records.map((record) => record.text).filter((text) => text.trim() !== '');
  if (known !== undefined) {
    const judged = judge(
      texts.map((text) => splitCells(text, known.delimiter)),
      known,
    );
    return judged.score > 0 ? { ...judged, doubtfulMark: null } : null;
  }
  const candidates = DELIMITERS.flatMap((delimiter) => {
    if (!texts.some((text) => text.includes(delimiter))) return [];
    const rows = texts.map((text) => splitCells(text, delimiter));
    return (['.', ','] as const).map((decimal) => judge(rows, { delimiter, decimal }));
  }).filter((candidate) => candidate.score > 0);
  candidates.sort((a, b) => b.score - a.score);
  const best = candidates[0];
  if (best === undefined) return null;
  const rival = candidates.find(
    (other) =>
      other.dialect.delimiter === best.dialect.delimiter &&
      other.dialect.decimal !== best.dialect.decimal &&
      other.score === best.score,
  );
  if (rival === undefined) return { ...best, doubtfulMark: null };
  return settleMark(texts, best);
}

function judge(rows: readonly string[][], dialect: Dialect): Candidate {
  const widths = new Map<number, number>();
  const counted = rows.map((cells) => {
    if (cells.length < 2) return null;
    const counts = countCells(cells, dialect.decimal);
    if (counts.numbers < 2 || counts.numbers < counts.words) return null;
    const width = cells.length;
    widths.set(width, (widths.get(width) ?? 0) + 1);
    return { width, ...counts };
  });
  let width = 0;
  let most = 0;
  for (const [candidate, times] of widths)
    if (times > most || (times === most && candidate > width)) [width, most] = [candidate, times];
  let score = 0;
  for (const row of counted) if (row?.width === width) score += row.numbers - row.words;
  return { dialect, width, score };
}

/** Both marks read every cell: decide by what thousands cannot look like, else by what is likelier. */
function settleMark(texts: readonly string[], best: Candidate): DialectGuess {
  const { delimiter } = best.dialect;
  const cells = texts.flatMap((text) => splitCells(text, delimiter));
  const withComma = cells.filter((cell) => isGrouped(cell, '.') && cell.includes(','));
  const withPoint = cells.filter((cell) => isGrouped(cell, ',') && cell.includes('.'));
  const point: Dialect = { delimiter, decimal: '.' };
  const comma: Dialect = { delimiter, decimal: ',' };
  if (withComma.length === 0 && withPoint.length === 0)
    return { dialect: point, width: best.width, doubtfulMark: null };
  // A file that writes 2549 without a mark has no thousands marks, so 2,549 is a decimal there.
  const ungrouped = cells.some((cell) => /^[+-]?[1-9]\d{3,}$/.test(cell));
  const decimal = withComma.length > 0 ? ',' : '.';
  const other = decimal === ',' ? point : comma;
  if (ungrouped)
    return { dialect: decimal === ',' ? comma : point, width: best.width, doubtfulMark: null };
  if (withPoint.length > 0 && withComma.length === 0)
    return { dialect: point, width: best.width, doubtfulMark: null };
  return { dialect: other, width: best.width, doubtfulMark: withComma[0] ?? null };
}

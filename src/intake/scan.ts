import { FormatError } from '../errors.ts';
import { cellNumber, isMissing, splitCells } from './cells.ts';
import { clockSeconds } from './clock.ts';
import { shown } from './display.ts';
import type { Layout } from './layout.ts';
import { rowKey } from './layout.ts';
import { oddRow } from './odd.ts';
import type { ColumnStore } from './store.ts';

/** Powers of ten that doubles hold exactly: a decimal of up to 53 bits over one of them is rounded once, as it must be. */
const TEN = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
const EXACT = 9_007_199_254_740_992;

const NUMBER = 0;
const CLOCK = 1;
const TEXT = 2;
/** Small enough to stay in the processor's cache, whatever the number of columns. */
const BLOCK_VALUES = 32_768;
const LONGEST_LINE = 1024 * 1024;
const MOST_NOTES = 100;

const RETURN = 13;
const SPACE = 32;
const QUOTE = 34;

/** Reads the rows of a text table, chunk by chunk, straight from bytes into numbers. */
export class RowScanner {
  readonly notes: { line: number; text: string }[] = [];
  readonly kinds: Uint8Array;
  repeatedHeaders = 0;
  /** Line of a row of words after which rows of another width stand: a second table, which is not read. */
  otherTableLine: number | null = null;
  private otherTable = { width: 0, afterRows: -1 };
  private flushedRows = 0;
  private line = 0;
  private linesToSkip: number;
  private work = new Uint8Array(0);
  private carried = 0;
  private readonly block: Float64Array;
  private readonly blockLines: Uint32Array;
  private readonly stride: number;
  private blockRows = 0;
  private readonly width: number;
  private readonly delimiter: number;
  private readonly decimal: number;
  private readonly terminator: number;

  constructor(
    private readonly layout: Layout,
    private readonly store: ColumnStore,
    private readonly decoder: TextDecoder,
    terminator: '\n' | '\r',
    private readonly dayFirst: boolean,
    private readonly fileName: string,
  ) {
    this.width = layout.headers.length;
    this.stride = Math.max(16, Math.floor(BLOCK_VALUES / this.width));
    this.block = new Float64Array(this.width * this.stride);
    this.blockLines = new Uint32Array(this.stride);
    this.kinds = Uint8Array.from(layout.kinds, (kind) =>
      kind === 'number' ? NUMBER : kind === 'clock' ? CLOCK : TEXT,
    );
    this.delimiter = layout.dialect.delimiter.charCodeAt(0);
    this.decimal = layout.dialect.decimal.charCodeAt(0);
    this.terminator = terminator.charCodeAt(0);
    this.linesToSkip = layout.linesBefore;
  }

  /** Takes the next bytes; a line cut by their end waits for the rest. */
  feed(chunk: Uint8Array): void {
    const length = this.carried + chunk.length;
    if (this.work.length < length + 2) {
      const larger = new Uint8Array(length + 2);
      larger.set(this.work.subarray(0, this.carried));
      this.work = larger;
    }
    this.work.set(chunk, this.carried);
    const end = this.work.subarray(0, length).lastIndexOf(this.terminator) + 1;
    if (end > 0) this.scan(end);
    this.carried = length - end;
    if (this.carried > LONGEST_LINE)
      throw new FormatError(
        `line ${this.line + 1} is longer than 1 MB: this is no table of a run`,
        { file: this.fileName, line: this.line + 1, expected: 'one row a line' },
      );
    this.work.copyWithin(0, end, length);
  }

  /** Takes the last line, which may lack its end, and hands the rest to the store. */
  finish(): void {
    if (this.carried > 0) {
      this.work[this.carried] = this.terminator;
      this.scan(this.carried + 1);
      this.carried = 0;
    }
    this.flush();
  }

  private flush(): void {
    this.store.append(this.block, this.stride, this.blockRows, this.blockLines);
    this.flushedRows += this.blockRows;
    this.blockRows = 0;
  }

  /** Whole lines from the start of the work buffer to `end`. */
  private scan(end: number): void {
    const { work, block, stride, kinds, width, delimiter, decimal, terminator } = this;
    const last = width - 1;
    let at = 0;
    while (this.linesToSkip > 0 && at < end) {
      at = work.indexOf(terminator, at) + 1;
      this.linesToSkip--;
      this.line++;
    }
    let row = this.blockRows;
    rows: while (at < end) {
      const rowStart = at;
      this.line++;
      let column = 0;
      let present = 0;
      for (;;) {
        let byte = work[at]!;
        let value = Number.NaN;
        let isRead = false;
        const cellStart = at;
        if (kinds[column] === NUMBER) {
          while (byte === SPACE) byte = work[++at]!;
          const isQuoted = byte === QUOTE;
          if (isQuoted) byte = work[++at]!;
          let isNegative = false;
          if (byte === 45) {
            isNegative = true;
            byte = work[++at]!;
          } else if (byte === 43) byte = work[++at]!;
          const digitsStart = at;
          let mantissa = 0;
          let digit = byte - 48;
          while (digit >= 0 && digit <= 9) {
            mantissa = mantissa * 10 + digit;
            digit = work[++at]! - 48;
          }
          let digits = at - digitsStart;
          let power = 0;
          if (work[at] === decimal && (decimal !== delimiter || isQuoted)) {
            const fractionStart = ++at;
            digit = work[at]! - 48;
            while (digit >= 0 && digit <= 9) {
              mantissa = mantissa * 10 + digit;
              digit = work[++at]! - 48;
            }
            power = fractionStart - at;
            digits -= power;
          }
          if (digits > 0) {
            byte = work[at]!;
            if (byte === 69 || byte === 101) {
              byte = work[++at]!;
              const isDown = byte === 45;
              if (isDown || byte === 43) at++;
              const exponentStart = at;
              let exponent = 0;
              digit = work[at]! - 48;
              while (digit >= 0 && digit <= 9) {
                exponent = exponent * 10 + digit;
                digit = work[++at]! - 48;
              }
              power += at === exponentStart ? 1e9 : isDown ? -exponent : exponent;
            }
            if (isQuoted) {
              if (work[at] === QUOTE) at++;
              else power = 1e9;
            }
            byte = work[at]!;
            while (byte === SPACE) byte = work[++at]!;
            if (
              (byte === delimiter || byte === terminator || byte === RETURN) &&
              mantissa <= EXACT &&
              power >= -22 &&
              power <= 22
            ) {
              value = power <= 0 ? mantissa / TEN[-power]! : mantissa * TEN[power]!;
              if (isNegative) value = -value;
              present++;
              isRead = true;
            }
          } else if (!isQuoted && at === digitsStart && !isNegative) {
            // Nothing at all between two delimiters is the commonest missing value.
            isRead = byte === delimiter || byte === terminator;
          }
        }
        if (!isRead) {
          at = this.cellEnd(cellStart);
          value = this.slowCell(cellStart, at, column);
          if (value === Number.POSITIVE_INFINITY) {
            this.blockRows = row;
            at = this.takeOddRow(rowStart);
            row = this.blockRows;
            continue rows;
          }
          if (!Number.isNaN(value)) present++;
        }
        block[column * stride + row] = value;
        byte = work[at]!;
        if (byte === delimiter && column < last) {
          column++;
          at++;
          continue;
        }
        if (byte === RETURN && work[at + 1] === terminator) byte = work[++at]!;
        if (byte === terminator && column === last) {
          at++;
          break;
        }
        const ends = this.endOfBlankRest(at);
        if (ends === -1 || (column < last && present > 0)) {
          this.blockRows = row;
          at = this.takeOddRow(rowStart);
          row = this.blockRows;
          continue rows;
        }
        at = ends;
        break;
      }
      if (present === 0) {
        this.noteWords(rowStart, at);
        continue;
      }
      this.blockLines[row] = this.line;
      if (++row === stride) {
        this.blockRows = row;
        this.flush();
        row = 0;
      }
    }
    this.blockRows = row;
  }

  /** Start of the next line where only delimiters and blanks are left in this one, else -1. */
  private endOfBlankRest(from: number): number {
    for (let at = from; ; at++) {
      const byte = this.work[at]!;
      if (byte === this.terminator) return at + 1;
      if (byte !== this.delimiter && byte !== SPACE && byte !== RETURN && byte !== 9) return -1;
    }
  }

  /** Where the cell that starts here ends: at its delimiter or at the line's end; quotes keep delimiters in. */
  private cellEnd(from: number): number {
    const { work, delimiter, terminator } = this;
    let at = from;
    while (work[at] === SPACE) at++;
    if (work[at] === QUOTE) {
      at++;
      while (work[at] !== terminator && !(work[at] === QUOTE && work[at + 1] !== QUOTE))
        at += work[at] === QUOTE ? 2 : 1;
    }
    while (work[at] !== delimiter && work[at] !== terminator) at++;
    if (work[at] === terminator && at > from && work[at - 1] === RETURN) at--;
    return at;
  }

  /** The cell's value, NaN where missing or a column of words, +Infinity where words stand in a column of numbers. */
  private slowCell(from: number, to: number, column: number): number {
    const kind = this.kinds[column];
    if (kind === TEXT) return Number.NaN;
    const raw = this.decoder.decode(this.work.subarray(from, to)).trim();
    const text = raw.startsWith('"') ? splitCells(raw, '\0')[0]! : raw;
    if (isMissing(text)) return Number.NaN;
    if (kind === CLOCK) {
      const seconds = clockSeconds(text, this.dayFirst);
      return Number.isNaN(seconds) ? Number.POSITIVE_INFINITY : seconds;
    }
    return cellNumber(text, this.layout.dialect.decimal) ?? Number.POSITIVE_INFINITY;
  }

  /** A line that is not a row of this table: passed over as a note, or refused. Returns the start of the next line. */
  private takeOddRow(from: number): number {
    const end = this.work.indexOf(this.terminator, from);
    const text = this.decoder.decode(this.work.subarray(from, end)).replace(/\r$/, '');
    const cells = splitCells(text, this.layout.dialect.delimiter);
    if (this.layout.repeats.has(rowKey(cells))) this.repeatedHeaders++;
    else if (this.isOfOtherTable(cells)) this.addNote(text);
    else {
      const verdict = oddRow(cells, {
        layout: this.layout,
        kinds: this.kinds,
        hasNumbers: (column) => this.hasNumbers(column),
        line: this.line,
        fileName: this.fileName,
      });
      if (verdict === 'note') {
        this.addNote(text);
        this.otherTable = { width: cells.length, afterRows: this.flushedRows + this.blockRows };
      } else {
        // A column that was empty until now turns out to hold words: it is one of words from here on.
        this.kinds[verdict.wordsIn] = TEXT;
        this.line--;
        return from;
      }
    }
    return end + 1;
  }

  /** As wide as the words before it and narrower than our table, with no row of ours since. */
  private isOfOtherTable(cells: readonly string[]): boolean {
    const { width, afterRows } = this.otherTable;
    const follows = afterRows === this.flushedRows + this.blockRows;
    if (!follows || cells.length !== width || width < 2 || width >= this.width) return false;
    this.otherTableLine ??= this.line;
    return true;
  }

  private hasNumbers(column: number): boolean {
    for (let row = 0; row < this.blockRows; row++)
      if (!Number.isNaN(this.block[column * this.stride + row]!)) return true;
    return this.store.hasNumbers(column);
  }

  /** A line without a single number (in a table with columns of words) is kept as a note, unless it is blank. */
  private noteWords(from: number, to: number): void {
    const text = this.decoder.decode(this.work.subarray(from, to));
    if (/[^\s,;|"\-–.]/.test(text)) this.addNote(text);
  }

  private addNote(text: string): void {
    const readable = shown(text, 400);
    if (readable !== '' && this.notes.length < MOST_NOTES)
      this.notes.push({ line: this.line, text: readable });
  }
}

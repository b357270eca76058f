import { takeFillers } from './fillers.ts';

/**
 * Columns that grow while a file is read, within a budget. Over it, neighbouring rows are averaged in pairs, again and
 * again as the file goes on: a file of any length ends as a recording of bounded size, and says by how much it was
 * thinned.
 */
export class ColumnStore {
  readonly width: number;
  rows = 0;
  /** File rows averaged into one kept row; 1: every row is kept. */
  every = 1;
  /** Filler of each column, NaN where none was seen: found before the first averaging, left out of every mean. */
  readonly fillers: Float64Array;
  private readonly maxRows: number;
  private columns: Float64Array[];
  private lines: Uint32Array;
  private capacity: number;
  private readonly sums: Float64Array;
  private readonly counts: Uint32Array;
  private pending = 0;
  private pendingLine = 0;

  constructor(width: number, expectedRows: number, maxValues: number) {
    this.width = width;
    // Even, so that halving leaves no row over.
    this.maxRows = Math.max(64, Math.floor(maxValues / Math.max(1, width) / 2) * 2);
    this.capacity = Math.max(64, Math.min(expectedRows, this.maxRows));
    this.columns = Array.from({ length: width }, () => new Float64Array(this.capacity));
    this.lines = new Uint32Array(this.capacity);
    this.fillers = new Float64Array(width).fill(Number.NaN);
    this.sums = new Float64Array(width);
    this.counts = new Uint32Array(width);
  }

  /** Adds `count` rows of a block laid out column after column, `stride` rows each. */
  append(block: Float64Array, stride: number, count: number, lines: Uint32Array): void {
    let from = 0;
    while (from < count) {
      if (this.every > 1) {
        from = this.average(block, stride, from, count, lines);
        continue;
      }
      if (this.rows === this.maxRows) {
        this.halve();
        continue;
      }
      const taken = Math.min(count - from, this.maxRows - this.rows);
      this.reserve(this.rows + taken);
      for (let column = 0; column < this.width; column++) {
        const start = column * stride + from;
        this.columns[column]!.set(block.subarray(start, start + taken), this.rows);
      }
      this.lines.set(lines.subarray(from, from + taken), this.rows);
      this.rows += taken;
      from += taken;
    }
  }

  /** Whether a column has held a number so far. */
  hasNumbers(column: number): boolean {
    const values = this.columns[column]!;
    for (let row = 0; row < this.rows; row++) if (!Number.isNaN(values[row]!)) return true;
    return this.counts[column]! > 0;
  }

  /** The columns at their true length; the store is empty afterwards. */
  finish(): { columns: Float64Array[]; lineOfRow: Uint32Array } {
    if (this.pending > 0) this.closeGroup();
    const columns: Float64Array[] = [];
    for (let column = 0; column < this.width; column++) {
      const values = this.columns[column]!;
      // A little room left over is not worth a second copy of everything.
      const isClose = values.length <= this.rows * 1.1 + 64;
      columns.push(isClose ? values.subarray(0, this.rows) : values.slice(0, this.rows));
      this.columns[column] = new Float64Array(0);
    }
    return { columns, lineOfRow: this.lines.slice(0, this.rows) };
  }

  private reserve(rows: number): void {
    if (rows <= this.capacity) return;
    this.capacity = Math.min(this.maxRows, Math.max(rows, Math.ceil(this.capacity * 1.5)));
    // One column at a time, so that old and new stand side by side only for one.
    for (let column = 0; column < this.width; column++) {
      const grown = new Float64Array(this.capacity);
      grown.set(this.columns[column]!.subarray(0, this.rows));
      this.columns[column] = grown;
    }
    const lines = new Uint32Array(this.capacity);
    lines.set(this.lines.subarray(0, this.rows));
    this.lines = lines;
  }

  private average(
    block: Float64Array,
    stride: number,
    from: number,
    count: number,
    lines: Uint32Array,
  ): number {
    if (this.rows === this.maxRows) this.halve();
    const taken = Math.min(count - from, this.every - this.pending);
    if (this.pending === 0) this.pendingLine = lines[from]!;
    for (let column = 0; column < this.width; column++) {
      let sum = this.sums[column]!;
      let seen = this.counts[column]!;
      const start = column * stride + from;
      const filler = this.fillers[column]!;
      for (let at = start; at < start + taken; at++) {
        const value = block[at]!;
        if (Number.isNaN(value) || value === filler) continue;
        sum += value;
        seen++;
      }
      this.sums[column] = sum;
      this.counts[column] = seen;
    }
    this.pending += taken;
    if (this.pending === this.every) this.closeGroup();
    return from + taken;
  }

  private closeGroup(): void {
    if (this.rows === this.maxRows) this.halve();
    this.reserve(this.rows + 1);
    for (let column = 0; column < this.width; column++) {
      const seen = this.counts[column]!;
      this.columns[column]![this.rows] = seen === 0 ? Number.NaN : this.sums[column]! / seen;
    }
    this.lines[this.rows] = this.pendingLine;
    this.rows++;
    this.sums.fill(0);
    this.counts.fill(0);
    this.pending = 0;
  }

  private noteFillers(): void {
    for (let column = 0; column < this.width; column++)
      this.fillers[column] =
        takeFillers(this.columns[column]!.subarray(0, this.rows))?.filler ?? Number.NaN;
  }

  /** Pairs of rows become one; a value missing on one side leaves the other. */
  private halve(): void {
    const half = this.rows >> 1;
    if (this.every === 1) this.noteFillers();
    for (let column = 0; column < this.width; column++) {
      const values = this.columns[column]!;
      for (let row = 0; row < half; row++) {
        const a = values[2 * row]!;
        const b = values[2 * row + 1]!;
        values[row] = Number.isNaN(a) ? b : Number.isNaN(b) ? a : (a + b) / 2;
      }
    }
    for (let row = 0; row < half; row++) this.lines[row] = this.lines[2 * row]!;
    this.rows = half;
    this.every *= 2;
  }
}

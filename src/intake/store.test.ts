import { describe, expect, it } from 'vitest';
import { readRunFile } from './index.ts';
import { ColumnStore } from './store.ts';

function fill(store: ColumnStore, rows: number, block = 10): void {
  for (let from = 0; from < rows; from += block) {
    const count = Math.min(block, rows - from);
    const values = new Float64Array(2 * block);
    const lines = new Uint32Array(block);
    for (let at = 0; at < count; at++) {
      values[at] = from + at;
      values[block + at] = (from + at) % 2 === 0 ? 1 : Number.NaN;
      lines[at] = from + at + 2;
    }
    store.append(values, block, count, lines);
  }
}

describe('columns that grow while a file is read', () => {
  it.each([1, 63, 64, 65, 1000])('keep every row within the budget: %i', (rows) => {
    const store = new ColumnStore(2, 10, 100_000);
    fill(store, rows);
    const { columns, lineOfRow } = store.finish();
    expect([...columns[0]!]).toEqual(Array.from({ length: rows }, (_, at) => at));
    expect(lineOfRow.at(-1)).toBe(rows + 1);
    expect(store.every).toBe(1);
  });

  it.each([
    [100, 2],
    [129, 4],
    [1000, 16],
    [1024, 16],
  ])('average neighbours over the budget: %i rows into groups of %i', (rows, every) => {
    const store = new ColumnStore(2, rows, 128);
    fill(store, rows);
    const { columns, lineOfRow } = store.finish();
    expect(store.every).toBe(every);
    expect(lineOfRow).toHaveLength(Math.ceil(rows / every));
    // The mean of k neighbours of 0, 1, 2 … starting at a is a + (k − 1)/2.
    for (let row = 0; row < Math.floor(rows / every); row++) {
      expect(columns[0]![row]).toBe(row * every + (every - 1) / 2);
      expect(columns[1]![row]).toBe(1);
      expect(lineOfRow[row]).toBe(row * every + 2);
    }
  });

  it('fillers do not leak into means', async () => {
    const rows = Array.from({ length: 4000 }, (_, at) => {
      const isOff = at % 1000 < 37;
      return `${at / 1000},${2500 + at},200,${isOff ? -999.9 : 90}`;
    });
    const text = `Time (s),RPM,Torque (Nm),Oil Temp (C)\n${rows.join('\n')}\n`;
    const { recording } = await readRunFile(new TextEncoder().encode(text), {
      fileName: 'long.csv',
      maxValues: 4000,
    });
    const oil = recording.channels[3]!.values;
    expect(recording.rows).toBe(1000);
    expect(new Set(oil)).toEqual(new Set([Number.NaN, 363.15]));
    expect(recording.warnings.join()).toMatch(/"Oil Temp \(C\)" holds the filler -999.9/);
  });

  it('a file over the budget is thinned and says so', async () => {
    const rows = Array.from(
      { length: 4000 },
      (_, at) => `${at / 1000},${2500 + at},${200 + (at % 2)}`,
    );
    const text = `Time (s),RPM,Torque (Nm)\n${rows.join('\n')}\n`;
    const { recording } = await readRunFile(new TextEncoder().encode(text), {
      fileName: 'long.csv',
      maxValues: 3000,
    });
    expect(recording.rows).toBe(1000);
    expect(recording.warnings.join()).toMatch(/each 4 neighbouring rows were averaged into one/);
    expect(recording.channels[1]!.values[0]).toBe(2501.5);
    expect(recording.channels[2]!.values[500]).toBe(200.5);
  });
});

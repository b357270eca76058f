import { describe, expect, it } from 'vitest';
import { closer, moved, reachOf, windowBetween } from './trace-window.ts';

/** 400 rows in 20 bins, 50 rows a second. */
const row = Array.from({ length: 20 }, (_, at) => 20 * at);
const timed = { row, timeS: row.map((at) => at / 50), lastRow: 399 };

describe('a part of a recording to look at closer', () => {
  it('takes the rows of every bin that the drag touched', () => {
    expect(windowBetween(timed, 2.1, 4.1)).toEqual({
      fromRow: 100,
      toRow: 219,
      places: [2.1, 4.1],
    });
    expect(windowBetween(timed, 4.1, 2.1)).toEqual(windowBetween(timed, 2.1, 4.1));
    expect(windowBetween(timed, -1, 99)).toMatchObject({ fromRow: 0, toRow: 399 });
  });

  it('goes by rows where there is no time, and over gaps in it', () => {
    expect(windowBetween({ ...timed, timeS: null }, 105, 205)).toMatchObject({
      fromRow: 100,
      toRow: 219,
    });
    const gappy = { ...timed, timeS: timed.timeS.map((at, i) => (i === 5 ? null : at)) };
    expect(windowBetween(gappy, 2.1, 4.1)).toMatchObject({ fromRow: 80, toRow: 219 });
  });

  it('does not go closer than a few rows', () => {
    const fine = { row: [100, 101, 102, 103], timeS: null, lastRow: 103 };
    expect(windowBetween(fine, 101, 102)).toBeNull();
  });

  it('goes to the middle, and to either side as far as there is something', () => {
    expect(reachOf(timed)).toEqual([0, 7.6]);
    expect(closer([0, 8])).toEqual([2, 6]);
    expect(moved([2, 6], 1, [0, 8])).toEqual([4, 8]);
    expect(moved([4, 8], 1, [0, 8])).toEqual([4, 8]);
    expect(moved([2, 6], -1, [1, 8])).toEqual([1, 5]);
  });
});

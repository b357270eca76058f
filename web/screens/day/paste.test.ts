import { describe, expect, it } from 'vitest';
import { placeBlock, readBlock } from './paste.ts';

describe('a block from a spreadsheet', () => {
  it('reads rows and cells, with or without a last line end', () => {
    expect(readBlock('22\t0.87\r\n24\t0.87\r\n')).toEqual([
      ['22', '0.87'],
      ['24', '0.87'],
    ]);
    expect(readBlock('22\n24\n26')).toEqual([['22'], ['24'], ['26']]);
  });

  it('keeps tabs, line ends and quotes inside quoted cells', () => {
    expect(readBlock('"a\tb"\t"say ""hm"""\n"two\nlines"\t5')).toEqual([
      ['a\tb', 'say "hm"'],
      ['two\nlines', '5'],
    ]);
  });

  it('keeps empty cells in their place', () => {
    expect(readBlock('22\t\tnote\n\t\tother')).toEqual([
      ['22', '', 'note'],
      ['', '', 'other'],
    ]);
  });

  it('fills down from the cell where it was pasted and counts what found no room', () => {
    const { placed, left } = placeBlock(
      [['22'], ['24'], ['26']],
      { row: 1, column: 0 },
      { rows: 3, columns: 4 },
    );
    expect(placed).toEqual([
      { row: 1, column: 0, text: '22' },
      { row: 2, column: 0, text: '24' },
    ]);
    expect(left).toBe(1);
  });
});

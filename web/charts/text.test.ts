import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { besideLine, dodge, rowsFor, textWidth } from './text.ts';

describe('dodge', () => {
  it('leaves labels alone that are apart', () => {
    expect(dodge([10, 40, 90], 14, 0, 100)).toEqual([10, 40, 90]);
  });

  it('spreads a heap evenly round its middle, in order', () => {
    expect(dodge([50, 50, 50], 10, 0, 100)).toEqual([40, 50, 60]);
    expect(dodge([52, 50], 10, 0, 100)).toEqual([56, 46]);
  });

  it('keeps them apart and inside, whatever is wished', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -50, max: 150, noNaN: true }), { maxLength: 8 }),
        (wished) => {
          const placed = dodge(wished, 12, 0, 100);
          const sorted = [...placed].sort((a, b) => a - b);
          for (let at = 1; at < sorted.length; at += 1) {
            expect(sorted[at]! - sorted[at - 1]!).toBeGreaterThanOrEqual(12 - 1e-6);
          }
          for (const at of placed) {
            expect(at).toBeGreaterThanOrEqual(-1e-6);
            expect(at).toBeLessThanOrEqual(100 + 1e-6);
          }
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe('rows of labels', () => {
  it('go up only where they would touch', () => {
    expect(
      rowsFor([
        [0, 40],
        [30, 80],
        [100, 140],
        [60, 120],
      ]),
    ).toEqual([0, 1, 0, 2]);
  });
});

describe('width of a text', () => {
  it('grows with its letters and weight', () => {
    expect(textWidth('cannot be told from chance', 12)).toBeGreaterThan(textWidth('real', 12));
    expect(textWidth('26°', 12, true)).toBeGreaterThan(textWidth('26°', 12));
  });
});

describe('a label beside an upright line', () => {
  it('keeps its place where that is free', () => {
    expect(besideLine(100, 20, null, 0, 300)).toBe(100);
    expect(besideLine(100, 20, 200, 0, 300)).toBe(100);
    expect(besideLine(5, 20, 200, 0, 300)).toBe(20);
  });

  it('never touches the line as long as one side has room', () => {
    for (let line = 0; line <= 300; line += 3)
      for (let wished = 0; wished <= 300; wished += 3) {
        const at = besideLine(wished, 40, line, 0, 300);
        expect(Math.abs(at - line), `${wished} beside ${line}`).toBeGreaterThanOrEqual(47);
        expect(at).toBeGreaterThanOrEqual(40);
        expect(at).toBeLessThanOrEqual(260);
      }
  });

  it('stays on the side it wished for where there is room', () => {
    expect(besideLine(195, 20, 200, 0, 300)).toBe(173);
    expect(besideLine(205, 20, 200, 0, 300)).toBe(227);
    expect(besideLine(290, 20, 280, 0, 300)).toBe(253);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paperTable } from './paper-table.ts';

const six = [2000, 2500, 3000, 3500, 4000, 4500];
const typed = (between: string, torque: (speed: number) => string) =>
  six.map((speed) => `${speed}${between}${torque(speed)}`).join('\n');

describe('a curve typed from paper', () => {
  it.each([
    ['blanks', typed('  ', () => '312.5')],
    ['tabs, with a heading', `rpm\ttorque\n${typed('\t', () => '312.5')}`],
    ['semicolons and decimal commas', typed(';', () => '312,5')],
    ['commas', typed(',', () => '312.5')],
    ['commas and blanks', typed(', ', () => '312.5')],
  ])('reads %s', (_, text) => {
    expect(paperTable(text).rows).toEqual(six.map((speedRpm) => ({ speedRpm, torque: 312.5 })));
  });

  it('names the line that it cannot read, and asks for more where there are too few', () => {
    expect(paperTable(`${typed(' ', () => '300')}\n5000 about 290`).problem).toMatch(
      /^Line 7 says/,
    );
    expect(paperTable('2000 300').problem).toContain('Only 1');
    expect(paperTable('').problem).toContain('4 speeds at least');
  });

  it('always gives rows that are numbers above zero, or a sentence', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        const { rows, problem } = paperTable(text);
        expect((rows === null) !== (problem === null)).toBe(true);
        for (const row of rows ?? []) expect(row.speedRpm * row.torque).toBeGreaterThan(0);
      }),
      { numRuns: 100, seed: 11 },
    );
  });
});

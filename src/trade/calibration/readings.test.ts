import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findUnit, toInside } from '../../units/index.ts';
import { pastedSensor, pastedWeights } from './readings.ts';

const US = { mass: 'lb', torque: 'lb-ft' };
const SI = { mass: 'kg', torque: 'N·m' };
const lb = toInside(1, findUnit('lb', 'mass')!);
const lbFt = toInside(1, findUnit('lb-ft', 'torque')!);

/** The points as `weight/reading/way`, in kg and N·m. */
const short = (got: ReturnType<typeof pastedWeights>) =>
  'points' in got
    ? got.points.map(({ massKg, readingNm, direction }) => [massKg, readingNm, direction].join('/'))
    : got.problems;

describe('readings of dead weights from a spreadsheet', () => {
  it('without a heading: weight, reading, and the way they went by the weights', () => {
    const text = '0\t0.2\n25\t122.5\n50\t245\n50\t245.2\n25\t122.9\n0\t0.5\n';
    expect(short(pastedWeights(text, SI))).toEqual([
      '0/0.2/up',
      '25/122.5/up',
      '50/245/up',
      '50/245.2/up',
      '25/122.9/down',
      '0/0.5/down',
    ]);
  });

  it('a second round begins at the second of two zeros', () => {
    const got = pastedWeights('0\t0\n10\t50\n0\t0\n0\t0\n10\t50\n0\t0', SI);
    expect('points' in got && got.points.map(({ direction }) => direction)).toEqual(
      'up up down up up down'.split(' '),
    );
  });

  it('a heading names columns and units, in any order; a cell may have its own', () => {
    const text =
      'Direction;Reading (N·m);Weight [lb]\nup;0;0\nUp;271,2;100\ndown;541;200\nd;0,4;10 kg';
    const got = pastedWeights(text, SI);
    if (!('points' in got)) throw new Error(JSON.stringify(got));
    expect(got.points.map(({ massKg }) => massKg)).toEqual([0, 100 * lb, 200 * lb, 10]);
    expect(got.points.map(({ readingNm }) => readingNm)).toEqual([0, 271.2, 541, 0.4]);
    expect(got.points.map(({ direction }) => direction)).toEqual(['up', 'up', 'down', 'down']);
  });

  it('one column up and one down beside each weight, blanks left out', () => {
    const text = 'Weight, lb\tUp, lb-ft\tDown, lb-ft\n0\t0\t0.3\n50\t100.1\t100.4\n100\t200\t';
    const got = pastedWeights(text, SI);
    if (!('points' in got)) throw new Error(JSON.stringify(got));
    expect(got.points.map(({ direction }) => direction).join(' ')).toBe('up up up down down');
    expect(got.points.map(({ massKg }) => massKg / lb)).toEqual([0, 50, 100, 50, 0]);
    expect(got.points[4]!.readingNm).toBeCloseTo(0.3 * lbFt, 12);
  });

  it('numbers without a unit are the person’s', () => {
    const got = pastedWeights('100\t200', US);
    expect('points' in got && got.points[0]).toEqual({
      massKg: 100 * lb,
      readingNm: 200 * lbFt,
      direction: 'up',
    });
  });

  it('says row, column and what was expected of what it cannot read', () => {
    const problems = (text: string) => {
      const got = pastedWeights(text, SI);
      return 'problems' in got ? got.problems : [];
    };
    expect(problems('0\t0\n1,250\t5')).toMatchObject([{ row: 2, column: 1, found: '1,250' }]);
    expect(problems('0\t0\n5\t')).toMatchObject([{ row: 2, column: 2, found: 'nothing' }]);
    expect(problems('0\t0\n5')).toHaveLength(1);
    expect(problems('0\t0\tsideways')).toMatchObject([{ column: 3, expected: '"up" or "down"' }]);
    expect(problems('0\t5 kPa')).toMatchObject([{ row: 1, column: 2 }]);
    expect(problems('Hello\tyou\n1\t2')).toMatchObject([{ row: 1, found: 'Hello | you' }]);
    expect(problems('Weight\tRemark\n1\t2')).toHaveLength(1);
  });

  it('never breaks, whatever is pasted (1000 texts)', () => {
    const cell = fc.oneof(
      fc.double({ noNaN: true }).map(String),
      fc.constantFrom('Weight (lb)', 'Reading', 'up', 'down', '', '1,5', '12 kg', '3 N·m', '–'),
      fc.string({ maxLength: 6 }),
    );
    const table = fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 8 });
    fc.assert(
      fc.property(table, fc.constantFrom('\t', ';', ', '), (rows, apart) => {
        const text = rows.map((row) => row.join(apart)).join('\n');
        for (const got of [pastedWeights(text, US), pastedSensor(text, '°F')])
          if ('points' in got)
            for (const point of got.points)
              for (const value of Object.values(point))
                if (typeof value === 'number') expect(value).not.toBeNaN();
      }),
      { seed: 9, numRuns: 1000 },
    );
  });
});

describe('a sensor beside a reference from a spreadsheet', () => {
  it('takes two columns, the reading first, or as the heading says', () => {
    expect(pastedSensor('0.6\t0\n98.6\t100', '°C')).toEqual({
      points: [
        { reading: 0.6, reference: 0 },
        { reading: 98.6, reference: 100 },
      ],
    });
    expect(pastedSensor('Reference (°C)\tSensor (°F)\n100\t212.9', '°F')).toEqual({
      points: [{ reading: 212.9, reference: 212 }],
    });
  });
  it('refuses a unit that nobody knows, and a heading without both', () => {
    expect(() => pastedSensor('1\t2', 'furlong')).toThrow(/not a unit/);
    expect(pastedSensor('Reading\n1', '°C')).toHaveProperty('problems');
  });
});

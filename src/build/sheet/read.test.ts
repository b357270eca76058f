import { describe, expect, it } from 'vitest';
import { fieldOf } from '../sections/index.ts';
import { parseSheet, problemSentence, readSheet } from './read.ts';
import { readTyped } from './typed.ts';

const STROKE = fieldOf('crank.stroke')!;
const sheetWith = (sections: unknown, layout: unknown = { cylinders: 4 }) => ({
  format: 'sheet/1',
  layout,
  sections,
});
const problemsOf = (value: unknown) => {
  const read = readSheet(value);
  return 'problems' in read ? read.problems : [];
};

describe('a quantity as it is typed', () => {
  it.each([
    ['4.030 in', { value: 4.03, unit: 'in' }],
    ['4,030', { wrong: 'a number that can be read one way only: 4.030 or 4030' }],
    ['102,36 mm', { value: 102.36, unit: 'mm' }],
    ['4.030 ± 0.0002 in', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['4.030 in ± 0.0002 in', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['4.030 in +/- .0002', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['4.030 in +- 0.2 thou', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['4.030in -/+ 0.0002in', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['4.030 plus or minus 0.0002 in', { value: 4.03, unit: 'in', plusMinus: 0.0002 }],
    ['102,36 mm ± 0,005 mm', { value: 102.36, unit: 'mm', plusMinus: 0.005 }],
    ['100 mm ± 1 %', { value: 100, unit: 'mm', plusMinus: 1 }],
    ['8.84e-2 m', { value: 0.0884, unit: 'm' }],
    ['-0.012 in', { value: -0.012, unit: 'in' }],
    ['4.030"', { value: 4.03, unit: '"' }],
  ])('%s', (text, expected) => {
    expect(readTyped(STROKE, text)).toEqual(expected);
  });

  it.each([
    ['heads.chamberVolume', '64 cm3 ± 0.2', { value: 64, unit: 'cm3', plusMinus: 0.2 }],
    ['heads.flowDepression', '28 inH2O', { value: 28, unit: 'inH2O' }],
    ['valveTrain.springRate', '380 lbf/in', { value: 380, unit: 'lbf/in' }],
    ['condition.leakDown', '6 ± 1 %', { value: 6, unit: '%', plusMinus: 1 }],
    ['intent.hottestInlet', '104 °F ± 9 °F', { value: 104, unit: '°F', plusMinus: 9 }],
  ])('%s: %s, whose unit has a digit or whose scale has its own zero', (path, text, expected) => {
    expect(readTyped(fieldOf(path)!, text)).toEqual(expected);
  });

  it.each([
    'NaN in',
    'Infinity mm',
    '1e999 mm',
    'in',
    '',
    '±',
    '4 ± 1 ± 2 in',
    '4 in ± -1',
    '4 in ± 1 psi',
  ])('refuses %j', (text) => {
    expect(readTyped(STROKE, text)).toHaveProperty('wrong');
  });
});

describe('a slip in a sheet', () => {
  it.each([
    [{ block: { values: { boreNominl: '4 in' } } }, 'boreNominl', 'perhaps "boreNominal" is meant'],
    [{ block: { values: { 'Bore, nominal': '4 in' } } }, '"Bore, nominal"', '"boreNominal"'],
    [{ block: { values: { stroke: '4 in' } } }, 'block.values.stroke', 'stands in "crank"'],
    [{ block: { boreNominal: '4 in' } }, 'block.boreNominal', 'it in "values"'],
    [{ cam: {} }, 'sections.cam', '"camshaft" is meant'],
    [{ crank: { values: { stroke: 88.4 } } }, 'values.stroke', 'a text of number and unit'],
    [{ crank: { values: { stroke: '88,4' } } }, 'values.stroke', 'a unit behind the number'],
    [
      { crank: { values: { stroke: { value: '88.4', unit: 'mm' } } } },
      'stroke.value: found "88.4"',
      'a number from 5 mm to 2000 mm',
    ],
    [
      { crank: { values: { stroke: { value: 3.48, unit: 'm' } } } },
      '.value',
      'is it another unit?',
    ],
    [
      { crank: { values: { stroke: { each: [1], unit: 'in' } } } },
      'stroke.each',
      '"value": this field stands once',
    ],
    [
      { block: { values: { boreNominal: { value: 4, unit: 'in', on: 'May' } } } },
      'boreNominal.on',
      'a date',
    ],
    [{ rods: { values: { boltSize: { value: 'M9', plusMinus: 1 } } } }, 'plusMinus', 'no number'],
  ])('%j is named with what is meant', (sections, where, expected) => {
    const problems = problemsOf(sheetWith(sections));
    expect(problems).toHaveLength(1);
    const sentence = problemSentence(problems[0]!);
    expect(sentence).toContain(where);
    expect(sentence).toContain(expected);
  });

  it('shows all slips at once, 50 at most', () => {
    const values = Object.fromEntries(Array.from({ length: 300 }, (_, i) => [`x${i}`, 1]));
    expect(problemsOf(sheetWith({ block: { values } }))).toHaveLength(50);
    expect(() => parseSheet(sheetWith({ block: { values } }), 'a.json')).toThrow(/and 49 more/);
  });

  it('takes a layout as engines of that arrangement usually are, and refuses one that is none', () => {
    expect(parseSheet(sheetWith({}, { cylinders: 8, arrangement: 'inline' })).layout).toMatchObject(
      {
        bankAngleDeg: null,
        crank: 'single-plane',
      },
    );
    expect(problemsOf(sheetWith({}, { cylinders: 8, arrangement: 'single' }))[0]!.path).toBe(
      'layout.arrangement',
    );
  });
});

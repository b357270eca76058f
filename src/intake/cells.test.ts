import { describe, expect, it } from 'vitest';
import { cellNumber, isMissing, splitCells } from './cells.ts';
import { shown } from './display.ts';

describe('cells', () => {
  it('splits at delimiters outside of quotes and takes quotes off', () => {
    expect(splitCells('1, "a,b" ,"say ""x""",', ',')).toEqual(['1', 'a,b', 'say "x"', '']);
    expect(splitCells('"1,5";2', ';')).toEqual(['1,5', '2']);
    expect(splitCells('"open', ',')).toEqual(['open']);
  });

  it.each([
    '',
    '-',
    '---',
    '–',
    'NaN',
    'nan',
    'N/A',
    '#N/A',
    '#DIV/0!',
    'null',
    '.',
    '?',
    '***',
    'inf',
    '-Infinity',
    '1.#QNAN',
  ])('takes %j for a missing value', (text) => {
    expect(isMissing(text)).toBe(true);
  });

  it.each(['0', '-1', 'ERR', 'OFF', 'none of it', 'a'])('does not take %j for one', (text) => {
    expect(isMissing(text)).toBe(false);
  });

  it.each([
    ['1,234.5', '.', 1234.5],
    ['1 234.5', '.', 1234.5],
    ["1'234'567", '.', 1234567],
    ['1.234,5', ',', 1234.5],
    ['1\u202f234,5', ',', 1234.5],
    ['1,234,567', '.', 1234567],
    ['−3.5', '.', -3.5],
    ['+.5e-3', '.', 0.0005],
    ['2,549', ',', 2.549],
  ] as const)('reads %s with decimal %s', (text, decimal, value) => {
    expect(cellNumber(text, decimal)).toBe(value);
  });

  it.each([
    ['0,020', '.'],
    ['1,23', '.'],
    ['1,2345', '.'],
    ['1.5', ','],
    ['12a', '.'],
    ['0x10', '.'],
    ['1e', '.'],
    ['1e999', '.'],
    ['9'.repeat(200), '.'],
  ] as const)('does not read %s with decimal %s', (text, decimal) => {
    expect(cellNumber(text, decimal)).toBeUndefined();
  });
});

describe('text from files made fit to show', () => {
  it('strips control and direction marks and caps the length', () => {
    expect(shown('a\u0000b\u001b[31m\n c\u202e')).toBe('a b [31m c');
    expect(shown('x'.repeat(500))).toHaveLength(120);
    expect(shown('<script>alert(1)</script>')).toBe('<script>alert(1)</script>');
    expect(shown('\ud800')).toBe('');
  });
});

import { describe, expect, it } from 'vitest';
import { SPARK_LEAD } from './kinds.ts';
import { chanceText, chosenPercentText, percentText, settingText } from './words.ts';

describe('figures in words', () => {
  it.each([
    [0.75, '0.75 %'],
    [0.5, '0.5 %'],
    [1, '1 %'],
    [1.125, '1.13 %'],
  ])('a chosen percentage of %f reads as it was chosen', (value, text) => {
    expect(chosenPercentText(value)).toBe(text);
  });

  it.each([
    [1.24, '1.2 %'],
    [0.04, '0.04 %'],
    [-0.36, '−0.4 %'],
  ])('a measured percentage of %f reads with the places it deserves', (value, text) => {
    expect(percentText(value)).toBe(text);
  });

  it('pretends no certainty, and gives a setting without empty places', () => {
    expect([0.001, 0.124, 0.999].map(chanceText)).toEqual([
      'less than 1 %',
      '12 %',
      'more than 99 %',
    ]);
    expect([36, 28.84].map((value) => settingText(value, SPARK_LEAD))).toEqual(['36°', '28.8°']);
  });
});

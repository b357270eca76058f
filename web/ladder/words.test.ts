import { describe, expect, it } from 'vitest';
import { ANSWER, KIND } from './fixture.test-data.ts';
import {
  axisName,
  bestInWords,
  estimateDecimals,
  moveInWords,
  repeatabilityInWords,
  worthInWords,
} from './words.ts';

describe('words of the ladder', () => {
  it('says the next move so short that it reads from across the room', () => {
    expect(moveInWords({ action: 'pull', value: 30, worthPercent: 1, why: '' }, 'deg')).toBe(
      'Pull 30°',
    );
    expect(moveInWords({ action: 'repeat', value: 24, worthPercent: null, why: '' }, 'deg')).toBe(
      'Repeat 24°',
    );
    expect(moveInWords({ action: 'back', value: 25.5, worthPercent: null, why: '' }, 'deg')).toBe(
      'Back to 25.5°',
    );
    expect(moveInWords({ action: 'stop', value: null, worthPercent: 0, why: '' }, 'deg')).toBe(
      'No. Stop.',
    );
  });

  it('never claims a worth it does not know', () => {
    expect(worthInWords({ action: 'pull', value: 30, worthPercent: null, why: '' })).toBe(
      'what it brings cannot be said yet',
    );
    expect(worthInWords({ action: 'pull', value: 30, worthPercent: 1.62, why: '' })).toBe(
      'may raise the power left in it by 1.6\u202f%',
    );
  });

  it('leaves an open best open', () => {
    expect(bestInWords({ value: 28.8, low: 28.4, high: 29.4 }, KIND)).toEqual([
      '28.8°',
      '28.4 to 29.4',
    ]);
    expect(bestInWords({ value: null, low: 29.6, high: null }, KIND)).toEqual([
      '≥ 29.6°',
      'no upper end yet',
    ]);
    expect(bestInWords({ value: null, low: null, high: null }, KIND)[0]).toBe('not known');
  });

  it('gives estimates one decimal more than the step', () => {
    expect(estimateDecimals(KIND)).toBe(1);
    expect(estimateDecimals({ ...KIND, defaultStep: 0.01 })).toBe(3);
    expect(axisName(KIND)).toBe('lead, degrees before top centre');
    expect(axisName({ ...KIND, unit: '', word: 'lambda' })).toBe('lambda');
  });

  it('says where the repeatability comes from', () => {
    const prior = { ...ANSWER, repeatability: { ...ANSWER.repeatability, from: 'prior' as const } };
    expect(repeatabilityInWords(prior)).toContain('nothing was repeated yet');
    expect(repeatabilityInWords(ANSWER)).toContain('0.35\u202f%');
  });
});

import { describe, expect, it } from 'vitest';
import {
  chance,
  estimate,
  interval,
  kept,
  outside,
  percent,
  plain,
  rpm,
  setting,
  signed,
  signedPercent,
} from './numbers.ts';

describe('figures on screen', () => {
  it('use a true minus, and no minus on zero', () => {
    expect(plain(-0.4)).toBe('\u22120.4');
    expect(plain(-0.04)).toBe('0.0');
    expect(signed(0.04)).toBe('0.0');
    expect(signed(2.9)).toBe('+2.9');
  });

  it('show an en dash for what is not known', () => {
    for (const text of [
      plain(null),
      percent(Number.NaN),
      rpm(undefined),
      setting(null, 'deg'),
      chance(null),
    ]) {
      expect(text).toBe('–');
    }
  });

  it('keep number and unit together', () => {
    expect(rpm(5200)).toBe('5\u202f200\u202frpm');
    expect(signedPercent(-1.44)).toBe('\u22121.4\u202f%');
  });

  it('keep numbers of a sentence with their units', () => {
    expect(kept('gives up 0.9 %; at 5150 rpm, 14 N·m')).toBe(
      'gives up 0.9\u202f%; at 5150\u202frpm, 14\u202fN·m',
    );
  });

  it('write settings whole where they are, estimates with their decimal', () => {
    expect(setting(26, 'deg')).toBe('26°');
    expect(setting(26.5, 'deg')).toBe('26.5°');
    expect(estimate(29, 'deg')).toBe('29.0°');
    expect(setting(0.86, '')).toBe('0.86');
    expect(estimate(0.8581, '')).toBe('0.858');
    expect(setting(0.87, 'λ', 2)).toBe('0.87\u202fλ');
  });

  it('say an open interval in words', () => {
    expect(interval(28.4, 29.4)).toBe('28.4 to 29.4');
    expect(interval(28.4, null)).toBe('28.4 or more');
    expect(interval(null, 30)).toBe('30.0 or less');
    expect(interval(null, null)).toBe('not known yet');
    expect(interval(0.04, 2.1)).toBe('0.04 to 2.10');
    expect(interval(-2, -0.02)).toBe('\u22122.00 to \u22120.02');
    expect(interval(-0.04, 2.1)).toBe('0.0 to 2.1');
  });

  it('never call a chance nothing or everything', () => {
    expect(chance(0)).toBe('under 0.1\u202f%');
    expect(chance(0.021)).toBe('2.1\u202f%');
    expect(chance(0.5)).toBe('50\u202f%');
    expect(chance(0.999)).toBe('over 99\u202f%');
  });

  it('change units by the one table', () => {
    // 1 hp = 550 ft·lbf/s = 745.6998715822702 W
    expect(outside('power', 'us').of(745.6998715822702)).toBeCloseTo(1, 10);
    expect(outside('power', 'metric').of(1000)).toBeCloseTo(1, 12);
  });
});

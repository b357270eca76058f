import { describe, expect, it } from 'vitest';
import { clockSeconds, dayOrder, looksLikeClock, sinceFirst } from './clock.ts';

const DAY = 86_400;

describe('clock readings', () => {
  it.each([
    ['07:34:26', 7 * 3600 + 34 * 60 + 26],
    ['7:34:26.120', 7 * 3600 + 34 * 60 + 26.12],
    ['07:34:26,12', 7 * 3600 + 34 * 60 + 26.12],
    ['07:34:26:120', 7 * 3600 + 34 * 60 + 26.12],
    ['34:26.5', 34 * 60 + 26.5],
    ['12:00:01 AM', 1],
    ['12:00:01 pm', 12 * 3600 + 1],
    ['1:02 p.m.', 13 * 3600 + 120],
  ])('reads %s as a time of day or running clock', (text, seconds) => {
    expect(clockSeconds(text, false)).toBeCloseTo(seconds, 9);
  });

  it.each([
    ['2026-11-25 07:34:26.120', '2026-11-25T07:34:26.120Z', false],
    ['2026-11-25T07:34:26Z', '2026-11-25T07:34:26Z', false],
    ['2026-11-25T07:34:26+01:00', '2026-11-25T07:34:26Z', false],
    ['25/11/2026 07:34:26', '2026-11-25T07:34:26Z', false],
    ['11/25/2026 7:34:26 PM', '2026-11-25T19:34:26Z', true],
    ['03/04/2026 01:00:00', '2026-04-03T01:00:00Z', true],
    ['03/04/2026 01:00:00', '2026-03-04T01:00:00Z', false],
    ['03.04.26 01:00', '2026-04-03T01:00:00Z', true],
    ['2026/11/25', '2026-11-25T00:00:00Z', false],
  ])('reads %s as %s', (text, iso, dayFirst) => {
    expect(clockSeconds(text, dayFirst)).toBeCloseTo(Date.parse(iso) / 1000, 6);
  });

  it.each([
    '',
    '12',
    '1.5',
    'RPM',
    '25:61:00',
    '13:00:00 PM',
    '2026-13-41',
    '1/2/345',
    '::',
    '1-2-3-4',
  ])('takes %j for no clock', (text) => {
    expect(looksLikeClock(text)).toBe(false);
  });

  it('tells day-month order by the parts that can only be days', () => {
    expect(dayOrder(['03/04/2026 1:00', '25/04/2026 1:00'])).toBe(true);
    expect(dayOrder(['03/04/2026 1:00', '04/25/2026 1:00'])).toBe(false);
    expect(dayOrder(['03/04/2026 1:00', '04/04/2026 1:00'])).toBeNull();
    expect(dayOrder(['03/04/2026 1:00', '03/04/2026 2:00'])).toBe('none');
    expect(dayOrder(['07:34:26', '2026-04-25'])).toBe('none');
  });

  it('counts from the first reading and across midnight, and leaves gaps alone', () => {
    const seconds = Float64Array.of(DAY - 1, Number.NaN, DAY - 0.5, 0, 0.5);
    sinceFirst(seconds);
    expect([...seconds]).toEqual([0, Number.NaN, 0.5, 1, 1.5]);
  });
});

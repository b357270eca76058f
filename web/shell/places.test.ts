import { expect, it } from 'vitest';
import { dayLabel } from './places.ts';

it('calls a day by its name, its date, or both', () => {
  expect(dayLabel({ name: '', date: '2026-05-14' })).toBe('14 May 2026');
  expect(dayLabel({ name: 'Spark', date: '2026-05-14' })).toBe('Spark, 14 May 2026');
  expect(dayLabel({ name: '', date: null })).toBe('Test day');
});

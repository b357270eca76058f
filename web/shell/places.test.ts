import { describe, expect, it } from 'vitest';
import type { ShopSummary } from '../api/types.gen.ts';
import { dayLabel, findPlaces, placesOf } from './places.ts';

const shop = {
  engines: [
    {
      id: 'e1',
      name: 'Rally six',
      serial: 'R6',
      owner: 'a crew',
      builds: [{ id: 'b1', name: 'Refresh' }],
    },
  ],
  latestDays: [
    {
      id: 'd1',
      name: '',
      date: '2026-05-14',
      engineName: 'Rally six',
      buildName: 'Refresh',
      ladders: [
        { id: 'l1', name: 'Spark lead', setting: 'lead' },
        { id: 'l2', name: 'Lambda', setting: 'lambda' },
      ],
    },
  ],
} as unknown as ShopSummary;

describe('finding a place', () => {
  it('knows engines, builds, days and ladders', () => {
    expect(placesOf(shop).map((place) => place.to)).toEqual([
      '/engines/e1',
      '/builds/b1',
      '/days/d1',
      '/ladders/l1',
      '/ladders/l2',
      '/parts',
    ]);
  });

  it('wants every word, in any order and case', () => {
    const found = findPlaces(placesOf(shop), 'LADDER six may');
    expect(found.map((place) => place.to)).toEqual(['/ladders/l1', '/ladders/l2']);
    expect(findPlaces(placesOf(shop), 'lambda six').map((place) => place.to)).toEqual([
      '/ladders/l2',
    ]);
    expect(findPlaces(placesOf(shop), 'eight')).toEqual([]);
    const parts = [{ serial: '014', name: 'Crank', section: 'crank', builds: 2 }];
    expect(findPlaces(placesOf(shop, parts), 'crank 014')).toMatchObject([{ serial: '014' }]);
  });

  it('calls a day by its name, its date, or both', () => {
    expect(dayLabel({ name: '', date: '2026-05-14' })).toBe('14 May 2026');
    expect(dayLabel({ name: 'Spark', date: '2026-05-14' })).toBe('Spark, 14 May 2026');
    expect(dayLabel({ name: '', date: null })).toBe('Test day');
  });
});

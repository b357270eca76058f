import { describe, expect, it } from 'vitest';
import type { Pull } from '../../api/types.gen.ts';
import { COLUMNS, readNumber } from './cells.ts';

const column = (key: string) => COLUMNS.find((one) => one.key === key)!;

describe('what a person types into the table of pulls', () => {
  it('reads leads with point, comma, degree sign and word', () => {
    expect(readNumber('28')).toBe(28);
    expect(readNumber('28,5°')).toBe(28.5);
    expect(readNumber('28.5 deg')).toBe(28.5);
    expect(readNumber('−4')).toBe(-4);
    expect(readNumber('twenty')).toBeNull();
  });

  it('clears a lead with an empty cell and refuses an impossible one', () => {
    expect(column('leadDeg').meaning('')).toEqual({ patch: { leadDeg: null } });
    expect(column('leadDeg').meaning('280')).toEqual({
      trouble: '280 is outside of -20 to 80; expected degrees before top centre',
    });
  });

  it('takes knock as no, yes or a speed', () => {
    expect(column('knockHeard').meaning('no')).toEqual({ patch: { knockHeard: false } });
    expect(column('knockHeard').meaning('Yes')).toEqual({ patch: { knockHeard: true } });
    expect(column('knockHeard').meaning('5 200 rpm')).toEqual({ patch: { knockHeard: 5200 } });
    expect(column('knockHeard').meaning('loud')).toHaveProperty('trouble');
  });

  it('takes watching by its words and by its short name', () => {
    expect(column('watched').meaning('by ear')).toEqual({ patch: { watched: 'ear' } });
    expect(column('watched').meaning('sensor')).toEqual({ patch: { watched: 'sensor' } });
    expect(column('watched').meaning('radar')).toHaveProperty('trouble');
  });

  it('takes a part test as a letter, and none where the cell is emptied', () => {
    expect(column('group').meaning(' B ')).toEqual({ patch: { group: 'B' } });
    expect(column('group').meaning('')).toEqual({ patch: { group: null } });
    expect(column('group').meaning('carburettor against injection')).toHaveProperty('trouble');
    expect(column('group').text({ group: 'a' } as Pull)).toBe('a');
  });

  it('counts a pull again when its reason is emptied', () => {
    expect(column('excludedBecause').meaning(' ')).toEqual({ patch: { excludedBecause: null } });
    expect(column('excludedBecause').meaning('throttle stuck')).toEqual({
      patch: { excludedBecause: 'throttle stuck' },
    });
  });
});

import { describe, expect, it } from 'vitest';
import type { Pull } from '../../api/types.gen.ts';
import { COLUMNS, columnsOf, readNumber } from './cells.ts';

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

  it('keeps the hundredths of a lambda, and shows what is finer as it is', () => {
    expect(column('lambdaTarget').text({ lambdaTarget: 0.8 } as Pull)).toBe('0.80');
    expect(column('lambdaMeasured').text({ lambdaMeasured: 0.853 } as Pull)).toBe('0.853');
    expect(column('lambdaMeasured').text({ lambdaMeasured: null } as Pull)).toBe('');
  });

  it('takes jets in words and a load in percent, full throttle where it says nothing', () => {
    expect(column('jets').meaning(' primary 68, secondary 76 ')).toEqual({
      patch: { jets: 'primary 68, secondary 76' },
    });
    expect(column('jets').meaning('')).toEqual({ patch: { jets: null } });
    expect(column('loadPercent').meaning('60 %')).toEqual({ patch: { loadPercent: 60 } });
    for (const full of ['', 'full', '100'])
      expect(column('loadPercent').meaning(full)).toEqual({ patch: { loadPercent: null } });
    expect(column('loadPercent').meaning('half')).toHaveProperty('trouble');
    expect(column('lambdaErrorSd').meaning('1')).toHaveProperty('trouble');
  });
});

describe('the columns of a day’s table', () => {
  const none = { lambdaMeasured: null, lambdaErrorSd: null, jets: null, loadPercent: null };
  const seldom = (pulls: Parameters<typeof columnsOf>[0], stepsLambda = false, wantsAll = false) =>
    columnsOf(pulls, { stepsLambda, wantsAll })
      .map(({ key }) => key)
      .filter((key) => key in none);

  it('are those of mixture and load only where the day uses them, or somebody asks', () => {
    expect(seldom([none])).toEqual([]);
    expect(seldom([none, { ...none, jets: '68' }])).toEqual(['jets']);
    expect(seldom([none], true)).toEqual(['lambdaMeasured', 'lambdaErrorSd', 'jets']);
    expect(seldom([none], false, true)).toEqual(Object.keys(none));
  });
});

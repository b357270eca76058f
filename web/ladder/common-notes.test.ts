import { describe, expect, it } from 'vitest';
import type { Mark } from '../../src/pull/types.ts';
import { commonNotes } from './common-notes.ts';

const air = (celsius: number): Mark => ({
  kind: 'correction factor',
  severity: 'note',
  sentence: `Inlet air at ${celsius} °C is outside the 15 to 35 °C that SAE J1349 is written for.`,
});
const blip = (sizeNm: number): Mark => ({
  kind: 'blip',
  severity: 'note',
  sentence: `Torque stood ${sizeNm} N·m below the curve.`,
});

describe('what every pull of a ladder says', () => {
  it('is said once, its figures from least to greatest', () => {
    const { marks, says } = commonNotes([[air(8)], [blip(5), air(6)], [air(7)]]);
    expect(marks.map((mark) => mark.sentence)).toEqual([
      'Inlet air at 6 to 8 °C is outside the 15 to 35 °C that SAE J1349 is written for.',
    ]);
    expect([says(air(7)), says(blip(5))]).toEqual([true, false]);
  });

  it('is not what one pull does not say, nor what is of each pull alone, nor what is grave', () => {
    const grave = { ...air(8), severity: 'look again' } as const;
    expect(commonNotes([[air(8)], []]).marks).toEqual([]);
    expect(commonNotes([[blip(5)], [blip(6)]]).marks).toEqual([]);
    expect(commonNotes([[grave], [grave]]).marks).toEqual([]);
    expect(commonNotes([[air(8)]]).marks).toEqual([]);
  });

  it('says an inertia that nobody confirmed once, as something to look at again', () => {
    const inertia: Mark = {
      kind: 'inertia',
      severity: 'look again',
      sentence: 'Put back with 0.42.',
    };
    expect(commonNotes([[inertia], [inertia, blip(5)]]).marks).toEqual([
      { severity: 'look again', sentence: 'Put back with 0.42.' },
    ]);
  });
});

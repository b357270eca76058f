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
    const { sentences, says } = commonNotes([[air(8)], [blip(5), air(6)], [air(7)]]);
    expect(sentences).toEqual([
      'Inlet air at 6 to 8 °C is outside the 15 to 35 °C that SAE J1349 is written for.',
    ]);
    expect([says(air(7)), says(blip(5))]).toEqual([true, false]);
  });

  it('is not what one pull does not say, nor what is of each pull alone, nor what is grave', () => {
    const grave = { ...air(8), severity: 'look again' } as const;
    expect(commonNotes([[air(8)], []]).sentences).toEqual([]);
    expect(commonNotes([[blip(5)], [blip(6)]]).sentences).toEqual([]);
    expect(commonNotes([[grave], [grave]]).sentences).toEqual([]);
    expect(commonNotes([[air(8)]]).sentences).toEqual([]);
  });
});

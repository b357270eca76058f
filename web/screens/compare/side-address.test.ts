import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SideWanted } from '../../api/types.gen.ts';
import { bandFromText, bandToText, searchOf, sidesFromText, sidesToText } from './side-address.ts';

const id = fc.stringMatching(/^[a-z]{3,6}_[0-9a-z]{17}$/);
const word = fc.string({ minLength: 1, maxLength: 12 });
const side: fc.Arbitrary<SideWanted> = fc.oneof(
  fc.record({ kind: fc.constant('pulls' as const), pullIds: fc.array(id, { minLength: 1 }) }),
  fc.record({
    kind: fc.constant('rung' as const),
    ladderId: id,
    setting: fc.double({ min: -60, max: 60, noNaN: true }).filter((x) => !Object.is(x, -0)),
  }),
  fc.record({ kind: fc.constant('ladder' as const), ladderId: id }),
  fc.record({ kind: fc.constant('group' as const), dayId: id, group: word }),
  fc.record({ kind: fc.constant('day' as const), dayId: id }),
  fc.record({ kind: fc.constant('build' as const), buildId: id }),
  fc.record({ kind: fc.constant('left' as const), buildId: id, use: word }),
  fc.record({ kind: fc.constant('engine' as const), engineId: id }),
  fc.record({
    kind: fc.constant('paper' as const),
    name: word,
    basis: fc.constant({ air: 'SAE J1349', inertia: 'in' } as const),
    sdPercent: fc.constant(null),
    table: fc.array(
      fc.record({ speedRpm: fc.integer({ min: 500, max: 9000 }), torqueNm: fc.constant(200.5) }),
    ),
    peaks: fc.constant(null),
  }),
);

describe('the address of a comparison', () => {
  it('brings back every side that was put into it', () => {
    fc.assert(
      fc.property(fc.array(side, { maxLength: 5 }), (sides) => {
        expect(sidesFromText(sidesToText(sides))).toEqual(sides);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('passes over what is no side, whatever stands there', () => {
    expect(sidesFromText('build:b1,nonsense,rung:l1:deep,%E0,paper:{,group:d1:,day:d1')).toEqual([
      { kind: 'build', buildId: 'b1' },
      { kind: 'day', dayId: 'd1' },
    ]);
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(Array.isArray(sidesFromText(text))).toBe(true);
      }),
      { numRuns: 100, seed: 8 },
    );
    expect(searchOf({ sides: 3, band: ['x'], other: 'y' })).toEqual({});
  });

  it('holds a band only where there is one', () => {
    expect(bandFromText(bandToText([4500.4, 7000]))).toEqual([4500, 7000]);
    for (const text of ['', '7000-4500', '4500', 'a-b', undefined])
      expect(bandFromText(text)).toBeNull();
  });
});

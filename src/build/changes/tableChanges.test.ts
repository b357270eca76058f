import { describe, expect, it } from 'vitest';
import { planSentence } from '../plan/say.ts';
import { layoutOf } from '../sheet/layout.ts';
import type { SectionData, Sheet } from '../sheet/types.ts';
import { tableChanges } from './tableChanges.ts';

const sheet = (sections: Sheet['sections']): Sheet => ({
  format: 'sheet/1',
  layout: layoutOf(4),
  sections,
});
const said = (before: Sheet, after: Sheet, system: 'us' | 'metric' = 'us') =>
  tableChanges(before, after).flatMap(({ sentences }) =>
    sentences.map((parts) => planSentence({ parts }, system)),
  );

const bench = (
  rows: readonly (readonly [number, number, number])[],
  units = { lift: 'in', intake: 'ft³/min', exhaust: 'ft³/min' },
  depression = 28,
) =>
  sheet({
    heads: {
      values: { flowDepression: { value: depression, unit: 'inH2O' } },
      tables: {
        flow: { units, rows: rows.map(([lift, intake, exhaust]) => ({ lift, intake, exhaust })) },
      },
    } as SectionData,
  });
const OLD = bench([
  [0.1, 60, 50],
  [0.3, 150, 110],
  [0.5, 190, 140],
]);

describe('curves of two builds', () => {
  it('are told by where they stand higher and where lower, and where most', () => {
    const now = bench([
      [0.1, 66, 45],
      [0.3, 160, 110],
      [0.5, 210, 150],
    ]);
    expect(said(OLD, now)).toEqual([
      'Intake: higher all the way, most at lift 0.500 in: 190.0 ft³/min to 210.0 ft³/min.',
      'Exhaust: lower below lift 0.500 in, higher from there on, most at lift 0.500 in: 140.0 ft³/min to 150.0 ft³/min.',
    ]);
    expect(said(OLD, now, 'metric')[0]).toContain('lift 12.70 mm');
  });

  it('read at other lifts are compared where both were read, straight between readings', () => {
    // Both columns lie on the old line from 0.1 to 0.3 in, where the intake gains 45 and the exhaust 30 each 0.1 in.
    const same = bench([
      [0.15, 82.5, 65],
      [0.25, 127.5, 95],
    ]);
    for (const sentence of said(OLD, same)) expect(sentence).toContain('the same where both');
    const more = bench([
      [0.15, 82.5, 65],
      [0.25, 137.5, 95],
    ]);
    expect(said(OLD, more)[0]).toBe(
      'Intake: higher at 1 of 2 readings, most at lift 0.250 in: 127.5 ft³/min to 137.5 ft³/min. They were read at other places; straight between readings.',
    );
    const beyond = bench([[0.6, 200, 150]]);
    expect(said(OLD, beyond)[0]).toContain('another stretch');
  });

  it('are one where only the unit is another', () => {
    const inMillimetres = bench(
      [
        [2.54, 60, 50],
        [7.62, 150, 110],
        [12.7, 190, 140],
      ],
      { lift: 'mm', intake: 'ft³/min', exhaust: 'ft³/min' },
    );
    expect(said(OLD, inMillimetres)).toEqual([]);
    expect(said(OLD, OLD)).toEqual([]);
  });

  it('read at another depression are not laid side by side', () => {
    const at10 = bench([[0.3, 90, 66]], undefined, 10);
    expect(said(OLD, at10)[0]).toContain('10.0 inH2O in place of 28.0 inH2O');
    expect(said(OLD, sheet({}))[0]).toBe('Intake: 3 readings before, none now.');
  });
});

describe('rows with a name', () => {
  const joints = (...rows: readonly object[]) =>
    sheet({ fasteners: { tables: { joints: { units: { torque: 'lb-ft' }, rows } } } as never });

  it('are told one by one: what is new, gone and otherwise', () => {
    const before = joints(
      { joint: 'head', torque: 70, lubricant: 'oil' },
      { joint: 'rod', torque: 45 },
    );
    const after = joints(
      { joint: 'head', torque: 75, lubricant: 'moly' },
      { joint: 'main', torque: 100 },
    );
    expect(said(before, after)).toEqual([
      'head: lubricant oil to moly, torque 70.0 lb-ft to 75.0 lb-ft.',
      'rod is gone.',
      'main is new.',
    ]);
  });

  it('of one name are told apart by their order; many are counted', () => {
    const before = joints({ joint: 'head', torque: 70 }, { joint: 'head', torque: 80 });
    const after = joints({ joint: 'head', torque: 70 }, { joint: 'head', torque: 85 });
    expect(said(before, after)).toEqual(['head, 2: torque 80.0 lb-ft to 85.0 lb-ft.']);
    const many = joints(...Array.from({ length: 12 }, (_, i) => ({ joint: `bolt ${i}` })));
    expect(said(sheet({}), many).at(-1)).toBe('And 4 more rows.');
  });
});

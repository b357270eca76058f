import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoCalibrations } from '../../demo/calibrations.ts';
import { answerMeasured, calibrationDue } from '../../src/trade/calibration/index.ts';
import { draftOf, freshDraft, understood, withoutRow, withPoints, withRow } from './draft.ts';
import { dueInWords, dueWord, inShort, sensorInWords, weightsInWords } from './words.ts';

const kept = demoCalibrations().map(({ measured }) => measured);
const [weights, sensor] = [kept[0]!, kept[1]!];

describe('a calibration as it is typed', () => {
  it('gives back what is kept, whatever the units it is looked at in', () => {
    for (const measured of kept)
      for (const units of ['us', 'metric'] as const) {
        const found = understood(draftOf(measured, units));
        expect(found.missing).toBeNull();
        expect(found.measured!.points).toEqual(measured.points);
        const { answer } = found;
        if (answer?.kind !== 'dead weights' || measured.kind !== 'dead weights') continue;
        const before = answerMeasured(measured);
        expect(answer.gain).toBe(before.gain);
        expect(answer.expanded.fraction).toBeCloseTo(before.expanded.fraction, 9);
      }
  });

  it('keeps a unit that the form does not offer', () => {
    if (sensor.kind !== 'sensor') throw new Error('another kind');
    const odd = draftOf({ ...sensor, unit: 'mmHg' }, 'metric');
    expect(understood(odd).measured).toMatchObject({ unit: 'mmHg' });
  });

  it('is read in the units it was begun in, with a unit in a cell standing for that cell', () => {
    let draft = freshDraft('dead weights', 'us');
    draft = { ...draft, texts: { ...draft.texts, lengthM: '24' } };
    for (const [first, second] of [
      ['0', '0'],
      ['100', '200'],
      ['45.359237 kg', '271.16359 N·m'],
      ['0', '0.1'],
    ] as const)
      draft = withRow(draft, draft.rows.at(-1)!.key, { first, second });
    const found = understood(draft);
    expect(found.missing).toBeNull();
    if (found.measured?.kind !== 'dead weights') throw new Error('another kind');
    const { points, arm } = found.measured;
    expect(arm.lengthM).toBeCloseTo(0.6096, 12);
    expect(points.map(({ direction }) => direction)).toEqual(['up', 'up', 'up', 'down']);
    expect(points[1]!.massKg).toBe(points[2]!.massKg);
    expect(points[1]!.readingNm).toBeCloseTo(points[2]!.readingNm, 4);
    expect(draft.rows).toHaveLength(5);
  });

  it('says what is missing, and names the field or the line', () => {
    const empty = understood(freshDraft('dead weights', 'metric'));
    expect(empty).toMatchObject({ measured: null, missing: 'Arm length is needed.' });
    const begun = freshDraft('dead weights', 'metric');
    const armed = { ...begun, texts: { ...begun.texts, lengthM: '500' } };
    expect(understood(armed).missing).toMatch(/Three readings or more/);
    const odd = withRow(armed, armed.rows[0]!.key, { first: 'heavy', second: '3' });
    expect(understood(odd).rowTroubles.size).toBe(1);
    const level = withPoints(armed, [
      { massKg: 5, readingNm: 1, direction: 'up' },
      { massKg: 5, readingNm: 2, direction: 'up' },
      { massKg: 5, readingNm: 3, direction: 'up' },
    ]);
    expect(understood(level).missing).toMatch(/two places/);
    const long = { ...armed, texts: { ...armed.texts, lengthM: '20000' } };
    expect(understood(long).troubles.lengthM).toMatch(/cannot be right/);
    expect(understood(freshDraft('sensor', 'us')).missing).toBe('Sensor is needed.');
  });

  it('a line that is taken off no longer counts, and an empty one is always left to type in', () => {
    const draft = draftOf(weights, 'metric');
    const less = withoutRow(draft, draft.rows[2]!.key);
    expect(understood(less).counted).toHaveLength(weights.points.length - 1);
    const none = draft.rows.reduce((now, { key }) => withoutRow(now, key), draft);
    expect(none.rows).toHaveLength(1);
  });

  it('never breaks, whatever is typed (300 drafts)', () => {
    const text = fc.oneof(fc.string({ maxLength: 8 }), fc.double().map(String));
    const row = fc.record({ first: text, second: text });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 6 }), text, fc.boolean(), (rows, arm, isSensor) => {
        let draft = freshDraft(isSensor ? 'sensor' : 'dead weights', 'us');
        draft = { ...draft, texts: { ...draft.texts, lengthM: arm, sensor: 'Oil', unit: '°F' } };
        for (const one of rows) draft = withRow(draft, draft.rows.at(-1)!.key, one);
        const { measured, missing } = understood(draft);
        expect(measured === null).toBe(missing !== null);
      }),
      { seed: 41, numRuns: 300 },
    );
  });
});

describe('a calibration in words', () => {
  it('says what it reads wrong, within what, what hangs, and what would narrow it', () => {
    if (weights.kind !== 'dead weights' || sensor.kind !== 'sensor') throw new Error('other kinds');
    const lines = weightsInWords(answerMeasured(weights), 'us').join(' ');
    expect(lines).toMatch(/^The cell reads 0\.\d\d % too high/);
    expect(lines).toMatch(/± 0\.\d\d lb-ft \(0\.\d\d %\) at 217 lb-ft, 95 times in 100/);
    expect(lines).toMatch(/Going down it reads up to 0\.\d\d lb-ft more/);
    expect(lines).toContain('Most of that is');
    expect(sensorInWords(answerMeasured(sensor), sensor)[1]).toMatch(/within ± 0\.\d\d °C/);
    expect(inShort(answerMeasured(sensor), 'us', '°C')).toMatch(/^corrected within/);
  });

  it('due days: past, soon, far, none', () => {
    const seen = (on: string) => calibrationDue('2026-01-15', { months: 12 }, on);
    expect(dueWord(seen('2027-01-15'))).toBe('past due');
    expect(dueWord(seen('2026-12-20'))).toBe('due soon');
    expect(dueWord(seen('2026-05-20'))).toBe('holds');
    expect(dueWord(null)).toBe('no due day');
    expect(dueInWords(seen('2027-01-16'))).toBe('15 January 2027, 1 day ago');
    expect(dueInWords(seen('2027-01-15'))).toBe('15 January 2027, this day');
  });
});

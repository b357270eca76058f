import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pullsOf } from '../compared.fixture.ts';
import { drawnAlone } from '../drawn.fixture.ts';
import { drawnCurves, evenly } from '../drawn.ts';
import {
  answerUse,
  chosenUse,
  draggedUse,
  loggedUse,
  measuredPart,
  readUse,
  SHAPE_NAMES,
  shareAboveOf,
  type Use,
} from './index.ts';

const speed = evenly(2500, 7500, 61);
const level = (name: string, torque: (rpm: number) => number) =>
  drawnAlone(name, speed, speed.map(torque));
const typed = (points: readonly (readonly [number, number, number?])[]): Use => ({
  name: 'typed',
  from: 'typed',
  points: points.map(([speedRpm, share, load = 1]) => ({ speedRpm, share, load })),
  reason: '',
  notes: [],
});
const commonRpm = [2500, 7500] as const;

describe('chosen uses', () => {
  it.each(SHAPE_NAMES)(
    '%s: shares sum to one, loads are parts of full load, a reason is given',
    (name) => {
      const { points, reason } = chosenUse(name, 6000);
      expect(points.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
      for (const { load } of points) expect(load > 0 && load <= 1).toBe(true);
      expect(reason).toMatch(/no source|40 CFR/);
    },
  );

  it('marine follows the propeller of duty cycle E4 (reference: 40 CFR part 1045, appendix II)', () => {
    const { points } = chosenUse('marine', 5000);
    const loadAt = (part: number) => points.find(({ speedRpm }) => speedRpm === 5000 * part)!.load;
    // Printed to a tenth of a per cent.
    expect(Math.abs(100 * loadAt(1) - 100)).toBeLessThan(0.05);
    expect(Math.abs(100 * loadAt(0.8) - 71.6)).toBeLessThan(0.05);
    expect(Math.abs(100 * loadAt(0.6) - 46.5)).toBeLessThan(0.05);
    expect(Math.abs(100 * loadAt(0.4) - 25.3)).toBeLessThan(0.05);
  });
});

describe('builds under a use', () => {
  it('have the mean power of its points, weighed by time and load (worked by hand)', () => {
    const answer = answerUse(
      { curves: [level('a', () => 300)], commonRpm },
      typed([
        [3000, 0.5, 0.5],
        [6000, 0.5, 1],
      ]),
    );
    // (0.25 · 3000 + 0.5 · 6000) / 0.75 = 5000 rev/min at 300 N·m.
    expect(answer.builds[0]!.meanPowerW.value).toBeCloseTo((300 * 5000 * Math.PI) / 30, 6);
  });

  it('are even at the share of time where gain below and loss above balance (worked by hand)', () => {
    const a = level('a', () => 300);
    const b = level('b', (rpm) => (rpm < 4500 ? 290 : 310));
    const answer = answerUse(
      { curves: [a, b], commonRpm },
      typed([
        [3000, 0.8],
        [6000, 0.2],
      ]),
      { aboveRpm: 4500 },
    );
    const [pair] = answer.pairs;
    // Lost below: 10 · 3000 · (1 − s), gained above: 10 · 6000 · s; even at s = 1/3.
    expect(pair!.sensitivity!.evenShare!.value).toBeCloseTo(1 / 3, 6);
    expect(pair!.sensitivity!.shareNow).toBeCloseTo(0.2, 9);
    expect(pair!.gainPercent.value).toBeLessThan(0);
    expect(pair!.finding).toContain('b is the one where more than 33 % of the time');
  });

  it('dragged to a share, are what the sensitivity says at that share, measured part and all', () => {
    const curves = {
      curves: [level('a', () => 300), level('b', (rpm) => (rpm < 4500 ? 290 : 310))],
      commonRpm,
    };
    const use = typed([
      [2000, 0.3],
      [3000, 0.5],
      [6000, 0.2],
    ]);
    const itself = answerUse(curves, use, { aboveRpm: 4500 });
    const { shareNow, points } = itself.pairs[0]!.sensitivity!;
    const measured = measuredPart(use, commonRpm);
    expect(shareAboveOf(measured, 4500)).toBeCloseTo(shareNow, 9);
    for (const at of [4, 10, 17]) {
      const { shareAbove, value } = points[at]!;
      const moved = answerUse(curves, draggedUse(measured, 4500, shareAbove));
      expect(moved.pairs[0]!.gainPercent.value).toBeCloseTo(value, 9);
    }
  });

  it('are not answered for where less than half of the use was measured', () => {
    expect(() =>
      answerUse(
        { curves: [level('a', () => 300)], commonRpm },
        typed([
          [1500, 0.6],
          [3000, 0.4],
        ]),
      ),
    ).toThrow('Only 40 % of the use');
  });

  it('carry the band of the pulls: a true gain of 2 % lies inside', () => {
    const torque = (rpm: number) => 450 - 1.5e-5 * (rpm - 4800) ** 2;
    const curves = drawnCurves({
      groups: [
        { name: 'a', pulls: pullsOf(torque, [0, 2, 4, 6], 5) },
        { name: 'b', pulls: pullsOf((rpm) => 1.02 * torque(rpm), [1, 3, 5, 7], 6) },
      ],
      bandRpm: [4000, 7000],
      reference: [],
      repeatabilityPercent: null,
      calibrationRelSd: {},
      worthPercent: 0.75,
    });
    const [pair] = answerUse(curves, chosenUse('circuit', 6000)).pairs;
    expect(pair!.gainPercent.low).toBeLessThan(2);
    expect(pair!.gainPercent.high).toBeGreaterThan(2);
    expect(pair!.gainPercent.high - pair!.gainPercent.low).toBeLessThan(2);
    expect(pair!.word).toBe('real');
    expect(pair!.chanceAhead).toBeGreaterThan(0.99);
  });
});

describe('a use of one’s own', () => {
  it('typed: is set in proportion; slips are named', () => {
    const read = readUse({
      format: 'use/1',
      points: [
        { speed: '4000 rpm', share: 3 },
        { speed: '6000 rpm', share: 1, load: '50 %' },
      ],
    });
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.value.points.map(({ share }) => share)).toEqual([0.75, 0.25]);
    expect(read.value.points[1]!.load).toBe(0.5);
    const wrong = readUse({ format: 'use/1', points: [{ speed: '4000', share: 1 }] });
    expect('problems' in wrong && wrong.problems[0]!.path).toBe('points[0].speed');
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect('problems' in readUse({ format: 'use/1', points: value })).toBe(true);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it('from a log: time at high throttle by speed, pauses of the logger left out', () => {
    const timeS = Array.from({ length: 401 }, (_, i) => i * 0.1 + (i > 300 ? 500 : 0));
    // 10 s at 3000 with the throttle shut, 20 s at 5000 and 10 s at 6500 with it open.
    const speedRpm = timeS.map((_, i) => (i <= 100 ? 3000 : i <= 300 ? 5000 : 6500));
    const throttle = timeS.map((_, i) => (i <= 100 ? 0.2 : 1));
    const use = loggedUse({ name: 'drive.csv', timeS, speedRpm, throttle });
    expect(use.points.map(({ speedRpm: rpm }) => rpm)).toEqual([4050, 5050, 6550]);
    expect(use.points[1]!.share).toBeCloseTo(19.9 / 29.9, 3);
    expect(use.notes.join(' ')).toContain('Pauses');
    expect(loggedUse({ name: 'x', timeS, speedRpm, throttle: null }).notes[0]).toContain(
      'no throttle',
    );
    expect(() => loggedUse({ name: 'x', timeS, speedRpm, throttle: timeS.map(() => 0.1) })).toThrow(
      'never open',
    );
    expect(() => loggedUse({ name: 'x', timeS: [0], speedRpm: [1000], throttle: null })).toThrow();
  });
});

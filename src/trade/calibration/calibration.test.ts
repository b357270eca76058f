import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { InputError, NonPhysicalError } from '../../errors.ts';
import { findUnit, toInside } from '../../units/index.ts';
import {
  armRelativeUncertainty,
  armTorqueNm,
  calibrateTorque,
  calibrationDue,
  correctedReading,
  correctedTorqueNm,
  type DeadWeightPoint,
  lineAt,
  localGravityMPerS2,
  massForTorqueKg,
  STANDARD_GRAVITY_M_PER_S2,
  sensorAgainstReference,
  straightLine,
  torqueUncertaintyNm,
} from './index.ts';

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);

describe('straight line', () => {
  // Reference: NIST StRD Norris, certified values (itl.nist.gov/div898/strd/lls/data/Norris.shtml).
  it('meets the certified values of Norris (reference)', () => {
    const file = join(import.meta.dirname, '../../../reference/nist/norris.csv');
    const points = readFileSync(file, 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((row) => row.split(',').map(Number))
      .map(([y, x]) => ({ x: x!, y: y! }));
    const line = straightLine(points);
    expect(line.degreesOfFreedom).toBe(34);
    for (const [got, certified] of [
      [line.intercept, -0.262323073774029],
      [line.interceptSe, 0.232818234301152],
      [line.slope, 1.00211681802045],
      [line.slopeSe, 0.429796848199937e-3],
      [line.residualSd, 0.884796396144373],
      [line.rSquared, 0.999993745883712],
    ] as const)
      expect(Math.abs(got / certified - 1)).toBeLessThan(1e-10);
  });

  // Reference: JCGM 100:2008 H.3, Table H.6 (data also in GTC's example GUM_H3); results as printed there, from memory.
  it('meets the thermometer of the GUM, H.3 (reference)', () => {
    const t = [
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511,
    ];
    const b = [171, 169, 166, 159, 164, 165, 156, 157, 159, 161, 160].map((mK) => -mK / 1000);
    const line = straightLine(t.map((reading, i) => ({ x: reading - 20, y: b[i]! })));
    const printed = (value: number, expected: number, digits: number) =>
      expect(Math.abs(value - expected)).toBeLessThan(0.5 * 10 ** -digits);
    printed(line.intercept, -0.1712, 4);
    printed(line.interceptSe, 0.0029, 4);
    printed(line.slope, 0.00218, 5);
    printed(line.slopeSe, 0.00067, 5);
    printed(line.correlation, -0.93, 3);
    printed(line.residualSd, 0.0035, 4);
    const at30 = lineAt(line, 10);
    printed(at30.value, -0.1494, 4);
    printed(at30.standardUncertainty, 0.0041, 4);
  });

  it('is open at x by s √(1/n + (x − x̄)²/Sxx) (identity)', () => {
    const line = straightLine([
      { x: 1, y: 2 },
      { x: 2, y: 2.5 },
      { x: 4, y: 4.4 },
      { x: 7, y: 6.9 },
    ]);
    for (const x of [-3, 0, 3.5, 20])
      expect(lineAt(line, x).standardUncertainty).toBeCloseTo(
        line.residualSd * Math.sqrt(1 / 4 + (x - line.meanX) ** 2 / line.sumSquaresX),
        12,
      );
  });

  it('refuses two points, one place, and no numbers', () => {
    const p = { x: 1, y: 1 };
    expect(() => straightLine([p, { x: 2, y: 2 }])).toThrow(/points/);
    expect(() => straightLine([p, p, p])).toThrow(/spread/);
    expect(() => straightLine([p, { x: 2, y: Number.NaN }, { x: 3, y: 3 }])).toThrow(
      NonPhysicalError,
    );
    expect(straightLine([p, { x: 2, y: 1 }, { x: 3, y: 1 }]).rSquared).toBe(1);
  });
});

describe('the arm', () => {
  // Reference: GRS 80 normal gravity: equator 9.780 327, pole 9.832 186; 45° 9.806 20 (from memory).
  it.each([
    [0, 9.780327, 6],
    [90, 9.832186, 5],
    [-90, 9.832186, 5],
    [45, 9.8062, 5],
  ])('gravity at latitude %d is %d (reference)', (latitude, expected, digits) => {
    expect(localGravityMPerS2(latitude, 0)).toBeCloseTo(expected, digits);
  });

  it('weights 100 lb on 2 ft at standard gravity as 200 lb·ft (identity)', () => {
    const arm = { lengthM: inside(24, 'in'), gravityMPerS2: STANDARD_GRAVITY_M_PER_S2 };
    const torque = armTorqueNm(inside(100, 'lb'), arm);
    expect(torque).toBeCloseTo(inside(200, 'lb-ft'), 9);
    expect(massForTorqueKg(torque, arm)).toBeCloseTo(inside(100, 'lb'), 9);
    expect(armTorqueNm(10, { ...arm, offLevelDeg: 2.56 }) / armTorqueNm(10, arm)).toBeCloseTo(
      0.999,
      5,
    );
    expect(localGravityMPerS2(40, 1600)).toBeLessThan(localGravityMPerS2(40, 0));
  });

  it('adds its shares by squares (independent, by hand: 3-4-5)', () => {
    const arm = { massRelative: 3e-4, armLengthRelative: 4e-4, gravityRelative: 0 };
    expect(armRelativeUncertainty({ ...arm, offLevelLimitDeg: 0 })).toBeCloseTo(5e-4, 12);
    expect(armRelativeUncertainty({ ...arm, offLevelLimitDeg: 3 })).toBeGreaterThan(8e-4);
  });

  it('refuses arms that cannot be', () => {
    const arm = { lengthM: 0.5, gravityMPerS2: 9.81 };
    expect(() => armTorqueNm(10, { ...arm, offLevelDeg: 20 })).toThrow(/arm angle/);
    expect(() => armTorqueNm(10, { ...arm, gravityMPerS2: 32.2 })).toThrow(/free fall/);
    expect(() => armTorqueNm(10, { ...arm, lengthM: Number.NaN })).toThrow(/arm length/);
    expect(() => localGravityMPerS2(91, 0)).toThrow(/latitude/);
  });
});

/** A cell of known zero, gain and hysteresis, loaded 0 to 800 N·m up and down. */
function loaded(
  cell: { zero: number; gain: number; hysteresis: number; noise?: () => number },
  rounds = 1,
): DeadWeightPoint[] {
  const noise = cell.noise ?? (() => 0);
  const up = [0, 200, 400, 600, 800];
  const reading = (torque: number) => cell.zero + cell.gain * torque + noise();
  return Array.from({ length: rounds }).flatMap(() => [
    ...up.map((t) => ({ appliedNm: t, readingNm: reading(t), direction: 'up' as const })),
    ...up
      .slice(0, -1)
      .reverse()
      .map((t) => ({
        appliedNm: t,
        readingNm: reading(t) + cell.hysteresis,
        direction: 'down' as const,
      })),
  ]);
}
const PERFECT = { armRelative: 0, resolutionNm: 0 };

describe('dead weights', () => {
  it('gives a cell’s zero and gain back, without uncertainty where nothing scatters (identity)', () => {
    const got = calibrateTorque(loaded({ zero: 2, gain: 1.01, hysteresis: 0 }), PERFECT);
    expect(got.zeroNm).toBeCloseTo(2, 9);
    expect(got.gain).toBeCloseTo(1.01, 12);
    expect(correctedTorqueNm(got, 406)).toBeCloseTo(400, 9);
    expect(got.expanded.constantNm).toBeLessThan(1e-9);
    expect(got).toMatchObject({ repeatabilityNm: null, rangeNm: [0, 800] });
  });

  it('names hysteresis, return to zero and bend (independent, built in)', () => {
    const points = loaded({ zero: 0, gain: 1, hysteresis: 1.5 });
    const got = calibrateTorque(points, PERFECT);
    expect(got.hysteresisNm).toBeCloseTo(1.5, 9);
    expect(got.zeroReturnNm).toBeCloseTo(1.5, 9);
    const bent = points.map((p) => ({ ...p, readingNm: p.appliedNm + 1e-5 * p.appliedNm ** 2 }));
    // Mean of a parabola about its line over 0, 200 … 800 with the top once and the rest twice.
    expect(Math.abs(calibrateTorque(bent, PERFECT).nonLinearityNm)).toBeGreaterThan(0.5);
    expect(calibrateTorque(bent, PERFECT).hysteresisNm).toBeCloseTo(0, 9);
  });

  it('one direction only leaves hysteresis unknown', () => {
    const up = loaded({ zero: 0, gain: 1, hysteresis: 1 }).filter((p) => p.direction === 'up');
    expect(calibrateTorque(up, PERFECT)).toMatchObject({ hysteresisNm: null, zeroReturnNm: null });
  });

  it('is never below the GUM’s own figure at any torque of its range (independent)', () => {
    const generator = xoroshiro128plus(376);
    const noise = () => 2 * (uniformFloat64(generator) - 0.5);
    const got = calibrateTorque(loaded({ zero: 1, gain: 0.99, hysteresis: 0.8, noise }), PERFECT);
    for (let torque = 0; torque <= 800; torque += 50) {
      const { standardUncertainty } = lineAt(got.line, torque);
      const exact = Math.hypot(got.line.residualSd, standardUncertainty) / got.gain;
      const ours = torqueUncertaintyNm(got.standard, torque);
      expect(ours).toBeGreaterThanOrEqual(exact - 1e-12);
      expect(ours).toBeLessThan(1.6 * exact);
    }
  });

  it('holds the truth at least 95 times in 100 (independent: 1000 simulated calibrations)', () => {
    const generator = xoroshiro128plus(21940);
    // Sum of twelve uniforms: normal enough for a count.
    const noise = () => {
      let sum = -6;
      for (let i = 0; i < 12; i++) sum += uniformFloat64(generator);
      return 0.5 * sum;
    };
    let held = 0;
    for (let i = 0; i < 1000; i++) {
      const got = calibrateTorque(loaded({ zero: 1, gain: 1.02, hysteresis: 0, noise }), PERFECT);
      const truth = 800 * uniformFloat64(generator);
      const read = correctedTorqueNm(got, 1 + 1.02 * truth + noise());
      if (Math.abs(read - truth) <= torqueUncertaintyNm(got.expanded, truth)) held += 1;
    }
    expect(held / 1000).toBeGreaterThan(0.95);
    expect(held / 1000).toBeLessThan(0.995);
  });

  it('a wider arm or a coarser display makes it wider; the order of points does not matter (identity)', () => {
    const points = loaded({ zero: 0, gain: 1, hysteresis: 1 }, 2);
    const base = calibrateTorque(points, { armRelative: 1e-3, resolutionNm: 1 });
    const arm = calibrateTorque(points, { armRelative: 2e-3, resolutionNm: 1 });
    const coarse = calibrateTorque(points, { armRelative: 1e-3, resolutionNm: 5 });
    expect(arm.expanded.fraction).toBeGreaterThan(base.expanded.fraction);
    expect(coarse.expanded.constantNm).toBeGreaterThan(base.expanded.constantNm);
    expect(base.repeatabilityNm).toBeCloseTo(0, 9);
    fc.assert(
      fc.property(fc.shuffledSubarray(points, { minLength: points.length }), (mixed) => {
        const again = calibrateTorque(mixed, { armRelative: 1e-3, resolutionNm: 1 });
        expect(again.gain).toBeCloseTo(base.gain, 9);
        expect(again.hysteresisNm).toBeCloseTo(base.hysteresisNm!, 9);
        expect(again.expanded.constantNm).toBeCloseTo(base.expanded.constantNm, 6);
      }),
      { seed: 3, numRuns: 30 },
    );
  });

  it('refuses what is no calibration', () => {
    const points = loaded({ zero: 0, gain: 1, hysteresis: 0 });
    expect(() => calibrateTorque(points.slice(0, 2), PERFECT)).toThrow(/points/);
    const negative = points.map((p) => ({ ...p, readingNm: -p.readingNm }));
    expect(() => calibrateTorque(negative, PERFECT)).toThrow(/gain/);
    const below = [...points, { appliedNm: -5, readingNm: 0, direction: 'up' as const }];
    expect(() => calibrateTorque(below, PERFECT)).toThrow(/applied torque/);
  });
});

describe('a sensor beside a reference', () => {
  const ice = { reading: 0.6, reference: 0 };
  const steam = { reading: 98.6, reference: 100 };

  it('one point gives an offset, two a line through both (independent, by hand)', () => {
    expect(sensorAgainstReference([ice])).toMatchObject({ offset: -0.6, gain: 1 });
    const both = sensorAgainstReference([ice, steam]);
    expect(both.gain).toBeCloseTo(100 / 98, 12);
    expect(correctedReading(both, 98.6)).toBeCloseTo(100, 10);
    expect(correctedReading(both, 0.6)).toBeCloseTo(0, 10);
    expect(both.uncertainty).toBeNull();
  });

  it('three or more leave residuals that sum to nothing, and an uncertainty (identity)', () => {
    const points = [ice, steam, { reading: 49.9, reference: 50 }, { reading: 25.1, reference: 25 }];
    const got = sensorAgainstReference(points, 0.05);
    expect(got.residuals.reduce((sum, r) => sum + r, 0)).toBeCloseTo(0, 9);
    expect(got.uncertainty).toBeGreaterThan(Math.abs(got.largestResidual));
    expect(sensorAgainstReference(points, 1).uncertainty).toBeGreaterThan(got.uncertainty!);
  });

  it('refuses no points, one reading twice, a sensor that runs backwards', () => {
    expect(() => sensorAgainstReference([])).toThrow(/points/);
    expect(() => sensorAgainstReference([ice, ice])).toThrow(/readings/);
    expect(() => sensorAgainstReference([ice, { reading: -5, reference: 100 }])).toThrow(/gain/);
  });
});

describe('due days', () => {
  it.each([
    ['2026-05-17', { months: 12 }, '2026-11-25', '2027-05-17', 173, false],
    ['2026-01-31', { months: 1 }, '2026-02-28', '2026-02-28', 0, true],
    ['2024-01-31', { months: 1 }, '2024-02-01', '2024-02-29', 28, false],
    ['2026-10-01', { days: 30 }, '2026-11-25', '2026-10-31', -25, true],
    ['2025-12-15', { months: 2 }, '2026-01-01', '2026-02-15', 45, false],
  ] as const)('%s and %o, seen on %s: %s', (last, interval, today, dueIso, daysLeft, isDue) => {
    expect(calibrationDue(last, interval, today)).toEqual({ dueIso, daysLeft, isDue });
  });

  it('never comes earlier for a longer interval (identity)', () => {
    const day = fc.date({
      min: new Date('2000-01-01'),
      max: new Date('2080-01-01'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 60 }), (date, months) => {
        const iso = date.toISOString().slice(0, 10);
        const a = calibrationDue(iso, { months }, iso);
        const b = calibrationDue(iso, { months: months + 1 }, iso);
        expect(b.daysLeft - a.daysLeft).toBeGreaterThanOrEqual(28);
        expect(calibrationDue(iso, { months }, a.dueIso).daysLeft).toBe(0);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it('refuses texts, days and intervals that are none', () => {
    expect(() => calibrationDue('17.5.2026', { days: 1 }, '2026-01-01')).toThrow(InputError);
    expect(() => calibrationDue('2026-02-30', { days: 1 }, '2026-01-01')).toThrow(NonPhysicalError);
    expect(() => calibrationDue('2026-13-01', { days: 1 }, '2026-01-01')).toThrow(NonPhysicalError);
    expect(() => calibrationDue('2026-01-01', { months: 0 }, '2026-01-01')).toThrow(/interval/);
  });
});

import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import type { PullFit } from '../pull/types.ts';
import { pullsOf } from './compared.fixture.ts';
import { reconcile, type SidePull } from './reconcile.ts';

const { torque } = pullsOf(() => 400, [0], 1)[0]!;
const peak = { value: 400, low: 396, high: 404, unit: 'N·m', speedRpm: 4000 };

/** A fitted pull in air that J1349 corrects by 1.05 and 60F dry by 1.09. */
function pull(id: string, fit: Partial<PullFit> = {}, rate = 300, more: Partial<SidePull> = {}) {
  const whole = {
    version: 1,
    asRecorded: {
      span: { firstRow: 0, lastRow: 9, direction: 'rising', fromRpm: 2500, toRpm: 7500 },
      spline: torque,
      speedRpm: [3000],
      torqueNm: [400],
      lowNm: [396],
      highNm: [404],
      powerW: [1],
      lagS: 0,
      calibration: { doneOn: null, applied: false, relSd: 0.0025, constantSdNm: 0 },
      peakTorque: peak,
      peakPower: peak,
      derived: { bmepPa: null },
      conditions: { sweepRateRpmPerS: rate },
    },
    basis: { air: 'observed', inertia: 'in' },
    air: {
      temperatureK: null,
      pressureAbsPa: null,
      humidity: null,
      factors: { none: 1, 'SAE J1349': 1.05, 'SAE 60F dry': 1.09 },
      marks: [],
    },
    aspiration: 'natural',
    blips: [],
    pointMarks: [],
    checkMarks: [],
    ...fit,
  } as unknown as PullFit;
  const side: SidePull = {
    id,
    fit: whole,
    day: 'one',
    cell: 'cell',
    calibrationRelSd: 0.0025,
    fuel: 'gasoline',
    order: 0,
    excludedBecause: null,
    configuration: null,
    ...more,
  };
  return side;
}
const wish = { standard: 'SAE J1349' } as const;
const both = (a: SidePull, b: SidePull) =>
  reconcile(
    [
      { name: 'a', pulls: [a] },
      { name: 'b', pulls: [b] },
    ],
    wish,
  );
const coefficient = (answer: ReturnType<typeof both>, group: number) =>
  answer.groups[group]!.pulls[0]!.torque.coefficients[5]!;
const airless = {
  ...pull('x').fit.air,
  factors: { ...pull('x').fit.air.factors, 'SAE J1349': null, 'SAE 60F dry': null },
};

describe('what has to be alike before two sides are compared', () => {
  it('brings observed and corrected torque to one standard', () => {
    const answer = both(pull('one'), pull('two', { basis: { air: 'SAE 60F dry', inertia: 'in' } }));
    expect(answer.standard).toBe('SAE J1349');
    expect(coefficient(answer, 0)).toBeCloseTo(1.05 * torque.coefficients[5]!, 9);
    expect(coefficient(answer, 1)).toBeCloseTo((1.05 / 1.09) * torque.coefficients[5]!, 9);
    expect(answer.warnings).toEqual([]);
  });

  it('takes the one standard that both reach, and says so', () => {
    const answer = both(
      pull('one'),
      pull('two', { basis: { air: 'SAE 60F dry', inertia: 'in' }, air: airless }),
    );
    expect(answer.standard).toBe('SAE 60F dry');
    expect(answer.warnings.join(' ')).toContain('Compared in SAE 60F dry and not in SAE J1349');
  });

  it('compares a boosted engine as observed', () => {
    const answer = both(pull('one'), pull('two', { aspiration: 'boosted' }));
    expect(answer.standard).toBe('none');
    expect(answer.warnings.join(' ')).toContain('boosted');
  });

  it.each<[string, Partial<PullFit>, RegExp]>([
    ['air unknown', { basis: { air: 'unknown', inertia: 'in' } }, /observed or corrected/],
    ['inertia out', { basis: { air: 'observed', inertia: 'out' } }, /Inertia is out/],
    ['inertia unknown', { basis: { air: 'observed', inertia: 'unknown' } }, /whether inertia/],
  ])('refuses %s against what is known', (_, fit, why) => {
    expect(() => both(pull('one'), pull('two', fit))).toThrow(InputError);
    expect(() => both(pull('one'), pull('two', fit))).toThrow(why);
  });

  it('says where to answer: in the shop for a pull of it, in the file for one of a file', () => {
    const out: Partial<PullFit> = { basis: { air: 'observed', inertia: 'out' } };
    expect(() => both(pull('one'), pull('two', out))).toThrow(/"inertia".* in its session file\.$/);
    const ofShop = { ...pull('two', out), cellName: 'Cell 1' };
    expect(() => both(pull('one'), ofShop)).toThrow(/on the page of its day/);
    expect(() => both(pull('one'), ofShop)).not.toThrow(/file/);
  });

  it('warns where the basis is unknown on both sides', () => {
    const unknown: Partial<PullFit> = { basis: { air: 'unknown', inertia: 'unknown' } };
    const { warnings } = both(pull('one', unknown), pull('two', unknown));
    expect(warnings.join(' ')).toMatch(/inertia.*weather/);
    expect(warnings).toHaveLength(2);
  });

  it('warns of sweeps a third faster, another cell, calibration and fuel', () => {
    const other = { cell: 'other', calibrationRelSd: 0.01, fuel: 'methanol' };
    const { warnings } = both(pull('one', {}, 300), pull('two', {}, 420, other));
    expect(warnings).toHaveLength(4);
    expect(warnings.join(' ')).toContain('300 against 420 rev/min per second');
    expect(both(pull('one', {}, 300), pull('two', {}, 390)).warnings).toEqual([]);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import {
  chokedFlowKgPerS,
  criticalPressureRatio,
  effectiveAreaForFlowM2,
  flowFunction,
  gasDensityKgPerM3,
  passageAt,
  restrictionFlowKgPerS,
  soundMPerS,
} from './index.ts';

const room = { pressureAbsPa: 101_325, temperatureK: 300 };

describe('compressible flow through a restriction', () => {
  // reference: Aeronautical Engineer Data Book, table A4.1/A4.2 (γ = 7/5): M, p/p₀, A/A* as printed; the first four from
  // a textbook's appendix "Compressible Flow Tables for an Ideal Gas with k = 1.4" (NACA TN 1592 has the same).
  it.each([
    [0.1, 0.993, 5.8218],
    [0.5, 0.843, 1.3398],
    [0.6, 0.784, 1.1882],
    [0.82, 0.643, 1.0305],
    [0.87, 0.6106, 1.0153],
    [0.9, 0.5913, 1.0089],
    [1, 0.5283, 1],
  ])('at M = %s has the printed pressure and area ratio', (mach, pressure, area) => {
    const ratio = (1 + 0.2 * mach ** 2) ** -3.5;
    expect(Math.abs(ratio - pressure)).toBeLessThan(0.5001e-4);
    const starOverArea = flowFunction(ratio) / flowFunction(0);
    expect(Math.abs(1 / starOverArea - area)).toBeLessThan(0.5001e-4);
  });

  it('chokes at 0.5283 for γ 1.4 (the same table) and at 0.54 for 1.33', () => {
    expect(Math.abs(criticalPressureRatio() - 0.5283)).toBeLessThan(0.5e-4);
    expect(criticalPressureRatio(1.33)).toBeCloseTo(0.5404, 4);
  });

  it('passes what 40 CFR 1066.630(b) works out for a subsonic venturi', () => {
    // reference: C_d 0.890, C_f 0.472, A_t 0.01824 m², 98.496 kPa, 296.85 K, 28.7789 g/mol → 2.155 m³/s at 293.15 K and
    // 101.325 kPa. C_f is our flow function, its printed digits leave 0.1 %.
    const gas = { heatRatio: 1.399, gasConstantJPerKgK: 8.314472 / 0.0287789 };
    const upstream = { pressureAbsPa: 98_496, temperatureK: 296.85, gas };
    let [low, high] = [0.55, 1];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (flowFunction(middle, gas.heatRatio) > 0.472) low = middle;
      else high = middle;
    }
    const flow = restrictionFlowKgPerS(upstream, 98_496 * low, 0.89 * 0.01824);
    expect(flow / gasDensityKgPerM3(101_325, 293.15, gas) / 2.155).toBeGreaterThan(0.9985);
    expect(flow / gasDensityKgPerM3(101_325, 293.15, gas) / 2.155).toBeLessThan(1.0015);
  });

  // independent: worked by hand for 1000 mm² with R = 287 J/(kg K).
  it.each([
    [0.9, 0.14592],
    [0.8, 0.1936],
    [0.7, 0.22042],
    [0.5, 0.23645],
    [0, 0.23645],
  ])('to a pressure ratio of %s passes %s kg/s', (ratio, expected) => {
    const upstream = { ...room, gas: { heatRatio: 1.4, gasConstantJPerKgK: 287 } };
    expect(restrictionFlowKgPerS(upstream, ratio * 101_325, 1e-3)).toBeCloseTo(expected, 4);
  });

  it('is Bernoulli where little pressure is lost (limit)', () => {
    const density = gasDensityKgPerM3(101_325, 300);
    const flow = restrictionFlowKgPerS(room, 101_325 - 50, 1e-3);
    expect(flow / (1e-3 * Math.sqrt(2 * density * 50))).toBeCloseTo(1, 3);
  });

  it('goes with area, and with pressure and temperature as similarity says (identity)', () => {
    const one = restrictionFlowKgPerS(room, 90_000, 1e-3);
    expect(restrictionFlowKgPerS(room, 90_000, 3e-3)).toBeCloseTo(3 * one, 12);
    const twice = { pressureAbsPa: 202_650, temperatureK: 1200 };
    expect(restrictionFlowKgPerS(twice, 180_000, 1e-3)).toBeCloseTo(one, 12);
  });

  it('falls as the pressure behind rises, never steps at the critical ratio (property)', () => {
    const pressure = fc.double({ min: 0, max: 101_325, noNaN: true });
    fc.assert(
      fc.property(pressure, pressure, (one, other) => {
        const [low, high] = one < other ? [one, other] : [other, one];
        expect(restrictionFlowKgPerS(room, low, 1e-3)).toBeGreaterThanOrEqual(
          restrictionFlowKgPerS(room, high, 1e-3) - 1e-12,
        );
      }),
      { seed: 11, numRuns: 300 },
    );
    const critical = criticalPressureRatio();
    expect(flowFunction(critical + 1e-9)).toBeCloseTo(flowFunction(critical - 1e-9), 9);
  });

  it('turns round: drop from flow, area from flow (identity)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.999, noNaN: true }), (share) => {
        const demand = share * chokedFlowKgPerS(room, 1.5e-3);
        const passage = passageAt(room, 1.5e-3, demand);
        if (passage.state !== 'flows') throw new Error('it should flow');
        expect(
          restrictionFlowKgPerS(room, passage.downstreamPressureAbsPa, 1.5e-3) / demand,
        ).toBeCloseTo(1, 9);
        expect(passage.pressureDropPa + passage.downstreamPressureAbsPa).toBeCloseTo(101_325, 6);
        expect(
          effectiveAreaForFlowM2(room, passage.downstreamPressureAbsPa, demand) / 1.5e-3,
        ).toBeCloseTo(1, 9);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it('says what passes at most where the demand is more', () => {
    const greatest = chokedFlowKgPerS(room, 1e-3);
    expect(passageAt(room, 1e-3, 1.01 * greatest)).toEqual({
      state: 'chokes',
      greatestFlowKgPerS: greatest,
    });
    expect(passageAt(room, 1e-3, greatest).state).toBe('flows');
    const still = passageAt(room, 1e-3, 0);
    expect(still.state === 'flows' && still.pressureDropPa).toBe(0);
  });

  it('refuses what cannot be, by name', () => {
    expect(() => restrictionFlowKgPerS(room, 110_000, 1e-3)).toThrow(/pressure ratio/);
    expect(() => restrictionFlowKgPerS({ ...room, temperatureK: -1 }, 9e4, 1e-3)).toThrow(
      /upstream temperature: -1 K/,
    );
    expect(() => passageAt(room, 0, 0.1)).toThrow(/effective area: 0/);
    expect(() => passageAt(room, 1e-3, Number.NaN)).toThrow(NonPhysicalError);
    expect(() => effectiveAreaForFlowM2(room, 101_325, 0.1)).toThrow(/pressure drop/);
    expect(() => flowFunction(0.9, 1)).toThrow(/ratio of specific heats/);
  });
});

describe('the speed of sound', () => {
  it('is 340.294 m/s in the standard atmosphere', () => {
    // reference: ISO 2533 / U.S. Standard Atmosphere 1976 at 288.15 K (from memory). R 287.053 there, 287.05 here.
    expect(Math.abs(soundMPerS(288.15) - 340.294)).toBeLessThan(0.005);
    expect(() => soundMPerS(0)).toThrow(/temperature: 0 K/);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import {
  afrFromLambda,
  airFlowForPowerKgPerS,
  bsfcByAirKgPerJ,
  bsfcByHeatingValueKgPerJ,
  chargeCoolingUpperBoundK,
  energyPerAirJPerKg,
  equivalenceRatioFromAfr,
  equivalenceRatioFromLambda,
  fuelFlowForAirKgPerS,
  fuelFlowForPowerKgPerS,
  fuelNamed,
  fuelUseLPerH,
  lambdaFromAfr,
  lambdaFromEquivalenceRatio,
  stoichiometricMixtureJPerKg,
} from './index.ts';

const BTU_PER_LB = 2326;
const LB_PER_HP_H = 0.45359237 / (745.69987158 * 3600); // kg/J
const seed = { seed: 20_260_318, numRuns: 300 };

describe('mixtures', () => {
  it('turns air to fuel into lambda and equivalence ratio and back (identity)', () => {
    const fuel = fuelNamed('methanol');
    expect(lambdaFromAfr(fuel.stoichiometricAfr, fuel)).toBe(1);
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 40, noNaN: true }), (afr) => {
        const lambda = lambdaFromAfr(afr, fuel);
        expect(afrFromLambda(lambda, fuel) / afr).toBeCloseTo(1, 12);
        expect(equivalenceRatioFromAfr(afr, fuel) * lambda).toBeCloseTo(1, 12);
        expect(lambdaFromEquivalenceRatio(equivalenceRatioFromLambda(lambda)) / lambda).toBeCloseTo(
          1,
          12,
        );
      }),
      seed,
    );
    expect(() => equivalenceRatioFromLambda(0)).toThrow(/lambda: 0/);
  });

  // reference: AFDC, "Fuel in liquid state, Btu/lb of air": ethanol 1,280 (from its 11,500 Btu/lb and 9), gasoline 1,290
  // (19,000 and 14.7).
  it.each([
    ['ethanol', 11_500, 9, 1280],
    ['gasoline', 19_000, 14.7, 1290],
  ])('%s releases the printed heat per pound of air', (name, btu, afr, printed) => {
    const fuel = {
      ...fuelNamed(name),
      lowerHeatingJPerKg: btu * BTU_PER_LB,
      stoichiometricAfr: afr,
    };
    expect(Math.abs(energyPerAirJPerKg(fuel) / BTU_PER_LB - printed)).toBeLessThan(5);
    // Per kilogram of mixture there is 1/(1 + 1/AFR) of the air.
    expect(stoichiometricMixtureJPerKg(fuel)).toBeCloseTo(
      energyPerAirJPerKg(fuel) / (1 + 1 / afr),
      3,
    );
  });

  // reference: AFDC, "Latent heat, Btu/lb air for stoichiometric mixture @ 60 F": methanol 78.4, ethanol 44, MTBE 11.8,
  // gasoline ≈10. The bound is that heat over 0.24 Btu/(lb °F), the heat capacity of air.
  it.each([
    ['methanol', 78.4, 0.5],
    ['ethanol', 44, 0.5],
    ['MTBE', 11.8, 0.11],
    ['gasoline', 10, 0.5],
  ])('%s cools by what the printed heat takes', (name, printed, tolerance) => {
    const bound = chargeCoolingUpperBoundK(fuelNamed(name))!;
    expect(Math.abs((bound * 1005) / BTU_PER_LB - printed)).toBeLessThan(tolerance);
  });

  it('cools most when rich, not at all where nothing evaporates, and says nothing of gases', () => {
    const methanol = fuelNamed('methanol');
    expect(chargeCoolingUpperBoundK(methanol)).toBeCloseTo(181, 0);
    expect(chargeCoolingUpperBoundK(methanol, 0.7)!).toBeGreaterThan(
      chargeCoolingUpperBoundK(methanol, 0.8)!,
    );
    expect(chargeCoolingUpperBoundK(methanol, 1, 0)).toBe(0);
    expect(chargeCoolingUpperBoundK(fuelNamed('methane'))).toBeUndefined();
    expect(() => chargeCoolingUpperBoundK(methanol, 1, 1.2)).toThrow(/evaporated share: 1.2/);
  });
});

describe('demand', () => {
  it('500 hp at 0.50 lb/(hp h) is 250 lb/h, near 153 L/h of gasoline at 0.74 kg/L', () => {
    // reference: worked by hand in the trade's units; 250 lb = 113.398 kg.
    const flow = fuelFlowForPowerKgPerS(500 * 745.69987158, 0.5 * LB_PER_HP_H);
    expect(flow * 3600).toBeCloseTo(113.398, 3);
    expect(fuelUseLPerH(flow, { ...fuelNamed('gasoline'), densityKgPerM3: 740 })).toBeCloseTo(
      153.2,
      1,
    );
  });

  it('200 hp at 0.5 lb/(hp h) and 1380 lb/h of air burns 13.8 to one', () => {
    // reference: sdsefi.com/techform.htm works this example: 300 scfm, 1380 lb/h, 100 lb/h, 13.8.
    const air = (1380 * 0.45359237) / 3600;
    const flow = fuelFlowForPowerKgPerS(200 * 745.69987158, 0.5 * LB_PER_HP_H);
    const use = { fuel: fuelNamed('gasoline'), lambda: lambdaFromAfr(13.8, fuelNamed('gasoline')) };
    expect(fuelFlowForAirKgPerS(air, use)).toBeCloseTo(flow, 9);
    expect(airFlowForPowerKgPerS(200 * 745.69987158, 0.5 * LB_PER_HP_H, use)).toBeCloseTo(air, 9);
  });

  it('methanol asks 2.16 times the mass by heat, 2.2 to 2.3 times and more by air', () => {
    // reference: 18676/8637 = 2.162 from AFDC; "methanol ≈ 2.2 to 2.3 ×" is common practice at like mixture.
    const [petrol, methanol] = [fuelNamed('gasoline'), fuelNamed('methanol')];
    expect(bsfcByHeatingValueKgPerJ(8e-8, petrol, methanol) / 8e-8).toBeCloseTo(2.162, 3);
    const byAir = bsfcByAirKgPerJ(
      8e-8,
      { fuel: petrol, lambda: 0.87 },
      { fuel: methanol, lambda: 0.87 },
    );
    expect(byAir / 8e-8).toBeGreaterThan(2.2);
    expect(byAir / 8e-8).toBeLessThan(2.3);
    const rich = bsfcByAirKgPerJ(
      8e-8,
      { fuel: petrol, lambda: 0.87 },
      { fuel: methanol, lambda: 0.75 },
    );
    expect(rich).toBeGreaterThan(byAir);
  });

  it('refuses what cannot be', () => {
    expect(() => fuelFlowForPowerKgPerS(-1, 8e-8)).toThrow(/invalid power: -1 W/);
    expect(() => fuelFlowForPowerKgPerS(1e5, Number.NaN)).toThrow(/specific consumption/);
    expect(() => fuelUseLPerH(0, fuelNamed('gasoline'))).toThrow(NonPhysicalError);
  });
});

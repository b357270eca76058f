import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import {
  afrFromLambda,
  blend,
  findFuel,
  fuelNamed,
  lambdaFromAfr,
  stoichiometricAfr,
} from './index.ts';

describe('fuels', () => {
  // From the elements; the AFDC table prints 9.0 for ethanol, a published note 6.45 and 1.7 for methanol and nitromethane.
  it.each([
    ['n-heptane', { carbon: 7, hydrogen: 16 }, 15.18],
    ['isooctane', { carbon: 8, hydrogen: 18 }, 15.13],
    ['toluene', { carbon: 7, hydrogen: 8 }, 13.5],
    ['ethanol', { carbon: 2, hydrogen: 6, oxygen: 1 }, 9.0],
    ['methanol', { carbon: 1, hydrogen: 4, oxygen: 1 }, 6.47],
    ['nitromethane', { carbon: 1, hydrogen: 3, oxygen: 2, nitrogen: 1 }, 1.7],
    ['propane', { carbon: 3, hydrogen: 8 }, 15.68],
    ['methane', { carbon: 1, hydrogen: 4 }, 17.24],
  ])('%s burns with %s', (_name, molecule, expected) => {
    expect(Math.abs(stoichiometricAfr(molecule) - expected)).toBeLessThan(0.0105);
  });

  it('blends by mass as worked by hand: E10 14.10, E85 9.80 with the same inputs', () => {
    // Inputs of the worked example: densities 745 and 789, ratios 14.7 and 8.98, 43.4 and 26.8 MJ/kg.
    const gasoline = { ...fuelNamed('gasoline'), lowerHeatingJPerKg: 43.4e6 };
    const ethanol = {
      ...fuelNamed('ethanol'),
      stoichiometricAfr: 8.98,
      lowerHeatingJPerKg: 26.8e6,
    };
    const e10 = blend('e10', [
      [gasoline, 0.9],
      [ethanol, 0.1],
    ]);
    const e85 = blend('e85', [
      [gasoline, 0.15],
      [ethanol, 0.85],
    ]);
    expect(e10.stoichiometricAfr).toBeCloseTo(14.1, 2);
    expect(e85.stoichiometricAfr).toBeCloseTo(9.8, 2);
    expect(e10.lowerHeatingJPerKg / 1e6).toBeCloseTo(41.65, 2);
    expect(e85.lowerHeatingJPerKg / 1e6).toBeCloseTo(29.17, 2);
    expect(() => blend('x', [[gasoline, 0.9]])).toThrow(InputError);
  });

  it('is found by the names people use, and by no other', () => {
    expect(findFuel(' Petrol ')?.name).toBe('gasoline');
    expect(findFuel('e85')?.stoichiometricAfr).toBeCloseTo(9.8, 1);
    expect(findFuel('constructor')).toBeUndefined();
    expect(() => fuelNamed('unobtanium')).toThrow(
      /unknown fuel: "unobtanium"; expected one of gasoline/,
    );
  });

  it('turns air to fuel into lambda and back (identity)', () => {
    const fuel = fuelNamed('methanol');
    expect(lambdaFromAfr(fuel.stoichiometricAfr, fuel)).toBe(1);
    expect(afrFromLambda(lambdaFromAfr(5.1, fuel), fuel)).toBeCloseTo(5.1, 12);
  });
});

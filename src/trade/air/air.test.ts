import { describe, expect, it } from 'vitest';
import { InputError, NonPhysicalError } from '../../errors.ts';
import {
  densityAltitudeM,
  grainsPerPound,
  humidityRatio,
  humidityRatioFromGrains,
  moistAirDensityCipm2007KgPerM3,
  moistAirDensityKgPerM3,
  saturationPressureBuck1981Pa,
  saturationPressureMagnusPa,
  saturationPressureOverWaterPa,
  saturationPressurePa,
  standardAtmosphere,
  TRIPLE_POINT_K,
  vapourPressureFromDewPointPa,
  vapourPressureFromHumidityPa,
  vapourPressureFromHumidityRatioPa,
  vapourPressureFromWetBulbPa,
} from '../index.ts';

const K = (celsius: number) => celsius + 273.15;

describe('saturation pressure', () => {
  // ASHRAE Fundamentals 2017 ch. 1 table 3, as cited by psychrolib's tests (S15); ASHRAE claims 300 ppm for the formula.
  it.each([
    [5, 872.6],
    [25, 3169.7],
    [50, 12351.3],
    [100, 101418],
  ])('at %d °C is within 300 ppm of the table’s %d Pa', (celsius, printed) => {
    expect(Math.abs(saturationPressurePa(K(celsius)) / printed - 1)).toBeLessThan(3e-4);
  });

  // Computed from the formulae as printed: arithmetic only.
  it.each([
    [5, 872.49, 872.37, 871.74],
    [15, 1705.45, 1704.57, 1701.67],
    [20, 2338.8, 2337.28, 2332.6],
    [25, 3169.22, 3167.03, 3160.06],
    [30, 4246.03, 4243.51, 4233.72],
    [40, 7383.46, 7384.18, 7367.46],
    [50, 12349.86, 12369.23, 12345.16],
  ])('at %d °C: Hyland-Wexler, Buck, Magnus', (celsius, hylandWexler, buck, magnus) => {
    expect(Math.abs(saturationPressurePa(K(celsius)) - hylandWexler)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(saturationPressureBuck1981Pa(K(celsius)) - buck)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(saturationPressureMagnusPa(K(celsius)) - magnus)).toBeLessThanOrEqual(0.006);
  });

  it('passes the triple point (611.657 Pa) without a step, and lies lower over ice', () => {
    expect(saturationPressurePa(TRIPLE_POINT_K)).toBeCloseTo(611.657, 0);
    const step = saturationPressurePa(TRIPLE_POINT_K + 1e-9) - saturationPressurePa(TRIPLE_POINT_K);
    expect(Math.abs(step)).toBeLessThan(0.1);
    expect(saturationPressurePa(K(-10))).toBeLessThan(saturationPressureOverWaterPa(K(-10)));
  });

  it('refuses what is no temperature of air', () => {
    expect(() => saturationPressurePa(Number.NaN)).toThrow(InputError);
    expect(() => saturationPressurePa(25)).toThrow(NonPhysicalError);
  });
});

describe('vapour pressure', () => {
  it('from a wet bulb: 958 hPa, 25/12 °C gives 627.52 Pa (documented example, S20)', () => {
    const vapourPressurePa = vapourPressureFromWetBulbPa({
      pressureAbsPa: 95_800,
      temperatureK: K(25),
      wetBulbK: K(12),
    });
    // That source takes another saturation formula; they differ by 0.12 % of 1403 Pa at 12 °C.
    expect(Math.abs(vapourPressurePa - 627.52)).toBeLessThan(0.0015 * saturationPressurePa(K(12)));
  });

  it('goes there and back through humidity ratio and grains (identity)', () => {
    for (const vapourPressurePa of [0, 700, 4000]) {
      const ratio = humidityRatio(98_000, vapourPressurePa);
      expect(vapourPressureFromHumidityRatioPa(98_000, ratio)).toBeCloseTo(vapourPressurePa, 8);
      expect(humidityRatioFromGrains(grainsPerPound(ratio))).toBeCloseTo(ratio, 15);
    }
  });

  it('gives 69.2 and 112.3 grains a pound at 25 °C/50 % and 30 °C/60 %', () => {
    const grains = (celsius: number, humidity: number) =>
      grainsPerPound(humidityRatio(101_325, vapourPressureFromHumidityPa(K(celsius), humidity)));
    expect(grains(25, 0.5)).toBeCloseTo(69.2, 1);
    expect(grains(30, 0.6)).toBeCloseTo(112.3, 1);
  });

  it('3169.7 Pa at 95461 Pa is 0.0213604 kg/kg (ASHRAE via psychrolib’s tests, S15)', () => {
    expect(humidityRatio(95_461, 3169.7)).toBeCloseTo(0.0213604, 7);
  });

  it('at a dew point is saturation there', () => {
    expect(vapourPressureFromDewPointPa(K(12))).toBe(saturationPressurePa(K(12)));
  });

  it('refuses what cannot be', () => {
    expect(() => vapourPressureFromHumidityPa(K(20), 45)).toThrow(/0 to 1/);
    expect(() =>
      vapourPressureFromWetBulbPa({ pressureAbsPa: 1e5, temperatureK: K(20), wetBulbK: K(21) }),
    ).toThrow(NonPhysicalError);
    expect(() =>
      vapourPressureFromWetBulbPa({ pressureAbsPa: 1e5, temperatureK: K(45), wetBulbK: K(5) }),
    ).toThrow(/less than no vapour/);
    expect(() => humidityRatio(1000, 2000)).toThrow(NonPhysicalError);
    expect(() => vapourPressureFromHumidityRatioPa(1e5, -1)).toThrow(NonPhysicalError);
  });
});

describe('density of moist air', () => {
  // Both equations computed as printed; the independent check is one against the other.
  it.each([
    [20, 101_325, 0.5, 1.19931, 1.19887],
    [15, 101_325, 0, 1.22552, 1.22501],
    [25, 99_000, 0, 1.15712, 1.15676],
    [30, 95_000, 0.6, 1.08095, 1.08065],
  ])('%d °C, %d Pa, RH %d', (celsius, pressureAbsPa, humidity, cipm, ideal) => {
    const vapourPressurePa = vapourPressureFromHumidityPa(K(celsius), humidity);
    const mix = moistAirDensityKgPerM3({
      pressureAbsPa,
      temperatureK: K(celsius),
      vapourPressurePa,
    });
    const metrologist = moistAirDensityCipm2007KgPerM3(pressureAbsPa, K(celsius), humidity);
    expect(Math.abs(mix - ideal)).toBeLessThan(6e-6);
    expect(Math.abs(metrologist - cipm)).toBeLessThan(6e-6);
    expect(mix / metrologist - 1).toBeGreaterThan(-5e-4);
    expect(mix / metrologist - 1).toBeLessThan(-2e-4);
  });

  it('refuses more vapour than air', () => {
    expect(() =>
      moistAirDensityKgPerM3({ pressureAbsPa: 1e4, temperatureK: 300, vapourPressurePa: 2e4 }),
    ).toThrow(NonPhysicalError);
  });
});

describe('the standard atmosphere', () => {
  // ASHRAE Fundamentals 2017 ch. 1 table 1, as cited by psychrolib's tests (S15).
  it.each([
    [-500, 107_478],
    [0, 101_325],
    [500, 95_461],
    [1000, 89_875],
    [4000, 61_640],
  ])('at %d m has %d Pa', (altitudeM, printed) => {
    expect(Math.abs(standardAtmosphere(altitudeM).pressureAbsPa / printed - 1)).toBeLessThan(3e-5);
  });

  it('turns a density back into its altitude (identity)', () => {
    for (const altitudeM of [-300, 0, 800, 3000]) {
      const { pressureAbsPa, temperatureK } = standardAtmosphere(altitudeM);
      // The 1976 atmosphere's own gas constant is 287.053: 8 ppm of 1.225 is 0.8 m.
      const density = moistAirDensityKgPerM3({ pressureAbsPa, temperatureK, vapourPressurePa: 0 });
      expect(Math.abs(densityAltitudeM(density) - altitudeM)).toBeLessThan(1.5);
    }
  });

  it('30 °C, 950 hPa, 50 % is 1267 m; 25 °C, 990 hPa dry is 590 m (density by CIPM-2007)', () => {
    const humid = moistAirDensityCipm2007KgPerM3(95_000, K(30), 0.5);
    expect(Math.abs(densityAltitudeM(humid) - 1267)).toBeLessThan(0.6);
    const dry = moistAirDensityCipm2007KgPerM3(99_000, K(25), 0);
    expect(Math.abs(densityAltitudeM(dry) - 590)).toBeLessThan(0.6);
  });
});

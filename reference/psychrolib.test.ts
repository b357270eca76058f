import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import {
  humidityRatio,
  moistAirDensityKgPerM3,
  saturationPressurePa,
  standardAtmosphere,
  vapourPressureFromHumidityPa,
  vapourPressureFromHumidityRatioPa,
  vapourPressureFromWetBulbPa,
} from '../src/trade/index.ts';

/** Independent: psychrolib 1.1.1 (npm), after ASHRAE Handbook Fundamentals 2017 chapter 1. */
interface Psychrolib {
  readonly SI: number;
  SetUnitSystem(system: number): void;
  GetSatVapPres(celsius: number): number;
  GetVapPresFromRelHum(celsius: number, humidity: number): number;
  GetHumRatioFromRelHum(celsius: number, humidity: number, pressurePa: number): number;
  GetVapPresFromHumRatio(ratio: number, pressurePa: number): number;
  GetMoistAirDensity(celsius: number, ratio: number, pressurePa: number): number;
  GetHumRatioFromTWetBulb(celsius: number, wetBulb: number, pressurePa: number): number;
  GetStandardAtmPressure(altitudeM: number): number;
}
const psychrolib = createRequire(import.meta.url)('psychrolib') as Psychrolib;
psychrolib.SetUnitSystem(psychrolib.SI);

const celsius = Array.from({ length: 121 }, (_, index) => -10 + index * 0.5);
const humidities = [0.01, 0.25, 0.5, 0.75, 1];
const pressures = [85_000, 95_461, 101_325, 105_000];
const apart = (ours: number, theirs: number) => Math.abs(ours / theirs - 1);

describe('humid air against psychrolib over −10 to 50 °C', () => {
  it('saturation pressure, ice and water, agrees to 1e-12', () => {
    for (const t of celsius)
      expect(
        apart(saturationPressurePa(t + 273.15), psychrolib.GetSatVapPres(t)),
        `${t} °C`,
      ).toBeLessThan(1e-12);
  });

  it('vapour pressure from relative humidity agrees to 1e-12', () => {
    for (const t of celsius)
      for (const humidity of humidities)
        expect(
          apart(
            vapourPressureFromHumidityPa(t + 273.15, humidity),
            psychrolib.GetVapPresFromRelHum(t, humidity),
          ),
          `${t} °C, ${humidity}`,
        ).toBeLessThan(1e-12);
  });

  it('humidity ratio and the way back agree to 1e-12', () => {
    for (const t of celsius)
      for (const humidity of humidities)
        for (const pressurePa of pressures) {
          const theirs = psychrolib.GetHumRatioFromRelHum(t, humidity, pressurePa);
          const ours = humidityRatio(
            pressurePa,
            vapourPressureFromHumidityPa(t + 273.15, humidity),
          );
          expect(apart(ours, theirs)).toBeLessThan(1e-12);
          expect(
            apart(
              vapourPressureFromHumidityRatioPa(pressurePa, ours),
              psychrolib.GetVapPresFromHumRatio(theirs, pressurePa),
            ),
          ).toBeLessThan(1e-12);
        }
  });

  it('wet bulb: the psychrometer equation follows the adiabatic saturation that ASHRAE computes', () => {
    const oursAt = (t: number, wetBulb: number, pressureAbsPa: number) =>
      humidityRatio(
        pressureAbsPa,
        vapourPressureFromWetBulbPa({
          pressureAbsPa,
          temperatureK: t + 273.15,
          wetBulbK: wetBulb + 273.15,
        }),
      );
    // ASHRAE's own figure: 30 °C, wet bulb 25 °C, 95461 Pa → 0.0192281 kg/kg, to 3e-4 (psychrolib's tests, SI).
    expect(apart(psychrolib.GetHumRatioFromTWetBulb(30, 25, 95_461), 0.0192281)).toBeLessThan(3e-4);
    for (const [t, wetBulb] of [
      [15, 10],
      [20, 15],
      [25, 18],
      [30, 25],
      [38, 24],
    ] as const)
      for (const pressurePa of pressures) {
        const theirs = psychrolib.GetHumRatioFromTWetBulb(t, wetBulb, pressurePa);
        // A real psychrometer is not quite an adiabatic saturator: its coefficient is measured, theirs derived.
        // 0.0005 kg/kg is 80 Pa of vapour, 0.08 % of power.
        expect(Math.abs(oursAt(t, wetBulb, pressurePa) - theirs), `${t}/${wetBulb}`).toBeLessThan(
          5e-4,
        );
      }
  });

  it('density agrees to 5e-5: ASHRAE rounds its gas constant and 1.607858', () => {
    for (const t of celsius)
      for (const humidity of humidities)
        for (const pressureAbsPa of pressures) {
          const vapourPressurePa = vapourPressureFromHumidityPa(t + 273.15, humidity);
          const ours = moistAirDensityKgPerM3({
            pressureAbsPa,
            temperatureK: t + 273.15,
            vapourPressurePa,
          });
          const theirs = psychrolib.GetMoistAirDensity(
            t,
            humidityRatio(pressureAbsPa, vapourPressurePa),
            pressureAbsPa,
          );
          expect(apart(ours, theirs)).toBeLessThan(5e-5);
        }
  });

  it('standard atmosphere agrees to 1e-4 up to 5000 m: ASHRAE rounds 0.0065/288.15 to 2.25577e-5', () => {
    for (let altitudeM = -500; altitudeM <= 5000; altitudeM += 250)
      expect(
        apart(
          standardAtmosphere(altitudeM).pressureAbsPa,
          psychrolib.GetStandardAtmPressure(altitudeM),
        ),
      ).toBeLessThan(1e-4);
  });
});

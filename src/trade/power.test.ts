import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { findUnit, fromInside, toInside } from '../units/index.ts';
import {
  airFlowFromFuelKgPerS,
  bmepPa,
  brakeEfficiency,
  bsfcKgPerJ,
  fullAirFlowM3PerS,
  inertiaTorqueNm,
  meanPistonSpeedMPerS,
  powerW,
  torqueNm,
  volumetricEfficiency,
} from './index.ts';

const inside = (value: number, unit: string) => toInside(value, findUnit(unit)!);
const outside = (value: number, unit: string) => fromInside(value, findUnit(unit)!);

describe('torque and power', () => {
  it('hp = lb·ft × rpm / 5252.1131 and kW = N·m × rpm / 9549.2966 (33000/2π and 60000/2π)', () => {
    expect(1 / outside(powerW(inside(1, 'lb-ft'), 1), 'hp')).toBeCloseTo(33000 / (2 * Math.PI), 6);
    expect(1 / outside(powerW(1, 1), 'kW')).toBeCloseTo(9549.2966, 4);
  });

  it('go there and back (identity)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 2000, noNaN: true }),
        fc.double({ min: 100, max: 20_000, noNaN: true }),
        (torque, speed) => {
          expect(torqueNm(powerW(torque, speed), speed)).toBeCloseTo(torque, 9);
        },
      ),
      { seed: 5252, numRuns: 200 },
    );
  });

  it('refuses torque from power at standstill', () => {
    expect(() => torqueNm(1000, 0)).toThrow(InputError);
  });

  // By hand: 0.15 × 300 × 2π/60 and so on.
  it.each([
    [0.15, 300, 4.71],
    [0.15, 600, 9.42],
    [0.3, 600, 18.85],
    [0.25, 1000, 26.18],
    [0.3, -600, -18.85],
  ])('%d kg·m² at %d rev/min per s takes %d N·m', (inertia, rate, expected) => {
    expect(inertiaTorqueNm(inertia, rate)).toBeCloseTo(expected, 2);
  });
});

describe('what the size of the engine makes of it', () => {
  it('350 in³ with 437.68 lb·ft has 188.6 psi, 13.00 bar; two strokes half of it', () => {
    const bmep = bmepPa(inside(437.68, 'lb-ft'), inside(350, 'in³'), 4);
    expect(outside(bmep, 'psi')).toBeCloseTo(188.6, 1);
    expect(outside(bmep, 'bar')).toBeCloseTo(13, 2);
    expect(bmepPa(inside(437.68, 'lb-ft'), inside(350, 'in³'), 2)).toBeCloseTo(bmep / 2, 6);
  });

  it('3.48 in at 6000 rpm is 3480 ft/min, 17.68 m/s', () => {
    const speed = meanPistonSpeedMPerS(inside(3.48, 'in'), 6000);
    expect(outside(speed, 'ft/min')).toBeCloseTo(3480, 8);
    expect(speed).toBeCloseTo(17.68, 2);
  });

  it('350 in³ at 6000 rpm sweeps 607.6 cfm: CID × rpm / 3456', () => {
    const flow = fullAirFlowM3PerS({
      displacementM3: inside(350, 'in³'),
      speedRpm: 6000,
      cycle: 4,
    });
    expect(outside(flow, 'cfm')).toBeCloseTo((350 * 6000) / 3456, 8);
    const air = { airFlowKgPerS: 0.9 * 1.2 * flow, densityKgPerM3: 1.2 };
    expect(
      volumetricEfficiency({
        ...air,
        displacementM3: inside(350, 'in³'),
        speedRpm: 6000,
        cycle: 4,
      }),
    ).toBeCloseTo(0.9, 12);
  });

  it('refuses engines of no size', () => {
    expect(() => bmepPa(100, 0, 4)).toThrow(InputError);
    expect(() => meanPistonSpeedMPerS(Number.NaN, 5000)).toThrow(InputError);
    expect(() => fullAirFlowM3PerS({ displacementM3: 1e-3, speedRpm: 0, cycle: 4 })).toThrow(
      InputError,
    );
  });
});

describe('fuel', () => {
  it('0.45 lb/hp·h is 273.7 g/kWh, and 30.3 % of 43.4 MJ/kg', () => {
    const bsfc = bsfcKgPerJ(inside(180, 'lb/h'), inside(400, 'hp'));
    expect(outside(bsfc, 'lb/hp-h')).toBeCloseTo(0.45, 10);
    expect(outside(bsfc, 'g/kWh')).toBeCloseTo(273.7, 1);
    expect(brakeEfficiency(bsfc, 43.4e6)).toBeCloseTo(0.303, 3);
  });

  it('gives the air from fuel and lambda', () => {
    expect(airFlowFromFuelKgPerS(0.02, 0.87, 14.7)).toBeCloseTo(0.25578, 10);
    expect(() => bsfcKgPerJ(0.02, 0)).toThrow(InputError);
  });
});

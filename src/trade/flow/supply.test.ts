import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { blend, bsfcByAirKgPerJ, fuelNamed } from '../fuel/index.ts';
import {
  airDemand,
  CARBURETTOR_RATED_DEPRESSION_PA,
  carburettorDepressionPa,
  carburettorSizeM3PerS,
  injectorDutyShare,
  injectorFlowKgPerS,
  injectorPressureForFlowPa,
  injectorStaticFlowKgPerS,
  pumpNeed,
  type Throttle,
  throttleOpenAreaM2,
} from './index.ts';

const CFM = 0.3048 ** 3 / 60;
const CUBIC_INCH = 0.0254 ** 3;
const LB = 0.45359237;
const HP = 745.69987158;
const LB_PER_HP_H = LB / (HP * 3600);
const PSI = 6894.757293168;

describe('air demand', () => {
  it('of 440 in³ at 6000 and 0.90 is 687.5 cfm, of 350 in³ at 6000 607.6 cfm', () => {
    // reference: dennyshangout.com "Useful formulas" works 440/3456 · 0.90 · 6000 = 687.5; 350 · 6000/3456 by hand.
    const of = (cid: number, efficiency: number) =>
      airDemand({
        displacementM3: cid * CUBIC_INCH,
        speedRpm: 6000,
        cycle: 4,
        volumetricEfficiency: efficiency,
        densityKgPerM3: 0.0765 * (LB / 0.3048 ** 3),
      });
    expect(of(440, 0.9).volumeM3PerS / CFM).toBeCloseTo(687.5, 1);
    expect(of(350, 1).volumeM3PerS / CFM).toBeCloseTo(607.6, 1);
    // reference: 2789 lb/h at 0.0765 lb/ft³, by hand.
    expect((of(350, 1).massKgPerS * 3600) / LB).toBeCloseTo(2789, 0);
  });

  it('doubles for two strokes (identity), and refuses no engine', () => {
    const engine = {
      displacementM3: 1e-3,
      speedRpm: 6000,
      volumetricEfficiency: 1,
      densityKgPerM3: 1.2,
    };
    expect(airDemand({ ...engine, cycle: 2 }).massKgPerS).toBeCloseTo(
      2 * airDemand({ ...engine, cycle: 4 }).massKgPerS,
      12,
    );
    expect(() => airDemand({ ...engine, cycle: 4, displacementM3: 0 })).toThrow(NonPhysicalError);
    expect(() => airDemand({ ...engine, cycle: 4, volumetricEfficiency: 0 })).toThrow(
      /volumetric efficiency: 0/,
    );
  });
});

describe('carburettors', () => {
  it('a 500 cfm two-barrel is a 354 cfm four-barrel', () => {
    // reference: common practice, 3.0 against 1.5 inHg, ÷ 1.414.
    const { fourBarrel, twoBarrel } = CARBURETTOR_RATED_DEPRESSION_PA;
    const asFour = carburettorSizeM3PerS({
      demandM3PerS: 500 * CFM,
      wantedDepressionPa: twoBarrel,
      ratedDepressionPa: fourBarrel,
    });
    expect(asFour / CFM).toBeCloseTo(353.6, 1);
    expect(fourBarrel / 3386.389).toBeCloseTo(1.5, 5);
    expect(twoBarrel / 3386.389).toBeCloseTo(3, 5);
  });

  it('has the depression it was sized for (identity)', () => {
    fc.assert(
      fc.property(fc.double({ min: 500, max: 9000, noNaN: true }), (wantedDepressionPa) => {
        const ratedDepressionPa = CARBURETTOR_RATED_DEPRESSION_PA.fourBarrel;
        const ratedFlowM3PerS = carburettorSizeM3PerS({
          demandM3PerS: 0.3,
          wantedDepressionPa,
          ratedDepressionPa,
        });
        expect(
          carburettorDepressionPa({ demandM3PerS: 0.3, ratedFlowM3PerS, ratedDepressionPa }),
        ).toBeCloseTo(wantedDepressionPa, 6);
      }),
      { seed: 5, numRuns: 100 },
    );
    expect(() =>
      carburettorSizeM3PerS({ demandM3PerS: 0.3, wantedDepressionPa: 0, ratedDepressionPa: 5000 }),
    ).toThrow(/wanted depression: 0 Pa/);
  });
});

describe('the throttle', () => {
  const throttle: Throttle = { boreM: 0.06, shaftDiameterM: 0.01, closedDeg: 8 };

  it.each([8, 9, 15, 30, 60, 80, 85, 90])(
    'at %s° opens what a plain sum of strips finds',
    (plateDeg) => {
      // independent: the bore cut into strips across the shaft, each less what plate or shaft hides.
      const radius = 0.03;
      const hidden = Math.cos((plateDeg * Math.PI) / 180) / Math.cos((8 * Math.PI) / 180);
      const strips = 200_000;
      let area = 0;
      for (let i = 0; i < strips; i++) {
        const x = (radius * (i + 0.5)) / strips;
        const height = Math.sqrt(radius ** 2 - x ** 2);
        area += Math.max(0, height - Math.max(hidden * height, 0.005)) * (radius / strips) * 4;
      }
      expect(throttleOpenAreaM2(throttle, plateDeg) * 1e6).toBeCloseTo(area * 1e6, 3);
    },
  );

  it('is shut when shut, never opens less when turned further, and refuses what cannot be', () => {
    expect(throttleOpenAreaM2(throttle, 8)).toBeCloseTo(0, 12);
    expect(throttleOpenAreaM2({ ...throttle, shaftDiameterM: 0 }, 90)).toBeCloseTo(
      (Math.PI / 4) * 0.06 ** 2,
      12,
    );
    let before = -1;
    for (let deg = 8; deg <= 90; deg++) {
      const area = throttleOpenAreaM2(throttle, deg);
      expect(area).toBeGreaterThanOrEqual(before);
      before = area;
    }
    expect(() => throttleOpenAreaM2(throttle, 5)).toThrow(/throttle angle: 5/);
    expect(() => throttleOpenAreaM2({ ...throttle, shaftDiameterM: 0.06 }, 30)).toThrow(/shaft/);
  });
});

describe('injectors and pumps', () => {
  it.each([
    // reference: worked by hand; mirage-performance.com/formulas.html works the second: 31.25 lb/h.
    [500, 0.5, 8, 0.85, 36.76],
    [200, 0.5, 4, 0.8, 31.25],
  ])(
    '%s hp at %s lb/(hp h) on %s at duty %s: %s lb/h each',
    (hp, bsfc, injectors, dutyShare, expected) => {
      const flow = injectorStaticFlowKgPerS({
        powerW: hp * HP,
        bsfcKgPerJ: bsfc * LB_PER_HP_H,
        injectors,
        dutyShare,
      });
      expect((flow * 3600) / LB).toBeCloseTo(expected, 2);
      expect(
        injectorDutyShare({
          fuelFlowKgPerS: hp * HP * bsfc * LB_PER_HP_H,
          injectors,
          staticFlowKgPerS: flow,
        }),
      ).toBeCloseTo(dutyShare, 12);
      // 386 cc/min at 0.72 kg/L, by hand.
      if (hp === 500) expect((flow / 720) * 60e6).toBeCloseTo(386, 0);
    },
  );

  const rating = {
    staticVolumeM3PerS: 400e-6 / 60,
    pressureDifferencePa: 43.5 * PSI,
    densityKgPerM3: 684,
  };

  it('43.5 to 58 psi gives 1.1547 times as much', () => {
    const petrol = fuelNamed('gasoline');
    expect(
      injectorFlowKgPerS(rating, petrol, 58 * PSI) / injectorFlowKgPerS(rating, petrol, 43.5 * PSI),
    ).toBeCloseTo(1.1547, 4);
  });

  it('gives its rating back with the liquid it was rated with, and more mass of a denser one', () => {
    const heptane = { ...fuelNamed('n-heptane'), densityKgPerM3: 684 };
    const own = injectorFlowKgPerS(rating, heptane, rating.pressureDifferencePa);
    expect(own).toBeCloseTo(rating.staticVolumeM3PerS * 684, 15);
    const methanol = fuelNamed('methanol');
    const other = injectorFlowKgPerS(rating, methanol, rating.pressureDifferencePa);
    expect(other / own).toBeCloseTo(Math.sqrt(792 / 684), 9);
    expect(
      injectorPressureForFlowPa(rating, methanol, other * 1.1547) / rating.pressureDifferencePa,
    ).toBeCloseTo(4 / 3, 3);
  });

  it('250 lb/h of gasoline is 153 L/h; the margin and the pressures add up', () => {
    const need = pumpNeed({
      fuelFlowKgPerS: (250 * LB) / 3600,
      fuel: { densityKgPerM3: 740 },
      margin: 1,
      pressureDifferencePa: 3e5,
      manifoldGaugePa: 1e5,
      lineLossPa: 2e4,
    });
    expect(need.volumeM3PerS * 3.6e6).toBeCloseTo(153.2, 1);
    expect(need.pressureGaugePa).toBe(4.2e5);
  });

  it('a blend multiplies the demand between its parts, by what it is made of', () => {
    const petrol = { fuel: fuelNamed('gasoline'), lambda: 0.87 };
    const of = (share: number) =>
      injectorStaticFlowKgPerS({
        powerW: 4e5,
        bsfcKgPerJ: bsfcByAirKgPerJ(8e-8, petrol, {
          fuel: blend('mix', [
            [fuelNamed('gasoline'), 1 - share],
            [fuelNamed('methanol'), share],
          ]),
          lambda: 0.87,
        }),
        injectors: 8,
      });
    // 14.7/6.47 by hand, of the printed ratios.
    expect(of(1) / of(0)).toBeCloseTo(2.272, 2);
    for (let share = 0.1; share <= 1; share += 0.1)
      expect(of(share)).toBeGreaterThan(of(share - 0.1));
  });

  it('refuses what cannot be, by name', () => {
    const need = { powerW: 1e5, bsfcKgPerJ: 8e-8, injectors: 8 };
    expect(() => injectorStaticFlowKgPerS({ ...need, injectors: 0 })).toThrow(/injectors: 0/);
    expect(() => injectorStaticFlowKgPerS({ ...need, dutyShare: 1.2 })).toThrow(/duty: 1.2/);
    expect(() => injectorFlowKgPerS(rating, fuelNamed('methane'), 3e5)).toThrow(/is a gas/);
    expect(() => injectorFlowKgPerS(rating, fuelNamed('methanol'), 0)).toThrow(/pressure diff/);
    expect(() =>
      pumpNeed({
        fuelFlowKgPerS: 0.03,
        fuel: { densityKgPerM3: 740 },
        margin: 0.9,
        pressureDifferencePa: 3e5,
      }),
    ).toThrow(/pump margin: 0.9/);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { findUnit, fromInside, toInside } from '../../units/index.ts';
import {
  areaCurve,
  type BenchTable,
  benchEffectiveAreaM2,
  CURTAIN_COEFFICIENT_RANGE,
  curtainAreaM2,
  dischargeCoefficient,
  effectiveAreaAtM2,
  exhaustToInletRatio,
  flowAtDepressionCompressibleM3PerS,
  flowAtDepressionM3PerS,
  gasDensityKgPerM3,
  INLET_MACH_INDEX,
  type InletFlow,
  inletMachIndex,
  meanAreaForIndexM2,
  meanEffectiveArea,
  restrictionFlowKgPerS,
  speedAtMachIndexRpm,
  valveAreaM2,
} from './index.ts';

const INCH = 0.0254;
const INCH_OF_WATER_PA = 249.08891; // conventional, 1000 kg/m³ and 9.80665 m/s²
const CFM = 0.3048 ** 3 / 60;

/** A head as flowed at 28 inches of water: lift in inches, cubic feet a minute. Made up, of usual size. */
const table: BenchTable = {
  depressionPa: 28 * INCH_OF_WATER_PA,
  points: [
    [0.1, 63],
    [0.2, 132],
    [0.3, 192],
    [0.4, 236],
    [0.5, 254],
    [0.6, 262],
  ].map(([lift, cfm]) => ({ liftM: lift! * INCH, flowM3PerS: cfm! * CFM })),
};

describe('depressions', () => {
  it('10 to 28 inches of water by the rule is × 1.673', () => {
    // reference: the trade's conversion, √2.8 = 1.673.
    expect(
      flowAtDepressionM3PerS(100, 10 * INCH_OF_WATER_PA, 28 * INCH_OF_WATER_PA) / 100,
    ).toBeCloseTo(1.673, 3);
  });

  it('reads 2.5 % too high by the rule, as air stretches', () => {
    const byRule = flowAtDepressionM3PerS(0.05, 10 * INCH_OF_WATER_PA, 28 * INCH_OF_WATER_PA);
    const real = flowAtDepressionCompressibleM3PerS(
      0.05,
      { depressionPa: 10 * INCH_OF_WATER_PA },
      28 * INCH_OF_WATER_PA,
    );
    expect(100 * (byRule / real - 1)).toBeCloseTo(2.5, 1);
  });

  it('goes there and back (identity)', () => {
    const pa = fc.double({ min: 500, max: 12_000, noNaN: true });
    fc.assert(
      fc.property(pa, pa, (from, to) => {
        const there = flowAtDepressionM3PerS(0.1, from, to);
        expect(flowAtDepressionM3PerS(there, to, from)).toBeCloseTo(0.1, 12);
        const stretched = flowAtDepressionCompressibleM3PerS(0.1, { depressionPa: from }, to);
        expect(
          flowAtDepressionCompressibleM3PerS(stretched, { depressionPa: to }, from),
        ).toBeCloseTo(0.1, 10);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});

describe('effective area', () => {
  it('of one square inch at 28 inches of water is 147 cfm, less the expansibility of air', () => {
    // reference: Bernoulli at 1.204 kg/m³ gives 107.6 m/s and 147 cfm per square inch, worked by hand.
    const speed = Math.sqrt((2 * 28 * INCH_OF_WATER_PA) / 1.204);
    expect(speed).toBeCloseTo(107.6, 1);
    const ideal = (speed * INCH ** 2) / CFM;
    expect(ideal).toBeCloseTo(147, 0);
    // independent: expansibility ε of a nozzle with β = 0, ISO 5167-3 clause 5.1.6.3 (from memory).
    const tau = 1 - (28 * INCH_OF_WATER_PA) / 101_325;
    const expansibility = Math.sqrt(
      ((1.4 * tau ** (2 / 1.4)) / 0.4) * ((1 - tau ** (0.4 / 1.4)) / (1 - tau)),
    );
    const area = benchEffectiveAreaM2({ depressionPa: 28 * INCH_OF_WATER_PA }, ideal * CFM);
    expect((area * expansibility) / INCH ** 2).toBeCloseTo(1, 3);
  });

  it('does not depend on the unit it was measured in (identity)', () => {
    const [water, cfm] = [findUnit('inH2O')!, findUnit('cfm')!];
    const [kiloPascal, litres] = [findUnit('kPa')!, findUnit('L/s')!];
    const depressionPa = toInside(28, water);
    const flowM3PerS = toInside(254, cfm);
    expect(depressionPa).toBeCloseTo(28 * INCH_OF_WATER_PA, 3);
    expect(flowM3PerS).toBeCloseTo(254 * CFM, 9);
    const inches = benchEffectiveAreaM2({ depressionPa }, flowM3PerS);
    const metric = benchEffectiveAreaM2(
      { depressionPa: toInside(fromInside(depressionPa, kiloPascal), kiloPascal) },
      toInside(fromInside(flowM3PerS, litres), litres),
    );
    expect(metric).toBeCloseTo(inches, 12);
  });

  it('is the area that passes the reading, drawn in or blown out (identity)', () => {
    const massFlow = 0.1 * gasDensityKgPerM3(101_325, 293.15);
    const inlet = benchEffectiveAreaM2({ depressionPa: 7000 }, 0.1);
    const exhaust = benchEffectiveAreaM2({ depressionPa: 7000, side: 'exhaust' }, 0.1);
    const through = (before: number, behind: number, area: number) =>
      restrictionFlowKgPerS({ pressureAbsPa: before, temperatureK: 293.15 }, behind, area);
    expect(through(101_325, 94_325, inlet)).toBeCloseTo(massFlow, 12);
    expect(through(108_325, 101_325, exhaust)).toBeCloseTo(massFlow, 12);
    // Blown air stands denser before the port, so that the same reading tells of a smaller one.
    expect(exhaust).toBeLessThan(inlet);
  });

  it('follows the readings, rises with lift, and holds at the last one', () => {
    const curve = areaCurve(table);
    for (const { liftM, flowM3PerS } of table.points)
      expect(effectiveAreaAtM2(curve, liftM)).toBeCloseTo(
        benchEffectiveAreaM2(table, flowM3PerS),
        12,
      );
    let before = 0;
    for (let lift = 0; lift <= 0.6 * INCH; lift += 1e-4) {
      const area = effectiveAreaAtM2(curve, lift);
      expect(area).toBeGreaterThanOrEqual(before - 1e-15);
      before = area;
    }
    expect(effectiveAreaAtM2(curve, 1)).toBe(effectiveAreaAtM2(curve, 0.6 * INCH));
    expect(effectiveAreaAtM2(curve, -1e-3)).toBe(0);
  });

  it('over the curtain of a 2.02 inch valve stands where poppet valves stand', () => {
    const curve = areaCurve(table);
    for (const lift of [0.2, 0.3, 0.4, 0.5]) {
      const coefficient = dischargeCoefficient(
        effectiveAreaAtM2(curve, lift * INCH),
        curtainAreaM2(2.02 * INCH, lift * INCH),
      );
      expect(coefficient).toBeGreaterThan(CURTAIN_COEFFICIENT_RANGE[0]);
      expect(coefficient).toBeLessThan(CURTAIN_COEFFICIENT_RANGE[1] + 0.05);
    }
    // The curtain is as large as the valve's disc at a lift of D/4.
    expect(curtainAreaM2(0.05, 0.0125)).toBeCloseTo(valveAreaM2(0.05), 12);
    expect(exhaustToInletRatio(180, 254)).toBeCloseTo(0.709, 3);
  });

  it('refuses what cannot be, by name', () => {
    expect(() => benchEffectiveAreaM2({ depressionPa: 0 }, 0.1)).toThrow(/depression: 0 Pa/);
    expect(() => benchEffectiveAreaM2({ depressionPa: 2e5 }, 0.1)).toThrow(/depression/);
    expect(() => benchEffectiveAreaM2({ depressionPa: 7000 }, -0.1)).toThrow(/flow: -0.1/);
    expect(() => areaCurve({ ...table, points: table.points.slice(0, 1) })).toThrow(/at least 2/);
    expect(() => areaCurve({ ...table, points: table.points.toReversed() })).toThrow(
      /lift of reading 2/,
    );
    expect(() => curtainAreaM2(0, 0.01)).toThrow(NonPhysicalError);
    expect(() => dischargeCoefficient(1e-3, 0)).toThrow(/reference area/);
    expect(() => exhaustToInletRatio(1, 0)).toThrow(/inlet flow/);
  });
});

describe('mean area and the inlet Mach index', () => {
  it('of an area that rises with lift and a sine-squared lift is half the greatest (independent)', () => {
    const straight = areaCurve({
      depressionPa: 7000,
      points: [0.004, 0.008, 0.012].map((liftM) => ({ liftM, flowM3PerS: 10 * liftM })),
    });
    const event = {
      opensDeg: -30,
      closesDeg: 240,
      liftM: (deg: number) => 0.012 * Math.sin((Math.PI * (deg + 30)) / 270) ** 2,
    };
    const mean = meanEffectiveArea(straight, event);
    expect(mean.areaM2 / effectiveAreaAtM2(straight, 0.012)).toBeCloseTo(0.5, 9);
    expect(mean.openDeg).toBe(270);
    expect(mean.greatestLiftM).toBeCloseTo(0.012, 9);
    expect(mean.beyondTableDeg).toBe(0);
    const high = meanEffectiveArea(straight, { ...event, liftM: (d) => 1.5 * event.liftM(d) });
    expect(high.beyondTableDeg).toBeGreaterThan(50);
    expect(high.areaM2).toBeGreaterThan(mean.areaM2);
    expect(high.areaM2).toBeLessThan(effectiveAreaAtM2(straight, 0.012));
  });

  const cylinder: InletFlow = {
    boreM: 4.03 * INCH,
    strokeM: 3.48 * INCH,
    meanAreaM2: 0.38 * valveAreaM2(2.02 * INCH),
    soundMPerS: 343,
  };

  it('is 0.54 for 4.03/2.02 inch, C 0.38, 17.7 m/s (worked by hand in Taylor’s form)', () => {
    const taylor = ((4.03 / 2.02) ** 2 * 17.7) / (0.38 * 343);
    expect(taylor).toBeCloseTo(0.54, 2);
    const speedRpm = (17.7 * 30) / cylinder.strokeM;
    expect(inletMachIndex(cylinder, speedRpm)).toBeCloseTo(taylor, 9);
  });

  it('and its speed and its area turn round (identity)', () => {
    const speed = speedAtMachIndexRpm(cylinder);
    expect(inletMachIndex(cylinder, speed)).toBeCloseTo(INLET_MACH_INDEX.chokesAt, 12);
    expect(speedAtMachIndexRpm(cylinder, 0.5) / speed).toBeCloseTo(5 / 6, 12);
    const area = meanAreaForIndexM2(cylinder, 6500, 0.5);
    expect(inletMachIndex({ ...cylinder, meanAreaM2: area }, 6500)).toBeCloseTo(0.5, 12);
  });

  it('refuses what cannot be', () => {
    const curve = areaCurve(table);
    const liftM = () => 0.01;
    expect(() => meanEffectiveArea(curve, { liftM, opensDeg: 10, closesDeg: 10 })).toThrow(
      /open period: 0 °/,
    );
    expect(() => meanEffectiveArea(curve, { liftM: () => 0, opensDeg: 0, closesDeg: 200 })).toThrow(
      /never leaves its seat/,
    );
    expect(() =>
      meanEffectiveArea(curve, { liftM: () => Number.NaN, opensDeg: 0, closesDeg: 200 }),
    ).toThrow(/lift: NaN/);
    expect(() => inletMachIndex({ ...cylinder, boreM: 0 }, 6000)).toThrow(/bore: 0 m/);
    expect(() => inletMachIndex(cylinder, 0)).toThrow(/speed: 0/);
    expect(() => speedAtMachIndexRpm(cylinder, -1)).toThrow(/Mach index/);
  });
});

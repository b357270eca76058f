import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NonPhysicalError } from '../../errors.ts';
import { EXHAUST_GAS, soundMPerS } from '../flow/index.ts';
import {
  collectorBoreM,
  ENGELMAN_RATIO,
  endCorrectionM,
  FAVOURABLE_ORDERS,
  pipeToMakeM,
  plenumFrequenciesHz,
  primaryBoreM,
  primaryLengthM,
  primarySpeedRpm,
  quarterWaveLengthM,
  quarterWaveLengths,
  quarterWaveOrder,
  quarterWaveSpeedRpm,
  quarterWaveSpeeds,
  type Resonator,
  ramRunnerLengthM,
  ramSpeedRpm,
  reflectedWaveLengthM,
  reflectedWaveSpeedRpm,
  resonatorFrequencyHz,
  resonatorVolumeM3,
  TUNING_CAUTION,
  TUNING_UNCERTAINTY_SHARE,
  withCertainty,
} from './index.ts';

const INCH = 0.0254;
const speeds = fc.double({ min: 500, max: 20_000, noNaN: true });

describe('runners as organ pipes', () => {
  it('with the echo after 85° at 330 m/s is 1169, 779 and 584 mm long', () => {
    // reference: exercise of the trade's textbook as set at tutorsglobe.com/question/…5972205 (2000, 3000, 4000 rev/min,
    // 85°, 330 m/s); solved by hand: 85 · 330/12 = 2337.5 m rev/min.
    const lengths = [2000, 3000, 4000].map((speed) => reflectedWaveLengthM(330, speed, 85) * 1000);
    expect(lengths.map(Math.round)).toEqual([1169, 779, 584]);
  });

  it('swings q times a cycle (independent: counted in time)', () => {
    // A quarter wave of L passes the pipe four times a swing; one cycle of four strokes lasts two turns.
    const length = quarterWaveLengthM({ soundMPerS: 350 }, 6500, 3.5);
    const swing = (4 * length) / 350;
    expect((2 * 60) / 6500 / swing).toBeCloseTo(3.5, 12);
    const two = quarterWaveLengthM({ soundMPerS: 350, cycle: 2 }, 6500, 3.5);
    expect(60 / 6500 / ((4 * two) / 350)).toBeCloseTo(3.5, 12);
  });

  it('turns round, and falls with speed and order (identity)', () => {
    fc.assert(
      fc.property(speeds, fc.constantFrom(...FAVOURABLE_ORDERS), (speed, order) => {
        const tuning = { soundMPerS: 345 };
        const length = quarterWaveLengthM(tuning, speed, order);
        expect(quarterWaveSpeedRpm(tuning, length, order) / speed).toBeCloseTo(1, 12);
        expect(quarterWaveOrder(tuning, length, speed)).toBeCloseTo(order, 9);
        expect(quarterWaveLengthM(tuning, speed + 1, order)).toBeLessThan(length);
        expect(quarterWaveLengthM(tuning, speed, order + 1)).toBeLessThan(length);
        const echo = reflectedWaveLengthM(345, speed, 85);
        expect(reflectedWaveSpeedRpm(345, echo, 85) / speed).toBeCloseTo(1, 12);
      }),
      { seed: 21, numRuns: 200 },
    );
    const lengths = quarterWaveLengths({ soundMPerS: 345 }, 6500).map((one) => one.lengthM);
    expect(lengths).toEqual(lengths.toSorted((a, b) => b - a));
    const atLength = quarterWaveSpeeds({ soundMPerS: 345 }, 0.4);
    expect(atLength.map((one) => one.order)).toEqual([...FAVOURABLE_ORDERS]);
  });

  it('loses port and end to what has to be made', () => {
    expect(endCorrectionM(0.02, 'plain')).toBeCloseTo(0.012266, 6);
    expect(endCorrectionM(0.02, 'in a wall')).toBeGreaterThan(endCorrectionM(0.02, 'plain'));
    expect(pipeToMakeM(0.4, 0.12, 0.012)).toBeCloseTo(0.268, 12);
    expect(() => pipeToMakeM(0.1, 0.12, 0.012)).toThrow(/invalid pipe/);
  });

  it('refuses what cannot be', () => {
    expect(() => quarterWaveLengthM({ soundMPerS: 0 }, 6000, 3)).toThrow(/speed of sound: 0/);
    expect(() => quarterWaveLengthM({ soundMPerS: 340 }, 0, 3)).toThrow(/speed: 0/);
    expect(() => quarterWaveSpeedRpm({ soundMPerS: 340 }, 0.4, Number.NaN)).toThrow(
      NonPhysicalError,
    );
    expect(() => reflectedWaveLengthM(340, 6000, -1)).toThrow(/travel: -1/);
  });
});

describe('runners as resonators', () => {
  const resonator: Resonator = {
    soundMPerS: 345,
    runnerLengthM: 0.35,
    runnerAreaM2: 1.6e-3,
    sweptVolumeM3: 0.5e-3,
    compressionRatio: 10.5,
  };

  it('works on the cylinder at half stroke (independent)', () => {
    const clearance = 0.5e-3 / 9.5;
    expect(resonatorVolumeM3(0.5e-3, 10.5)).toBeCloseTo(0.25e-3 + clearance, 15);
  });

  it('is 162/K · c √(A/(L V) (R−1)/(R+1)) in feet a second and inches', () => {
    // reference: the form in print in American units (from memory); 162.06 = 60 · 12 · √2/2π.
    const [c, A, L, V, R, K] = [1120, 2.4, 14, 30.5, 10.5, 2.1];
    const printed = (162 / K) * c * Math.sqrt((A / (L * V)) * ((R - 1) / (R + 1)));
    const ours = ramSpeedRpm(
      {
        soundMPerS: c * 0.3048,
        runnerLengthM: L * INCH,
        runnerAreaM2: A * INCH ** 2,
        sweptVolumeM3: V * INCH ** 3,
        compressionRatio: R,
      },
      K,
    );
    expect(ours / printed).toBeCloseTo(1, 3);
  });

  it('turns round: runner length for a speed (identity)', () => {
    fc.assert(
      fc.property(speeds, fc.double({ min: 2, max: 2.5, noNaN: true }), (speed, ratio) => {
        const runnerLengthM = ramRunnerLengthM(resonator, speed, ratio);
        expect(ramSpeedRpm({ ...resonator, runnerLengthM }, ratio) / speed).toBeCloseTo(1, 10);
      }),
      { seed: 22, numRuns: 200 },
    );
    expect(ramSpeedRpm(resonator)).toBeCloseTo(
      (60 * resonatorFrequencyHz(resonator)) / ENGELMAN_RATIO.usual,
      9,
    );
  });

  it('on a plenum swings as two masses of air on two springs do (independent)', () => {
    // Runner x₁, duct x₂ as volumes moved: ρI₁ẍ₁ = −κ(x₁)/V₁ − κ(x₁ − x₂)/V₂, ρI₂ẍ₂ = −κ(x₂ − x₁)/V₂, κ = ρa²; its
    // eigenvalues from trace and determinant.
    const plenum = { volumeM3: 3e-3, ductLengthM: 0.4, ductAreaM2: 2.4e-3 };
    const v1 = resonatorVolumeM3(0.5e-3, 10.5);
    const [i1, i2] = [0.35 / 1.6e-3, 0.4 / 2.4e-3];
    const m = [
      [(1 / v1 + 1 / 3e-3) / i1, -1 / 3e-3 / i1],
      [-1 / 3e-3 / i2, 1 / 3e-3 / i2],
    ] as const;
    const trace = m[0][0] + m[1][1];
    const determinant = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    const spread = Math.sqrt((trace / 2) ** 2 - determinant);
    const hz = (eigenvalue: number) => (345 / (2 * Math.PI)) * Math.sqrt(eigenvalue);
    const [low, high] = plenumFrequenciesHz(resonator, plenum);
    expect(low / hz(trace / 2 - spread)).toBeCloseTo(1, 9);
    expect(high / hz(trace / 2 + spread)).toBeCloseTo(1, 9);
  });

  it('on a plenum without bounds is the runner alone (limit)', () => {
    const [, high] = plenumFrequenciesHz(resonator, {
      volumeM3: 1e6,
      ductLengthM: 0.4,
      ductAreaM2: 2.4e-3,
    });
    expect(high / resonatorFrequencyHz(resonator)).toBeCloseTo(1, 8);
  });

  it('refuses what cannot be', () => {
    expect(() => resonatorVolumeM3(5e-4, 1)).toThrow(/compression ratio: 1/);
    expect(() => ramSpeedRpm({ ...resonator, runnerAreaM2: 0 })).toThrow(/runner area/);
    expect(() => ramRunnerLengthM(resonator, -1)).toThrow(/speed: -1/);
  });
});

describe('headers', () => {
  it('for 252° at 6000 and 727 cm³ are 32.7 by 1.90 inches', () => {
    // reference: worked by hand from the book's formulas (72° before bottom).
    const length = primaryLengthM(72, 6000);
    expect(length / INCH).toBeCloseTo(32.7, 1);
    expect(primaryBoreM(727e-6, length) / INCH).toBeCloseTo(1.9, 2);
  });

  it('are a quarter wave at 518 m/s from the valve (independent)', () => {
    // Two returns in 180 + EVO degrees: each takes half of them.
    const byWave = reflectedWaveLengthM(1700 * 0.3048, 6000, 252 / 2);
    expect(primaryLengthM(72, 6000) + 3 * INCH).toBeCloseTo(byWave, 9);
    // 518 m/s is the speed of sound at some 700 K, which pipes have.
    expect(soundMPerS(703, EXHAUST_GAS)).toBeCloseTo(518, 0);
  });

  it('turn round (identity), and shorten with speed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1000, max: 12_000, noNaN: true }),
        fc.double({ min: 40, max: 110, noNaN: true }),
        (speed, opening) => {
          const length = primaryLengthM(opening, speed);
          expect(primarySpeedRpm(opening, length) / speed).toBeCloseTo(1, 10);
          expect(primaryLengthM(opening, speed + 50)).toBeLessThan(length);
          expect(primaryBoreM(7e-4, length)).toBeGreaterThan(0);
        },
      ),
      { seed: 23, numRuns: 200 },
    );
  });

  it('join into a wider pipe, and refuse what cannot be', () => {
    expect(collectorBoreM(727e-6, 0.83, 4)).toBeGreaterThan(primaryBoreM(727e-6, 0.83));
    expect(() => collectorBoreM(727e-6, 0.83, 1)).toThrow(/primaries joined: 1/);
    expect(() => primaryLengthM(200, 6000)).toThrow(/exhaust opening: 200/);
    expect(() => primaryLengthM(70, 80_000)).toThrow(/invalid speed: 80000/);
    expect(() => primaryBoreM(0, 0.8)).toThrow(/cylinder volume/);
  });
});

describe('how sure it is', () => {
  it('stands beside each length', () => {
    const tuned = withCertainty(0.5);
    expect([tuned.low, tuned.high]).toEqual([0.4, 0.6]);
    expect(tuned.caution).toBe(TUNING_CAUTION);
    expect(TUNING_CAUTION).toContain(`${TUNING_UNCERTAINTY_SHARE * 100} %`);
  });
});

import { describe, expect, it } from 'vitest';
import { gaussian } from '../numerics/simulated.fixture.ts';
import {
  AIR_CORRECTIONS,
  answerMeasured,
  armTorqueNm,
  type DeadWeights,
  STANDARD_GRAVITY_M_PER_S2,
  vapourPressureFromHumidityPa,
} from '../trade/index.ts';
import { type CellCalibration, calibrationSd } from './calibration.ts';
import { AIR_INSTRUMENTS_REL_SD } from './cell.ts';
import { curveIn } from './curve.ts';
import { findPulls } from './findPulls.ts';
import { fitPull } from './fitPull.ts';
import { meanPowerW } from './meanPower.ts';
import type { Recording } from './recording.ts';
import {
  type AIR,
  airFactor,
  changed,
  options,
  simulatedPull,
  TRUTH,
} from './simulated.fixture.ts';
import type { CellSetup, CurveOptions } from './types.ts';

const EXACT: CellCalibration = {
  doneOn: '2026-01-17',
  zeroNm: 3,
  gain: 1.02,
  expanded: { constantNm: 0, fraction: 0 },
  mostNm: 800,
  apply: true,
};
const cellOf = (changes: Partial<CellSetup>) => ({
  ...options().cell,
  sensorLagS: 0.06,
  ...changes,
});
function curveOf(recording: Recording, cell: CellSetup, more: Partial<CurveOptions> = {}) {
  const wish = options({ cell, ...more });
  const [span] = findPulls(recording);
  return curveIn(fitPull(recording, span!, wish), wish);
}
const QUIET = { noise: 0.002, wander: 0.001, hertz: 25 };

describe('torque corrected by the calibration of the cell', () => {
  const honest = simulatedPull(QUIET);
  const truth = curveOf(honest, cellOf({}));

  it('is the torque of a cell that reads right: on the crank, behind a ratio, under a logger’s factor (identity)', () => {
    const direct = changed(honest, 'torque', (value) => 3 + 1.02 * value);
    const geared = changed(honest, 'torque', (value) => 3 + 1.02 * (value / 0.8));
    const crankSide = changed(honest, 'torque', (value) => (3 + 1.02 * (value / 0.8)) * 0.8);
    const logged = changed(honest, 'torque', (value) => (3 + 1.02 * value) * airFactor());
    const atCrank: Recording = {
      ...crankSide,
      channels: crankSide.channels.map((one) =>
        one.quantity === 'torque' ? { ...one, header: 'Crank torque' } : one,
      ),
    };
    const logger = { air: 'SAE J1349', inertia: 'out' } as const;
    const rightLogged = curveOf(
      changed(honest, 'torque', (value) => value * airFactor()),
      cellOf({ torqueIs: logger }),
    );
    for (const [recording, cell, right] of [
      [direct, cellOf({ calibration: EXACT }), truth],
      [geared, cellOf({ calibration: EXACT, ratio: 0.8 }), truth],
      [atCrank, cellOf({ calibration: EXACT, ratio: 0.8 }), truth],
      [logged, cellOf({ calibration: EXACT, torqueIs: logger }), rightLogged],
    ] as const) {
      const curve = curveOf(recording, cell);
      curve.torqueNm.forEach((torque, i) => {
        // The logger's factor is known to what the air's samples show.
        expect(Math.abs(torque / right.torqueNm[i]! - 1)).toBeLessThan(
          recording === logged ? 1e-5 : 1e-9,
        );
      });
      expect(curve.calibration).toMatchObject({ doneOn: '2026-01-17', applied: true });
      expect(curve.marks.map(({ sentence }) => sentence).join()).toMatch(
        /corrected by the cell's calibration of 2026-01-17: less 3.00 N·m at the sensor, divided by 1.0200/,
      );
    }
  });

  it('leaves off the calibration’s zero where the recording shows the engine at rest', () => {
    const rest = simulatedPull({ ...QUIET, restS: 2 });
    const moved = changed(rest, 'torque', (value) => 5 + 1.02 * value);
    const [a, b] = [curveOf(moved, cellOf({ calibration: EXACT })), curveOf(rest, cellOf({}))];
    a.torqueNm.forEach((torque, i) => {
      expect(Math.abs(torque / b.torqueNm[i]! - 1)).toBeLessThan(1e-6);
    });
  });

  it('says how far the cell reads wrong where it is not corrected, and what lies above its weights', () => {
    const direct = changed(honest, 'torque', (value) => 3 + 1.02 * value);
    const known = { ...EXACT, apply: false, mostNm: 250 };
    const said = curveOf(direct, cellOf({ calibration: known })).marks.filter(
      ({ kind }) => kind === 'calibration',
    );
    const level = truth.torqueNm.reduce((sum, one) => sum + one, 0) / truth.torqueNm.length;
    const wrong = Number(/reads ([\d.]+) N·m too high/.exec(said[0]!.sentence)![1]);
    expect(Math.abs(wrong - (3 + 0.02 * (level / airFactor())))).toBeLessThan(0.6);
    expect(said[1]).toMatchObject({ severity: 'look again' });
    expect(said[1]!.sentence).toContain('went up to 250 N·m');
  });
});

/** A cell with an error of its own, calibrated with weights on an arm that is itself a little off. */
function simulatedCell(seed: number) {
  const normal = gaussian(seed);
  const [gain, zeroNm] = [1 + 0.008 * normal(), 2 * normal()];
  const arm = { lengthM: 0.5, gravityMPerS2: STANDARD_GRAVITY_M_PER_S2, offLevelDeg: 0 };
  const armOff = 1 + 4e-4 * normal();
  const read = (massKg: number, direction: 'up' | 'down') => ({
    massKg,
    direction,
    readingNm:
      zeroNm +
      gain * armOff * armTorqueNm(massKg, arm) +
      (direction === 'down' ? 0.4 : 0) +
      0.3 * normal(),
  });
  const up = [0, 25, 50, 75, 100, 125];
  const measured: DeadWeights = {
    kind: 'dead weights',
    arm,
    uncertainty: {
      massRelative: 1e-4,
      armLengthRelative: 4e-4,
      gravityRelative: 1e-5,
      offLevelLimitDeg: 0,
    },
    resolutionNm: 0.1,
    points: [
      ...up.map((massKg) => read(massKg, 'up')),
      ...up
        .slice(0, -1)
        .reverse()
        .map((massKg) => read(massKg, 'down')),
    ],
  };
  const answer = answerMeasured(measured);
  return {
    gain,
    zeroNm,
    calibration: { ...EXACT, ...answer, mostNm: answer.rangeNm[1] },
  };
}

describe('the band with the uncertainty of the calibration', () => {
  // Simulated truth: 20 cells with errors of 0.8 % and 2 N·m, calibrated within about 0.1 %.
  it('holds the truth, corrected or not; a stated figure that the cell does not keep misses it', () => {
    const speeds = [3500, 4500, 5800];
    const held = { corrected: 0, known: 0, stated: 0 };
    const width = { corrected: 0, known: 0, stated: 0 };
    for (let seed = 1; seed <= 20; seed++) {
      const { gain, zeroNm, calibration } = simulatedCell(900 + seed);
      const recording = changed(
        simulatedPull({ ...QUIET, seed: 31 * seed }),
        'torque',
        (value) => zeroNm + gain * (value / 0.8),
      );
      const pull = findPulls(recording)[0]!;
      for (const [how, changes] of [
        ['corrected', { calibration }],
        ['known', { calibration: { ...calibration, apply: false } }],
        ['stated', {}],
      ] as const) {
        // No repeatability is simulated, so none is in the band.
        const wish = options({
          cell: cellOf({ ratio: 0.8, ...changes }),
          repeatabilityRelSd: 0,
        });
        const curve = curveIn(fitPull(recording, pull, wish), wish);
        for (const rpm of speeds) {
          const at = curve.speedRpm.indexOf(rpm);
          const [low, high] = [curve.lowNm[at]!, curve.highNm[at]!];
          if (low <= TRUTH(rpm) && TRUTH(rpm) <= high) held[how]++;
          width[how] += (high - low) / TRUTH(rpm) / 2 / 60;
        }
      }
    }
    expect(held.corrected).toBeGreaterThanOrEqual(57);
    expect(held.known).toBeGreaterThanOrEqual(57);
    expect(held.stated).toBeLessThan(50);
    expect(width.corrected).toBeLessThan(width.known);
    expect(width.corrected).toBeLessThan(0.008);
  });

  it('carries the constant part to the crank by ratio and factor, and into mean power (independent, by hand)', () => {
    const expanded = { constantNm: 1.959963984540054, fraction: 0 };
    const calibration = { ...EXACT, zeroNm: 0, gain: 1, expanded };
    const recording = simulatedPull(QUIET);
    const geared = changed(recording, 'torque', (value) => value / 2);
    const cell = cellOf({ calibration, ratio: 2 });
    const [a, none] = [curveOf(geared, cell), curveOf(geared, cell, { standard: 'none' })];
    expect(none.commonSdNm).toBeCloseTo(2, 9);
    expect(a.commonSdNm).toBeCloseTo(2 * a.correctionFactor, 9);
    expect(a.correctionFactor).not.toBeCloseTo(1, 2);
    const off = {
      ...cell,
      calibration: { ...calibration, expanded: { ...expanded, constantNm: 0 } },
    };
    const b = curveOf(geared, off);
    const band = [3000, 6000] as const;
    const half = (one: typeof a) => meanPowerW(one, band).high - meanPowerW(one, band).value;
    const alone = Math.sqrt(half(a) ** 2 - half(b) ** 2) / 1.959964;
    // 2 N·m at 4500 rev/min, the middle of the band.
    expect(alone / (a.commonSdNm * 4500 * (Math.PI / 30))).toBeCloseTo(1, 6);
  });

  it('uncorrected is never narrower than the known error allows, at any torque (independent)', () => {
    for (const [gain, zeroNm] of [
      [1.01, 4],
      [0.99, -4],
      [1.01, -4],
      [1, 4],
      [1.01, 0],
    ] as const) {
      const calibration = { ...EXACT, gain, zeroNm, apply: false };
      const scale = { columnPerSensorNm: 1, ratio: 1 };
      const { relSd, constantNm } = calibrationSd(cellOf({ calibration }), null, scale, 400);
      for (const shown of [50, 200, 400, 700]) {
        const wrong = shown - (shown - zeroNm) / gain;
        const sd = Math.hypot(relSd * shown, constantNm);
        expect(sd).toBeGreaterThanOrEqual(Math.hypot(wrong, AIR_INSTRUMENTS_REL_SD * shown) - 1e-9);
      }
    }
  });

  it('leaves out a stated figure’s share of the air but not the air itself (independent: differences of SAE J1349)', () => {
    const air = { pressureAbsPa: 99_000, temperatureK: 298.15, humidity: 0.5 };
    const factor = (change: Partial<typeof AIR>) => {
      const { pressureAbsPa, temperatureK, humidity } = { ...air, ...change };
      return AIR_CORRECTIONS['SAE J1349'].factor({
        pressureAbsPa,
        temperatureK,
        vapourPressurePa: vapourPressureFromHumidityPa(temperatureK, humidity),
      })!;
    };
    const half = [{ pressureAbsPa: 99_100 }, { temperatureK: 299.15 }, { humidity: 0.55 }].map(
      (change) => factor(change) / factor({}) - 1,
    );
    expect(Math.hypot(...half) / 1.96 / AIR_INSTRUMENTS_REL_SD).toBeGreaterThan(0.85);
    expect(Math.hypot(...half) / 1.96 / AIR_INSTRUMENTS_REL_SD).toBeLessThan(1.15);
  });
});

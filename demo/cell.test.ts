import { describe, expect, it } from 'vitest';
import { evaluateSpline } from '../src/numerics/spline.ts';
import { trueAirFactor } from './air.ts';
import { type DayOptions, type SimulatedDay, simulateDay } from './cell.ts';
import { simulateCurveDay } from './curve-day.ts';
import { bestTorqueNm } from './engine.ts';
import { logLoss, SHAPES } from './response.ts';

const RAD_PER_S = Math.PI / 30;

/** A cell without any error of its own: what it reads must be the truth through known physics alone. */
const QUIET: Omit<DayOptions, 'seed'> = {
  offsetSdPercent: 0,
  wanderPercent: 0,
  slowWanderPercent: 0,
  whitePercent: 0,
  speedNoiseRpm: 0,
  spikeChance: 0,
  calibrationPercent: 0,
  rateHz: 100,
};

const channel = (day: SimulatedDay, pull: number, quantity: string) =>
  day.recordings[pull]!.channels.find((one) => one.quantity === quantity)!.values;

const bytesOf = (day: SimulatedDay) =>
  day.recordings.map((one) =>
    one.channels.map((c) => Buffer.from(c.values.buffer).toString('base64')),
  );

describe('the simulated cell', () => {
  it('gives the same bytes from the same seed, others from another', () => {
    const once = bytesOf(simulateDay({ seed: 11, limit: {} }));
    expect(bytesOf(simulateDay({ seed: 11, limit: {} }))).toEqual(once);
    expect(bytesOf(simulateDay({ seed: 12, limit: {} }))).not.toEqual(once);
  });

  it.each(SHAPES)('has its best lead over the band where mean power is highest (%s)', (shape) => {
    for (let seed = 0; seed < 20; seed++) {
      const { truth } = simulateDay({ seed, engine: { shape }, leadsDeg: [] });
      const best = truth.bestLeadOverBandDeg;
      const scanned = Array.from({ length: 241 }, (_, i) => best - 12 + i * 0.1);
      const top = scanned.reduce((a, b) => (truth.meanPowerW(b) > truth.meanPowerW(a) ? b : a));
      expect(Math.abs(top - best)).toBeLessThan(0.051);
      expect(truth.lossPercent(best)).toBeCloseTo(0, 9);
      expect(truth.followingGainPercent).toBeGreaterThan(0);
    }
  });

  it('has mean power = mean of torque times angular speed', () => {
    const { truth, knobs } = simulateDay({ seed: 3, leadsDeg: [] });
    const [low, high] = knobs.bandRpm;
    const n = 4000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const rpm = low + ((i + 0.5) / n) * (high - low);
      sum += truth.torqueNm(rpm, 27) * rpm * RAD_PER_S;
    }
    expect(truth.meanPowerW(27) / (sum / n)).toBeCloseTo(1, 5);
  });

  it('has the best lead of each speed where torque is highest, and torque there is the best torque', () => {
    const { truth, knobs } = simulateDay({ seed: 8, leadsDeg: [] });
    for (const rpm of [3500, 4500, 5500]) {
      const best = truth.bestLeadAtDeg(rpm);
      const atBest = truth.torqueNm(rpm, best);
      expect(atBest / bestTorqueNm(knobs.engine, rpm)).toBeCloseTo(1, 7);
      expect(truth.torqueNm(rpm, best + 0.5)).toBeLessThan(atBest);
      expect(truth.torqueNm(rpm, best - 0.5)).toBeLessThan(atBest);
    }
  });

  it.each([
    ['rising', 0],
    ['rising', 0.15],
    ['falling', 0.15],
    ['held steps', 0.05],
  ] as const)('reads T/air − J·α, %s, through a first-order lag of %f s', (manner, sensorLagS) => {
    const day = simulateDay({ ...QUIET, seed: 21, sensorLagS, manner, rateHz: 200 });
    const { knobs, truth } = day;
    for (let pull = 0; pull < knobs.leadsDeg.length; pull++) {
      const [time, speed, torque] = ['time', 'speed', 'torque'].map((q) => channel(day, pull, q));
      const factor = trueAirFactor(day.pulls[pull]!.samples.air);
      const expected = (i: number) => {
        const alpha =
          ((speed![i + 1]! - speed![i - 1]!) / (time![i + 1]! - time![i - 1]!)) * RAD_PER_S;
        return (
          truth.torqueNm(speed![i]!, knobs.leadsDeg[pull]!) / factor - knobs.inertiaKgM2 * alpha
        );
      };
      for (let i = 2; i < torque!.length - 2; i++) {
        if (time![i]! < 2.5 || time![i]! > time!.at(-1)! - 2.2) continue;
        // In a first-order lag the input is the output plus the time constant times its slope.
        const slope = (torque![i + 1]! - torque![i - 1]!) / (time![i + 1]! - time![i - 1]!);
        const input = torque![i]! + sensorLagS * slope;
        expect(Math.abs(input / expected(i) - 1)).toBeLessThan(2e-3);
      }
    }
  });

  it('changes only what a knob should change', () => {
    const base = simulateDay({ seed: 5, limit: {} });
    const differing = (options: Partial<DayOptions>) => {
      const other = simulateDay({ seed: 5, limit: {}, ...options });
      const changed = new Set<string>();
      base.recordings.forEach((one, pull) => {
        for (const c of one.channels) {
          const same = other.recordings[pull]!.channels.find((o) => o.header === c.header);
          if (same === undefined || !c.values.every((v, i) => v === same.values[i])) {
            changed.add(c.quantity);
          }
        }
      });
      return [...changed].sort();
    };
    expect(differing({})).toEqual([]);
    expect(differing({ whitePercent: 2 })).toEqual(['torque']);
    expect(differing({ offsetSdPercent: 3 })).toEqual(['torque']);
    expect(differing({ speedNoiseRpm: 30 })).toEqual(['speed']);
    expect(differing({ inertiaKgM2: 1.5 })).toEqual(['torque']);
    expect(differing({ limit: { leadDeg: 20 } })).toEqual(['knock']);
    expect(differing({ brakeRatio: 0.5 })).toEqual(['torque']);
    expect(differing({ lambda: 0.95 })).toEqual(['lambda']);
    expect(differing({ stuck: [{ pull: 2, channel: 'oilPressure', fromRpm: 4000 }] })).toEqual([
      'oilPressure',
    ]);
    expect(differing({ blips: [{ pull: 1, atRpm: 5000, depthPercent: 5, lengthS: 0.4 }] })).toEqual(
      ['torque'],
    );
  });

  it('counts knock at its background below the limit and rising beyond it', () => {
    const day = simulateDay({
      seed: 4,
      limit: { leadDeg: 28, slopeDegPerKrpm: 0, countsPerSPerDeg: 10, backgroundPerS: 1 },
      leadsDeg: [22, 28, 31, 34],
    });
    const perS = day.recordings.map((_, pull) => {
      const counts = channel(day, pull, 'knock');
      const throttle = channel(day, pull, 'throttle');
      const open = counts.filter((_, i) => throttle[i]! > 0.9);
      return (open.reduce((a, b) => a + b, 0) / open.length) * day.knobs.rateHz;
    });
    expect(perS[0]!).toBeLessThan(2);
    expect(perS[1]!).toBeGreaterThan(1);
    expect(Math.abs(perS[2]! - 31)).toBeLessThan(6);
    expect(Math.abs(perS[3]! - 61)).toBeLessThan(9);
  });
});

describe('torque against lead', () => {
  it.each(SHAPES)(
    'is curved as asked at the best (%s), and is no parabola farther out',
    (shape) => {
      for (const curvature of [2e-4, 1.5e-3]) {
        for (const lean of [-0.04, 0.04]) {
          const at = (d: number) => logLoss(shape, d, curvature, lean);
          expect((at(1) + at(-1)) / 2 / curvature).toBeCloseTo(1, 1);
          expect(Math.sign(at(10) - at(-10))).toBe(Math.sign(lean));
          expect(Math.abs((at(12) + at(-12)) / (288 * curvature) - 1)).toBeGreaterThan(0.004);
        }
      }
    },
  );
});

describe('a day straight to curves', () => {
  it('is the truth when nothing is wrong with the cell', () => {
    const day = simulateCurveDay({ ...QUIET, seed: 17 });
    for (const pull of day.input.pulls) {
      for (const rpm of [day.knobs.fromRpm, 4321, 5000, day.knobs.toRpm]) {
        const ratio = evaluateSpline(pull.torque!, rpm) / day.truth.torqueNm(rpm, pull.setting);
        expect(Math.abs(ratio - 1)).toBeLessThan(1e-3);
      }
    }
  });

  it('has errors whose size its covariance states', () => {
    let chi = 0;
    let n = 0;
    for (let seed = 0; seed < 300; seed++) {
      const common = { ...QUIET, seed, leadsDeg: [28] };
      const noisy = simulateCurveDay({ ...common, wanderPercent: 0.4, whitePercent: 1 });
      const clean = simulateCurveDay(common);
      const fit = noisy.input.pulls[0]!.torque!;
      const exact = clean.input.pulls[0]!.torque!;
      const K = fit.segments + 3;
      for (const j of [3, 11, 19]) {
        chi += (fit.coefficients[j]! - exact.coefficients[j]!) ** 2 / fit.covariance[j * K + j]!;
        n++;
      }
    }
    expect(chi / n).toBeGreaterThan(0.85);
    expect(chi / n).toBeLessThan(1.15);
  });
});

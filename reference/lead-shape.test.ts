import { describe, expect, it } from 'vitest';
import { trueAirFactor } from '../demo/air.ts';
import { simulateCurveDay } from '../demo/curve-day.ts';
import { logLoss, SHAPES } from '../demo/response.ts';
import { answerLadder, type LadderAnswer } from '../src/ladder/index.ts';

/**
 * Torque of a four-cylinder engine [N·m] by the regression of Crossley and Cook (1991), as printed in the open
 * Modelica Standard Library, Modelica/Clocked/Examples/Systems/Utilities/ComponentsThrottleControl/TorqueGeneration.mo
 * (commit 3dfe883).
 */
function crossleyCookNm(
  airGPerCylinder: number,
  afr: number,
  leadDeg: number,
  speedRadPerS: number,
) {
  const [m, a, s, n] = [airGPerCylinder, afr, leadDeg, speedRadPerS];
  return (
    -181.3 +
    379.36 * m +
    21.91 * a -
    0.85 * a * a +
    0.26 * s -
    0.0028 * s * s +
    0.027 * n -
    0.000107 * n * n +
    0.00048 * n * s +
    2.55 * s * m -
    0.05 * s * s * m
  );
}

/** Best lead of the regression: its derivative by lead set to zero. */
const bestLeadDeg = (m: number, n: number) => (0.26 + 0.00048 * n + 2.55 * m) / (0.0056 + 0.1 * m);

/** The mixture of most torque in the regression: 21.91/(2·0.85) = 12.89. */
const RICH = 21.91 / 1.7;

describe('torque against lead in the published regression', () => {
  const lossPercent = (m: number, rpm: number, retardDeg: number) => {
    const n = (rpm * Math.PI) / 30;
    const best = bestLeadDeg(m, n);
    return (
      100 * (1 - crossleyCookNm(m, RICH, best - retardDeg, n) / crossleyCookNm(m, RICH, best, n))
    );
  };

  // TRADE.md 5.2, first row: rich mixture, 0.5 g a cylinder, 2000 to 4000 rev/min.
  it.each([
    [5, 0.4, 0.4],
    [10, 1.6, 1.6],
    [15, 3.6, 3.7],
    [20, 6.4, 6.6],
  ])('loses at %i degrees of retard between %f and %f %%', (retard, low, high) => {
    for (const rpm of [2000, 3000, 4000]) {
      const loss = lossPercent(0.5, rpm, retard);
      expect(loss).toBeGreaterThan(low - 0.05);
      expect(loss).toBeLessThan(high + 0.05);
    }
  });

  // TRADE.md 5.2, second row: 0.3 g a cylinder, part load.
  it.each([
    [5, 0.5, 0.5],
    [10, 1.9, 2.0],
    [15, 4.3, 4.6],
    [20, 7.7, 8.2],
  ])('loses at part load and %i degrees between %f and %f %%', (retard, low, high) => {
    for (const rpm of [2000, 3000, 4000]) {
      const loss = lossPercent(0.3, rpm, retard);
      expect(loss).toBeGreaterThan(low - 0.05);
      expect(loss).toBeLessThan(high + 0.05);
    }
  });

  it('is enclosed by the simulated shapes over the curvatures they are used with', () => {
    // The flattest simulated engine (2e-4) may lose no less than nine tenths of the regression's loss at any of the
    // handbook's retards, and the steepest (1.5e-3) must lose more than the textbook curve's 12 % at 20 degrees.
    for (const shape of SHAPES) {
      for (const lean of [-0.05, 0.05]) {
        const loss = (curvature: number, retard: number) =>
          100 * -Math.expm1(-logLoss(shape, -retard, curvature, lean));
        expect(loss(1.5e-3, 20)).toBeGreaterThan(12);
        for (const retard of [5, 10]) {
          expect(loss(2e-4, retard)).toBeGreaterThan(0.9 * lossPercent(0.5, 3000, retard));
        }
      }
    }
  });
});

describe('a ladder pulled on the published engine', () => {
  // The regression in place of our own engine: each simulated pull keeps its offset, wander and noise, its torque is
  // brought to the regression's at each coefficient's own speed. 0.5 g a cylinder, 2000 to 4000 rev/min.
  const BAND = [2400, 3900] as const;
  const LEADS = [20, 22, 24, 26, 28, 30, 32, 34, 36];
  const RAD_PER_S = Math.PI / 30;
  const torqueNm = (leadDeg: number, rpm: number) =>
    crossleyCookNm(0.5, RICH, leadDeg, rpm * RAD_PER_S);
  const meanPowerW = (leadDeg: number) => {
    let sum = 0;
    for (let rpm = BAND[0]; rpm <= BAND[1]; rpm += 25) {
      sum += torqueNm(leadDeg, rpm) * rpm * (rpm === BAND[0] || rpm === BAND[1] ? 0.5 : 1);
    }
    return sum;
  };
  const grid = Array.from({ length: 2001 }, (_, i) => 20 + i * 0.01);
  const best = grid.reduce((a, b) => (meanPowerW(b) > meanPowerW(a) ? b : a));

  const dayOf = (seed: number): LadderAnswer => {
    const { input, truth } = simulateCurveDay({
      seed,
      fromRpm: 2000,
      toRpm: 4000,
      bandRpm: BAND,
      leadsDeg: LEADS,
      calibrationPercent: 0,
      offsetSdPercent: 0.3,
    });
    const pulls = input.pulls.map((pull) => {
      const fit = pull.torque!;
      const step = (fit.high - fit.low) / fit.segments;
      const ratioAt = (rpm: number) =>
        torqueNm(pull.setting, rpm) / truth.torqueNm(rpm, pull.setting);
      const scale = ratioAt(3000);
      return {
        ...pull,
        torque: {
          ...fit,
          coefficients: fit.coefficients.map(
            (value, j) =>
              value * ratioAt(Math.min(fit.high, Math.max(fit.low, fit.low + (j - 1) * step))),
          ),
          covariance: fit.covariance.map((value) => value * scale * scale),
        },
      };
    });
    return answerLadder({ ...input, pulls });
  };
  const answers = Array.from({ length: 40 }, (_, seed) => dayOf(seed));

  it('finds its best, which lies near 30.5 degrees, within its 95 % interval in at least 92 % of days', () => {
    expect(best).toBeCloseTo(30.5, 1);
    const held = answers.filter(
      (answer) => (answer.best.low ?? -Infinity) <= best && (answer.best.high ?? Infinity) >= best,
    );
    expect(held.length / answers.length).toBeGreaterThanOrEqual(0.92);
  });

  it('finds each step within its 95 % interval in at least 92 % of steps', () => {
    const steps = answers.flatMap((answer) => answer.steps);
    const held = steps.filter(({ from, to, lowPercent, highPercent }) => {
      const gain = 100 * (meanPowerW(to) / meanPowerW(from) - 1);
      return lowPercent <= gain && gain <= highPercent;
    });
    expect(held.length / steps.length).toBeGreaterThanOrEqual(0.92);
  });

  it('loses, on the mean of the days, what the regression loses at 10 degrees of retard', () => {
    const at = ({ response }: LadderAnswer, leadDeg: number) => {
      const i = response.setting.findIndex((setting) => setting >= leadDeg);
      const [a, b] = [response.setting[i - 1]!, response.setting[i]!];
      const u = (leadDeg - a) / (b - a);
      return (1 - u) * response.meanPowerW[i - 1]! + u * response.meanPowerW[i]!;
    };
    const losses = answers.map((answer) => 100 * (1 - at(answer, best - 10) / at(answer, best)));
    const mean = losses.reduce((a, b) => a + b, 0) / losses.length;
    const truly = 100 * (1 - meanPowerW(best - 10) / meanPowerW(best));
    // 0.3 % a pull over nine rungs and forty days leaves the mean loss uncertain by about 0.07 %.
    expect(truly).toBeCloseTo(1.6, 1);
    expect(Math.abs(mean - truly)).toBeLessThan(0.2);
  });
});

describe('what the simulated air does', () => {
  // Check values of TRADE.md 1.1 for the June 1990 form of SAE J1349, computed there with Hyland-Wexler vapour
  // pressure; ours is Buck 1981, which moves the last digit.
  it.each([
    [101_325, 25, 0, 0.97292],
    [101_325, 20, 0.5, 0.97656],
    [98_000, 30, 0.6, 1.05408],
    [95_000, 35, 0.4, 1.10049],
    [102_000, 10, 0.7, 0.94558],
    [99_000, 25, 0, 1],
  ])('%i Pa, %i °C, humidity %f', (pressureAbsPa, celsius, humidity, factor) => {
    const air = { pressureAbsPa, temperatureK: celsius + 273.15, humidity };
    expect(Math.abs(trueAirFactor(air) - factor)).toBeLessThan(3e-5);
  });
});

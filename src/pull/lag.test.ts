import { describe, expect, it } from 'vitest';
import { findPulls } from './findPulls.ts';
import { type Lag, lagFromThrottle } from './lag.ts';
import type { Recording } from './recording.ts';
import { type SimulatedPull, simulatedPull } from './simulated.fixture.ts';

const torqueOf = ({ channels }: Recording) =>
  channels.find(({ quantity }) => quantity === 'torque')!;

function lagsOf(pull: SimulatedPull, seeds: number): Lag[] {
  return Array.from({ length: seeds }, (_, seed) => {
    const recording = simulatedPull({ ...pull, seed: 31 * seed + 7 });
    const [span] = findPulls(recording);
    return lagFromThrottle(recording, torqueOf(recording), span!, pull.inertiaKgM2 ?? 0.5)!;
  });
}

const LAGS_S = [0.02, 0.05, 0.1, 0.2];
const SWEEPS = [150, 400, 900];
const FILLINGS_S = [0, 0.02, 0.045];
const cases = LAGS_S.flatMap((lagS) =>
  SWEEPS.flatMap((rateRpmPerS) =>
    FILLINGS_S.map((fillingS) => ({ lagS, rateRpmPerS, fillingS, hertz: 50 })),
  ),
);

describe('the lag read from the throttle', () => {
  // Truth: the simulated cell's own time constants.
  it('is the sensor’s and not the manifold’s, with an sd that its error keeps to', () => {
    const errors = cases.flatMap((pull) =>
      lagsOf(pull, 4).map(({ lagS, sdS }) => ({ pull, error: lagS - pull.lagS, sdS })),
    );
    const rms = (values: number[]) =>
      Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
    const meanError = errors.reduce((sum, { error }) => sum + error, 0) / errors.length;
    expect(Math.abs(meanError)).toBeLessThan(0.004);
    for (const lag of LAGS_S) {
      const own = errors.filter(({ pull }) => pull.lagS === lag);
      expect(rms(own.map(({ error }) => error))).toBeLessThan(0.01 + 0.05 * lag);
    }
    for (const rate of SWEEPS) {
      const own = errors.filter(({ pull }) => pull.rateRpmPerS === rate);
      expect(rms(own.map(({ error }) => error))).toBeLessThan(0.014);
    }
    const z = errors.map(({ error, sdS }) => error / sdS);
    expect(rms(z)).toBeGreaterThan(0.5);
    expect(rms(z)).toBeLessThan(1.4);
    expect(z.filter((value) => Math.abs(value) > 3).length / z.length).toBeLessThan(0.02);
  });

  it('says how little a slow logger lets it see', () => {
    const [quick] = lagsOf({ lagS: 0.08, fillingS: 0.03, hertz: 100 }, 1);
    const [slow] = lagsOf({ lagS: 0.08, fillingS: 0.03, hertz: 20 }, 1);
    expect(slow!.sdS).toBeGreaterThan(1.5 * quick!.sdS);
  });

  it('is none where the throttle does not move, or moves and the torque does not follow', () => {
    const recording = simulatedPull({ throttle: false });
    const [span] = findPulls(recording);
    expect(lagFromThrottle(recording, torqueOf(recording), span!, 0.5)).toBeNull();
    const torque = torqueOf(recording);
    const still = simulatedPull();
    const ramp = {
      ...torque,
      values: torque.values.map((_, row) => 300 + ((row * 7919) % 13)),
    };
    expect(lagFromThrottle(still, ramp, findPulls(still)[0]!, 0.5)).toBeNull();
  });
});

import { describe, expect, it } from 'vitest';
import { evaluateSpline } from '../numerics/index.ts';
import { curveOf } from './curve.ts';
import { findPulls } from './findPulls.ts';
import type { Recording } from './recording.ts';
import { changed, options, simulatedPull, TRUTH } from './simulated.fixture.ts';
import type { CurveOptions } from './types.ts';

const recording = simulatedPull({ hertz: 20 });
const span = findPulls(recording)[0]!;
const first = (from: Recording, given: CurveOptions = options()) =>
  curveOf(from, findPulls(from)[0]!, given);

describe('blips', () => {
  it('marks a blip, with where and how big, and does not follow it', () => {
    const clean = first(recording);
    const at = Math.floor((span.firstRow + span.lastRow) / 2);
    const struck = changed(recording, 'torque', (value, row) =>
      row >= at && row < at + 4 ? value - 60 : value,
    );
    const curve = first(struck);
    const blip = curve.marks.find(({ kind }) => kind === 'blip');
    expect(blip?.sizeNm).toBeLessThan(-40);
    expect(Math.abs((blip!.fromRpm! + blip!.toRpm!) / 2 - 4500)).toBeLessThan(150);
    curve.speedRpm.forEach((rpm, i) => {
      const apart = curve.torqueNm[i]! / evaluateSpline(clean.spline, rpm) - 1;
      expect(Math.abs(apart)).toBeLessThan(0.01);
    });
  });

  it('marks nothing on a cell next to without noise, whatever its curve', () => {
    const humped = (rpm: number) => TRUTH(rpm) + 12 * Math.exp(-0.5 * ((rpm - 4050) / 200) ** 2);
    const still = { noise: 0, wander: 0, speedNoiseRpm: 0 };
    const whole = (torque: number) => Math.round(torque);
    for (const truth of [TRUTH, humped]) {
      const quiet = simulatedPull({ ...still, truth });
      for (const each of [
        quiet,
        changed(quiet, 'torque', whole),
        simulatedPull({ ...still, truth, noise: 3e-4, wander: 2e-4 }),
      ])
        expect(first(each).marks.filter(({ kind }) => kind === 'blip')).toEqual([]);
    }
  });

  it('says the size of a blip in words that are never nothing', () => {
    const small = first(
      changed(recording, 'torque', (value, row) => 0.01 * (row === 160 ? 1.3 * value : value)),
      options({}, 0.005),
    );
    const blip = small.marks.find(({ kind }) => kind === 'blip')!;
    expect(blip.sentence).toMatch(/stood 1\.\d N·m above/);
  });
});

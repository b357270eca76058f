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
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const wavy = (rpm: number) => TRUTH(rpm) + 2 * seed * Math.sin(rpm / 180);
      const quiet = { seed, truth: wavy, noise: 2e-5, wander: 1e-5, speedNoiseRpm: 0.05 };
      const { marks } = first(simulatedPull(quiet));
      expect(marks.filter(({ kind }) => kind === 'blip')).toEqual([]);
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

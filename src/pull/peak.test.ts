import { describe, expect, it } from 'vitest';
import { curveOf } from './curve.ts';
import { findPulls } from './findPulls.ts';
import { options, simulatedPull } from './simulated.fixture.ts';

const peaksOf = (truth: (speedRpm: number) => number) => {
  const recording = simulatedPull({ truth });
  const curve = curveOf(recording, findPulls(recording)[0]!, options());
  const said = curve.marks.filter(({ sentence }) => sentence.includes('end of the sweep'));
  return { ...curve, said: said.map(({ sentence }) => sentence) };
};

describe('a peak at an end of the sweep', () => {
  it('is said to stand there, and the others are not', () => {
    const rising = peaksOf((rpm) => 300 + 0.02 * (rpm - 2500));
    expect(rising.peakTorque.atEdge).toBe('high');
    expect(rising.peakPower.atEdge).toBe('high');
    expect(rising.said).toHaveLength(2);
    const falling = peaksOf((rpm) => 420 - 0.03 * (rpm - 2500));
    expect(falling.peakTorque.atEdge).toBe('low');
    expect(falling.said[0]).toMatch(/^Torque may be highest at the lower end/);
    const arched = peaksOf((rpm) => 420 - 2.5e-5 * (rpm - 4200) ** 2);
    expect(arched.peakTorque.atEdge).toBeUndefined();
    expect(arched.peakPower.atEdge).toBeUndefined();
    expect(arched.said).toEqual([]);
  });

  it('is open at the top: a longer sweep may show more', () => {
    // Torque that falls just slowly enough for power to go on rising.
    const truth = (rpm: number) => 420 - 2.2e-5 * (rpm - 4600) ** 2;
    const short = simulatedPull({ truth, toRpm: 5400 });
    const curve = curveOf(short, findPulls(short)[0]!, options());
    const beyond = truth(6500) * 6500 * (Math.PI / 30);
    expect(curve.peakPower.atEdge).toBe('high');
    expect(curve.peakPower.high).toBeLessThan(beyond);
  });
});

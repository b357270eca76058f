import { describe, expect, it } from 'vitest';
import { findPulls } from './findPulls.ts';
import { paceOf } from './pace.ts';
import { durationOf, reachedAt } from './reached.ts';
import type { PullSpan, Recording } from './recording.ts';
import { channel, recordingOf, simulatedPull } from './simulated.fixture.ts';

/** 2000 to 6000 rev/min at 1000 a second, standing still at 4000 for a second: known from outside to the row. */
const HERTZ = 100;
const speedAt = (t: number) =>
  t < 2 ? 2000 + 1000 * t : t < 3 ? 4000 : Math.min(6000, 4000 + 1000 * (t - 3));
const rows = Array.from({ length: 5 * HERTZ + 1 }, (_, row) => row / HERTZ);
const recording = (speedOf: (t: number) => number, startS = 0): Recording =>
  recordingOf([
    channel(
      'time',
      rows.map((t) => startS + t),
    ),
    channel(
      'speed',
      rows.map((t, row) => speedOf(t) + 8 * Math.sin(row * 2.4)),
    ),
  ]);
const whole = (direction: PullSpan['direction']): PullSpan => ({
  firstRow: 0,
  lastRow: rows.length - 1,
  direction,
  fromRpm: 2000,
  toRpm: 6000,
});

describe('the pace of a pull', () => {
  it('is that of the recording: as fast as it swept, and standing where it stood', () => {
    // A clock that shows the hour of the day changes nothing.
    const pace = paceOf(recording(speedAt, 43_200), whole('rising'))!;
    expect(durationOf(pace)).toBeCloseTo(5, 9);
    for (const t of [0.5, 1, 1.7, 3.5, 4, 4.8])
      expect(Math.abs(reachedAt(pace, t).toRpm - speedAt(t)), `at ${t} s`).toBeLessThan(20);
    // A second of pause is a second in which nothing grows, but for what the bends are smoothed by.
    const { toRpm: atPause } = reachedAt(pace, 2.2);
    expect(Math.abs(atPause - 4000)).toBeLessThan(10);
    expect(reachedAt(pace, 2.9).toRpm - atPause).toBeLessThan(10);
    // At an even pace of 800 a second it would stand at 4360 by then.
    expect(reachedAt(pace, 2.95).toRpm).toBeLessThan(4030);
    expect(reachedAt(pace, 9).toRpm).toBeCloseTo(6000, -2);
  });

  it('never gives back what was reached, whichever way it sweeps, also where it slips', () => {
    const slips = (t: number) => 6000 - 800 * t + (t > 2 && t < 2.4 ? 150 : 0);
    const pace = paceOf(recording(slips), whole('falling'))!;
    let before = reachedAt(pace, 0);
    expect(before.fromRpm).toBe(before.toRpm);
    for (let t = 0.02; t <= 5; t += 0.02) {
      const now = reachedAt(pace, t);
      expect(now.fromRpm).toBeLessThanOrEqual(before.fromRpm);
      expect(now.toRpm).toBeGreaterThanOrEqual(before.toRpm);
      expect(now.atRpm).toBeGreaterThanOrEqual(now.fromRpm);
      before = now;
    }
    expect(before.fromRpm).toBeLessThan(2050);
  });

  it('passes over a wild reading, which would else stand as reached for good', () => {
    const wild = (t: number) => (Math.abs(t - 1) < 0.005 ? 9000 : speedAt(t));
    const pace = paceOf(recording(wild), whole('rising'))!;
    expect(reachedAt(pace, 2.5).toRpm).toBeLessThan(4030);
  });

  it('goes from reading to reading where the logger is slow', () => {
    const times = Array.from({ length: 11 }, (_, row) => row / 2);
    const slow = recordingOf([channel('time', times), channel('speed', times.map(speedAt))]);
    const pace = paceOf(slow, { ...whole('rising'), lastRow: 10 })!;
    expect(reachedAt(pace, 1.25).atRpm).toBeCloseTo(3250, 0);
    expect(reachedAt(pace, 2.75).atRpm).toBeCloseTo(4000, 0);
  });

  it('follows held steps of minutes without smoothing them away', () => {
    const held = (t: number) => 2000 + 500 * Math.floor(t / 30);
    const times = Array.from({ length: 2400 }, (_, row) => row / 10);
    const steps = recordingOf([channel('time', times), channel('speed', times.map(held))]);
    const pace = paceOf(steps, { ...whole('held steps'), lastRow: 2399 })!;
    expect(durationOf(pace)).toBeCloseTo(239.9, 6);
    for (const t of [10, 25, 40, 100, 200])
      expect(reachedAt(pace, t).toRpm).toBeCloseTo(held(t), 0);
  });

  it('is that of the span that is found in a recording with hold and fall-off around it', () => {
    const found = simulatedPull({ rateRpmPerS: 800 });
    const [span] = findPulls(found);
    const pace = paceOf(found, span!)!;
    // 2500 to 6500 rev/min at 800 a second.
    expect(durationOf(pace)).toBeCloseTo(5, 0);
    expect(Math.abs(reachedAt(pace, 2.5).atRpm - 4500)).toBeLessThan(120);
  });

  it('is not known of a table by speed, nor of rows without a clock', () => {
    const table = { ...recording(speedAt), kind: 'speed table' as const };
    expect(paceOf(table, whole('table'))).toBeNull();
    const clockless = recordingOf([channel('speed', rows.map(speedAt))]);
    expect(paceOf(clockless, whole('rising'))).toBeNull();
    const stopped = recordingOf([
      channel(
        'time',
        rows.map(() => 7),
      ),
      channel('speed', rows.map(speedAt)),
    ]);
    expect(paceOf(stopped, whole('rising'))).toBeNull();
  });
});

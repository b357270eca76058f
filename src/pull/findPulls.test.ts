import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { findPulls } from './findPulls.ts';
import { changed, channel, recordingOf, simulatedPull } from './simulated.fixture.ts';

const timeOf = (recording: ReturnType<typeof simulatedPull>, row: number) =>
  recording.channels.find(({ quantity }) => quantity === 'time')!.values[row]!;

/** One log at 50 Hz: the pull again and again, with the engine idling for some seconds before each and at the end. */
function idlingBetween(pull: ReturnType<typeof simulatedPull>, times: number, idleS: number) {
  const normal = gaussian(5);
  const idle = new Map([
    ['speed', 1100],
    ['torque', 4],
    ['throttle', 0.04],
  ]);
  const columns = pull.channels.flatMap(({ quantity, values }) => {
    const level = idle.get(quantity);
    if (level === undefined) return [];
    const column: number[] = [];
    for (let n = 0; n < times; n += 1) {
      for (let i = 0; i < idleS * 50; i += 1) column.push(level * (1 + 0.02 * normal()));
      for (const value of values) column.push(value);
    }
    for (let i = 0; i < 10 * 50; i += 1) column.push(level * (1 + 0.02 * normal()));
    return [channel(quantity, column)];
  });
  const time = columns[0]!.values.map((_, row) => row / 50);
  return recordingOf([channel('time', time), ...columns]);
}

describe('finding the pulls of a recording', () => {
  it.each([
    [20, 150],
    [50, 400],
    [100, 700],
    [400, 300],
  ])(
    'a rising sweep at %i Hz and %i rev/min per s, from the end of the hold to the closing throttle',
    (hertz, rateRpmPerS) => {
      const recording = simulatedPull({ hertz, rateRpmPerS });
      const spans = findPulls(recording);
      expect(spans.length).toBe(1);
      const [span] = spans;
      expect(span!.direction).toBe('rising');
      expect(Math.abs(timeOf(recording, span!.firstRow) - 1.3)).toBeLessThan(0.15);
      expect(Math.abs(timeOf(recording, span!.lastRow) - (1.3 + 4000 / rateRpmPerS))).toBeLessThan(
        0.06,
      );
      expect(Math.abs(span!.fromRpm - 2500)).toBeLessThan(80);
      expect(Math.abs(span!.toRpm - 6500)).toBeLessThan(60);
    },
  );

  it('does without a throttle channel: the fall-off is not taken for a pull', () => {
    const spans = findPulls(simulatedPull({ throttle: false }));
    expect(spans.map(({ direction }) => direction)).toEqual(['rising']);
    expect(spans[0]!.toRpm).toBeGreaterThan(6380);
    expect(spans[0]!.toRpm).toBeLessThan(6540);
  });

  it('a falling sweep under load', () => {
    const spans = findPulls(simulatedPull({ fromRpm: 6500, toRpm: 2800, fallsOff: false }));
    expect(spans.length).toBe(1);
    expect(spans[0]).toMatchObject({ direction: 'falling' });
    expect(spans[0]!.toRpm).toBeLessThan(2900);
  });

  it('several pulls in one file', () => {
    const spans = findPulls(simulatedPull({ pulls: 3 }));
    expect(spans.map(({ direction }) => direction)).toEqual(['rising', 'rising', 'rising']);
    expect(spans[0]!.lastRow).toBeLessThan(spans[1]!.firstRow);
  });

  it('all pulls of a log of hours, most of it idling', () => {
    const log = idlingBetween(simulatedPull({ hertz: 50 }), 12, 600);
    expect(timeOf(log, log.rows - 1)).toBeGreaterThan(7200);
    const spans = findPulls(log);
    expect(spans.map(({ direction }) => direction)).toEqual(Array(12).fill('rising'));
    for (const { fromRpm, toRpm } of spans) {
      expect(Math.abs(fromRpm - 2500)).toBeLessThan(80);
      expect(Math.abs(toRpm - 6500)).toBeLessThan(60);
    }
  });

  it('held steps', () => {
    const normal = gaussian(3);
    const [time, speed, torque]: number[][] = [[], [], []];
    for (let i = 0; i < 7 * 4 * 20; i++) {
      const t = i / 20;
      const step = Math.floor(t / 4);
      const into = Math.min(1, (t - 4 * step) / 0.6);
      time!.push(t);
      speed!.push(2500 + 500 * (step - 1 + (step === 0 ? 1 : into)) + 3 * normal());
      torque!.push(400 + 2 * normal());
    }
    const recording = recordingOf([
      channel('time', time!),
      channel('speed', speed!),
      channel('torque', torque!),
    ]);
    const spans = findPulls(recording);
    expect(spans.length).toBe(1);
    expect(spans[0]).toMatchObject({ direction: 'held steps' });
    expect(Math.abs(spans[0]!.toRpm - spans[0]!.fromRpm)).toBeGreaterThan(2400);
  });

  it('a throttle that closes early ends the pull there', () => {
    const whole = simulatedPull();
    const early = changed(whole, 'throttle', (value, row) =>
      timeOf(whole, row) > 7 ? 0.05 : value,
    );
    const [span] = findPulls(early);
    expect(Math.abs(timeOf(early, span!.lastRow) - 7)).toBeLessThan(0.06);
  });

  it('tables of speed, one after the other, in either direction', () => {
    const up = [3000, 3250, 3500, 3750, 4000, 4250];
    const speed = [...up, ...up, ...up.toReversed()];
    const table = recordingOf(
      [
        channel('speed', speed),
        channel(
          'torque',
          speed.map(() => 300),
        ),
      ],
      'speed table',
    );
    const spans = findPulls(table);
    expect(spans.map(({ firstRow, lastRow }) => [firstRow, lastRow])).toEqual([
      [0, 5],
      [6, 11],
      [12, 17],
    ]);
    expect(spans.every(({ direction }) => direction === 'table')).toBe(true);
  });

  it('says why there is none', () => {
    const time = Array.from({ length: 200 }, (_, i) => i / 20);
    const flat = recordingOf([
      channel('time', time),
      channel(
        'speed',
        time.map(() => 3000),
      ),
      channel(
        'torque',
        time.map(() => 300),
      ),
    ]);
    expect(() => findPulls(flat)).toThrow(/never rises/);
    try {
      findPulls(flat);
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).place).toMatchObject({
        column: 'speed',
        found: '3000 to 3000 rev/min',
      });
    }
    expect(() => findPulls(recordingOf([channel('time', time)]))).toThrow(InputError);
    expect(() => findPulls(recordingOf([channel('speed', time)]))).toThrow(
      /neither torque nor power/,
    );
  });
});

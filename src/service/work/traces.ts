/** Channels of a recording thinned for drawing: each bin of rows keeps its lowest and highest value. */
import type { Channel, PullSpan, Recording } from '../../pull/index.ts';

export interface Trace {
  readonly pullId: string;
  readonly span: PullSpan | null;
  /** Rows of the window that is drawn, and the last of them. */
  readonly rows: number;
  readonly lastRow: number;
  /** First row of each bin. */
  readonly row: readonly number[];
  readonly timeS: readonly (number | null)[] | null;
  readonly channels: readonly {
    readonly header: string;
    readonly quantity: string;
    readonly unit: string | null;
    readonly insideUnit: string;
    readonly low: readonly (number | null)[];
    readonly high: readonly (number | null)[];
  }[];
}

const INSIDE_UNITS: Readonly<Record<string, string>> = {
  time: 's',
  speed: 'rev/min',
  torque: 'N·m',
  power: 'W',
  fuelFlow: 'kg/s',
  airFlow: 'kg/s',
  oilPressure: 'Pa',
  barometer: 'Pa',
  manifoldPressure: 'Pa',
  oilTemperature: 'K',
  waterTemperature: 'K',
  airTemperature: 'K',
  exhaustTemperature: 'K',
  lead: 'deg',
};

export function traceOf(
  pullId: string,
  recording: Recording,
  span: PullSpan | null,
  firstRow: number,
  lastRow: number,
  points: number,
): Trace {
  const rows = Math.max(0, lastRow - firstRow + 1);
  const bins = Math.min(points, rows);
  const starts = Array.from(
    { length: bins },
    (_, bin) => firstRow + Math.floor((bin * rows) / bins),
  );
  const endOf = (bin: number) => (bin + 1 < bins ? starts[bin + 1]! : lastRow + 1);
  const extreme = (channel: Channel, sign: 1 | -1) =>
    starts.map((start, bin) => {
      let best: number | null = null;
      for (let row = start; row < endOf(bin); row += 1) {
        const value = channel.values[row]!;
        if (Number.isFinite(value) && (best === null || sign * value > sign * best)) best = value;
      }
      return best;
    });
  const time = recording.channels.find((channel) => channel.quantity === 'time');
  return {
    pullId,
    span,
    rows,
    lastRow,
    row: starts,
    timeS:
      time === undefined
        ? null
        : starts.map((row) => (Number.isFinite(time.values[row]) ? time.values[row]! : null)),
    channels: recording.channels
      .filter((channel) => channel !== time)
      .map((channel) => ({
        header: channel.header,
        quantity: channel.quantity,
        unit: channel.unit,
        insideUnit: INSIDE_UNITS[channel.quantity] ?? '',
        low: extreme(channel, -1),
        high: extreme(channel, 1),
      })),
  };
}

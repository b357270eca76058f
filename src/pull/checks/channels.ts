import { quantile } from '../../numerics/index.ts';
import { finiteIn } from '../channels.ts';
import type { Channel, Quantity } from '../recording.ts';
import type { Mark } from '../types.ts';
import type { Check, CheckContext } from './context.ts';

/**
 * Channels that move on their own in a running engine; one that does not is stuck. Typed or set ones are not
 * judged.
 */
const LIVELY: readonly Quantity[] = [
  'torque',
  'power',
  'lambda',
  'afr',
  'fuelFlow',
  'airFlow',
  'oilPressure',
  'oilTemperature',
  'waterTemperature',
  'airTemperature',
  'manifoldPressure',
  'exhaustTemperature',
];
/** A channel this part of the pull on one value, after it moved, is stuck. */
const STUCK_SHARE = 0.2;
const LEAST_ROWS = 20;
/**
 * Air that moves by more than this within one pull makes one factor a pull doubtful. Common practice, no
 * source.
 */
const DRIFT = { airTemperature: 4, barometer: 300 } as const;

/** Channels that stopped moving, stand at the end of their scale, or drift within the pull. */
export const channelCheck: Check = (context) =>
  context.recording.channels.flatMap((channel) => [
    ...stuckOrClipped(context, channel),
    ...drifting(context, channel),
  ]);

interface LongRun {
  readonly value: number;
  readonly from: number;
  readonly length: number;
}

function stuckOrClipped({ span, speed }: CheckContext, channel: Channel): Mark[] {
  if (!LIVELY.includes(channel.quantity) || channel.derivedFrom !== undefined) return [];
  const { firstRow, lastRow } = span;
  const values = channel.values.subarray(firstRow, lastRow + 1);
  const { longest, runs, finite, low, high } = runsOf(values);
  if (finite < LEAST_ROWS) return [];
  // Inlet air that never moves is said where the air is taken from the channel.
  if (runs === 1 && channel.quantity === 'airTemperature') return [];
  const usual = finite / runs;
  const isLong = longest.length >= Math.max(LEAST_ROWS, STUCK_SHARE * finite);
  const from = speed.values[firstRow + longest.from]!;
  const to = speed.values[Math.min(lastRow, firstRow + longest.from + longest.length - 1)]!;
  const where = { fromRpm: Math.min(from, to), toRpm: Math.max(from, to) };
  const gravest = channel.quantity === 'torque' ? 'stop' : 'look again';
  const isEnd = longest.value === high || longest.value === low;
  if (runs > 1 && isEnd && longest.length >= 10 && longest.length > 8 * usual && high > low) {
    // At an end of everything it showed, and again and again: the scale ended, not the signal.
    const share = values.filter((value) => value === longest.value).length / finite;
    if (share > 0.05 && !isLastRun(longest, values.length)) {
      return [
        {
          kind: 'clipped channel',
          severity: gravest,
          sentence: `"${channel.header}" stands at the end of its scale from ${where.fromRpm.toFixed(0)} to ${where.toRpm.toFixed(0)} rev/min: what it measures went further.`,
          ...where,
        },
      ];
    }
  }
  if (!isLong || (runs > 1 && longest.length < 8 * usual)) return [];
  return [
    {
      kind: 'stuck channel',
      severity: gravest,
      sentence:
        runs === 1
          ? `"${channel.header}" did not move by one digit over the whole pull.`
          : `"${channel.header}" stopped moving from ${from.toFixed(0)} to ${to.toFixed(0)} rev/min.`,
      ...where,
    },
  ];
}

const isLastRun = ({ from, length }: LongRun, rows: number) => from + length >= rows - 1;

/**
 * One pass over the rows: runs of one value, the longest of them, how many readings there are and between
 * what.
 */
function runsOf(values: Float64Array) {
  let longest: LongRun = { value: Number.NaN, from: 0, length: 0 };
  let [runs, finite, low, high] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let from = 0; from < values.length; ) {
    const value = values[from]!;
    let end = from + 1;
    while (end < values.length && values[end] === value) end++;
    if (Number.isFinite(value)) {
      runs++;
      finite += end - from;
      if (value < low) low = value;
      if (value > high) high = value;
      if (end - from > longest.length) longest = { value, from, length: end - from };
    }
    from = end;
  }
  return { longest, runs, finite, low, high };
}

function drifting({ span }: CheckContext, channel: Channel): Mark[] {
  const limit = DRIFT[channel.quantity as keyof typeof DRIFT];
  if (limit === undefined) return [];
  const values = finiteIn(channel, span);
  if (values.length < LEAST_ROWS) return [];
  const part = Math.floor(values.length / 5);
  const moved = quantile(values.slice(-part), 0.5) - quantile(values.slice(0, part), 0.5);
  if (Math.abs(moved) < limit) return [];
  const isTemperature = channel.quantity === 'airTemperature';
  return [
    {
      kind: 'drifting channel',
      severity: 'look again',
      sentence: isTemperature
        ? `Inlet air moved by ${moved.toFixed(1)} °C during the pull; one factor for the whole pull is off by ${(0.1 * Math.abs(moved)).toFixed(1)} % of torque at its ends.`
        : `The air pressure moved by ${(moved / 100).toFixed(1)} hPa during the pull, which no weather does: the sensor sees the cell's fans or drifts.`,
    },
  ];
}

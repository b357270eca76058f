import { InputError } from '../errors.ts';
import type { Channel, PullSpan, Quantity, Recording } from './recording.ts';

/** All channels of a quantity, in the order of the file. */
export function channelsOf(recording: Recording, quantity: Quantity): readonly Channel[] {
  return recording.channels.filter((channel) => channel.quantity === quantity);
}

const CRANK_SIDE = /engine|crank|flywheel|motor/i;
const BRAKE_SIDE = /brake|dyno|roller|absorber/i;

/** Whether a header says that the column belongs to the crank or to the brake; null: it says neither. */
export function sideOf(channel: Channel): 'crank' | 'brake' | null {
  if (CRANK_SIDE.test(channel.header)) return 'crank';
  return BRAKE_SIDE.test(channel.header) ? 'brake' : null;
}

/**
 * The engine's speed: the column that says so, else the first that does not say it is the brake's.
 * @throws InputError when the recording has no speed
 */
export function speedChannel(recording: Recording): Channel {
  const speeds = channelsOf(recording, 'speed');
  const found =
    speeds.find((channel) => sideOf(channel) === 'crank') ??
    speeds.find((channel) => sideOf(channel) === null) ??
    speeds[0];
  if (found === undefined) throw new InputError('The recording has no speed, so it is not a pull.');
  return found;
}

/** More readings than this do not move a median worth having. */
const ENOUGH = 1500;

/** Finite values of the rows of a pull, thinned evenly to some thousand: for medians and quantiles. */
export function finiteIn(
  channel: Channel,
  { firstRow, lastRow }: Pick<PullSpan, 'firstRow' | 'lastRow'>,
): Float64Array {
  const stride = Math.max(1, Math.floor((lastRow - firstRow + 1) / ENOUGH));
  const values = new Float64Array(Math.ceil((lastRow - firstRow + 1) / stride));
  let count = 0;
  for (let row = firstRow; row <= lastRow; row += stride) {
    const value = channel.values[row]!;
    if (Number.isFinite(value)) values[count++] = value;
  }
  return values.subarray(0, count);
}

/** Finite values of the whole recording, thinned in the same way. */
export function finiteOf(channel: Channel): Float64Array {
  return finiteIn(channel, { firstRow: 0, lastRow: channel.values.length - 1 });
}

/**
 * Values that never change over the rows of a pull, at least `rows` of them: a filler, a stuck or a typed
 * channel.
 */
export function isUnchanging(values: Float64Array, rows = 20): boolean {
  if (values.length < rows) return false;
  const first = values[0]!;
  return values.every((value) => value === first);
}

/** Mean of the values; null of none. */
export function meanOf(values: ArrayLike<number>): number | null {
  if (values.length === 0) return null;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/** `null` where the value is not a number that JSON can hold. */
export function orNull(value: number | null | undefined): number | null {
  return value !== null && value !== undefined && Number.isFinite(value) ? value : null;
}

import { median } from '../numerics/index.ts';
import { speedChannel } from './channels.ts';
import { usableTime } from './points.ts';
import type { Pace } from './reached.ts';
import type { PullSpan, Recording } from './recording.ts';

/** Finer than any picture of a film; longer recordings get coarser steps. */
const STEP_S = 0.02;
const MOST_STEPS = 1500;
/**
 * Half of the stretch of which the middle reading is taken: a wild sample is passed over, and a bend of the sweep stays
 * within this of its place.
 */
const HALF_S = 0.06;

/**
 * Speed against time of one pull, as the recording has it, pauses and slow parts included.
 * @returns null where its rows have no time of their own: a table by speed, a file without a clock
 * @throws InputError when the recording has no speed
 */
export function paceOf(recording: Recording, span: PullSpan): Pace | null {
  if (recording.kind === 'speed table' || span.direction === 'table') return null;
  const time = usableTime(recording, span);
  if (time === null) return null;
  const speed = speedChannel(recording);
  const [times, speeds]: [number[], number[]] = [[], []];
  for (let row = span.firstRow; row <= span.lastRow; row++) {
    const [t, n] = [time.values[row]!, speed.values[row]!];
    if (!Number.isFinite(n) || !(t > (times.at(-1) ?? Number.NEGATIVE_INFINITY))) continue;
    times.push(t);
    speeds.push(n);
  }
  const origin = times[0] ?? 0;
  const durationS = (times.at(-1) ?? 0) - origin;
  if (times.length < 6 || !(durationS > 0)) return null;
  const steps = Math.max(1, Math.min(MOST_STEPS, Math.round(durationS / STEP_S)));
  const timeS = Array.from({ length: steps + 1 }, (_, step) => (step * durationS) / steps);
  return { timeS, speedRpm: timeS.map((at) => speedNear(times, speeds, origin + at)) };
}

/** The middle of the readings about a moment; between two where the logger is slower than that. */
function speedNear(times: readonly number[], speeds: readonly number[], at: number): number {
  const last = times.length - 1;
  // As much before as after: a sweep has no bias at its ends.
  const half = Math.min(HALF_S, at - times[0]!, times[last]! - at);
  const [from, to] = [firstFrom(times, at - half), firstFrom(times, at + half)];
  const near = speeds.slice(from, times[to]! <= at + half ? to + 1 : to);
  if (near.length >= 3) return median(near);
  const after = Math.min(last, Math.max(1, firstFrom(times, at)));
  const part = (at - times[after - 1]!) / (times[after]! - times[after - 1]!);
  return (
    speeds[after - 1]! + Math.min(1, Math.max(0, part)) * (speeds[after]! - speeds[after - 1]!)
  );
}

/** First place at or after a time; the last where there is none. */
function firstFrom(times: readonly number[], at: number): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

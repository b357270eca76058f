import { speedChannel } from './channels.ts';
import { condense, type Track } from './condense.ts';
import { usableTime } from './points.ts';
import type { Pace } from './reached.ts';
import type { PullSpan, Recording } from './recording.ts';
import { trackSpeed } from './speedTrack.ts';

/** Finer than any picture of a film; longer recordings get coarser steps. */
const STEP_S = 0.02;
const MOST_STEPS = 1500;
const MOST_SPEEDS = 2000;
/** The smoothed track follows the control of a brake up to so long; held steps of minutes stand as they were read. */
const TRACKED_S = 24;

/**
 * Speed against time of one pull, as the recording has it, pauses and slow parts included.
 * @returns null where its rows have no time of their own: a table by speed, a file without a clock
 * @throws InputError when the recording has no speed
 */
export function paceOf(recording: Recording, span: PullSpan): Pace | null {
  if (recording.kind === 'speed table' || span.direction === 'table') return null;
  const time = usableTime(recording, span);
  if (time === null) return null;
  const track = condense(time, speedChannel(recording), span, MOST_SPEEDS);
  const count = track.timeS.length;
  if (count < 6) return null;
  const origin = track.timeS[0]!;
  const durationS = track.timeS[count - 1]! - origin;
  if (!(durationS > 0)) return null;
  const speedAt = speedOver(track, durationS);
  const steps = Math.max(1, Math.min(MOST_STEPS, Math.round(durationS / STEP_S)));
  const timeS = Array.from({ length: steps + 1 }, (_, step) => (step * durationS) / steps);
  return { timeS, speedRpm: timeS.map((at) => speedAt(origin + at)) };
}

function speedOver(track: Track, durationS: number): (timeS: number) => number {
  if (durationS <= TRACKED_S) return trackSpeed(track).speedRpm;
  const { timeS, value } = track;
  let row = 0;
  return (at) => {
    if (at < timeS[row]!) row = 0;
    while (row + 2 < timeS.length && timeS[row + 1]! < at) row++;
    const part = (at - timeS[row]!) / (timeS[row + 1]! - timeS[row]!);
    return value[row]! + Math.min(1, Math.max(0, part)) * (value[row + 1]! - value[row]!);
  };
}

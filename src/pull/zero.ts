import { median, robustSd } from '../numerics/index.ts';
import type { Channel, PullSpan } from './recording.ts';
import type { Mark } from './types.ts';

/** What the torque column reads with the engine at rest, and what was done about it. */
interface Zero {
  /** Taken off every torque of the pull [N·m, in the column's own sense]; null: the file does not show the engine at rest. */
  readonly restNm: number | null;
  readonly marks: readonly Mark[];
}

/** Below this the crank stands still: no engine runs so slowly [rev/min]. */
const AT_REST_RPM = 60;
const LEAST_ROWS = 8;
/** A zero that moved by this part of the pull's torque, or stands so far off, is worth a look. */
const MOVED_SHARE = 0.005;

/**
 * Load-cell zero before and after a pull, where the file shows the engine at rest. One or both are taken out
 * (their mean, where both are there); a zero that moved between them by more than 0.5 % of the pull's torque,
 * and more than its own noise, is flagged.
 */
export function zeroOf(speed: Channel, torque: Channel, span: PullSpan, levelNm: number): Zero {
  const before = atRest(speed, torque, 0, span.firstRow - 1);
  const after = atRest(speed, torque, span.lastRow + 1, torque.values.length - 1);
  const marks: Mark[] = [];
  if (before === null && after === null) return { restNm: null, marks };
  const known = [before, after].filter((rest) => rest !== null);
  const offsetNm = known.reduce((sum, { zeroNm }) => sum + zeroNm, 0) / known.length;
  if (before !== null && after !== null) {
    const moved = after.zeroNm - before.zeroNm;
    const chance = 3 * Math.hypot(before.sdNm, after.sdNm);
    if (Math.abs(moved) > Math.max(MOVED_SHARE * levelNm, chance)) {
      marks.push({
        kind: 'zero',
        severity: 'look again',
        sentence: `The load cell's zero moved by ${moved.toFixed(1)} N·m between before and after the pull (${before.zeroNm.toFixed(1)} to ${after.zeroNm.toFixed(1)} N·m); the mean of both was taken off, which leaves ${Math.abs(moved / 2).toFixed(1)} N·m in doubt.`,
      });
    }
  }
  if (Math.abs(offsetNm) > 0.001 * levelNm) {
    marks.push({
      kind: 'zero',
      severity: Math.abs(offsetNm) > 0.02 * levelNm ? 'look again' : 'note',
      sentence: `With the engine at rest the torque reads ${offsetNm.toFixed(1)} N·m; that zero was taken off.`,
    });
  }
  return { restNm: offsetNm, marks };
}

function atRest(speed: Channel, torque: Channel, from: number, to: number) {
  const values: number[] = [];
  for (let row = Math.max(0, from); row <= to; row++) {
    const rpm = speed.values[row]!;
    if (rpm < AT_REST_RPM && Number.isFinite(torque.values[row]!)) values.push(torque.values[row]!);
  }
  if (values.length < LEAST_ROWS) return null;
  return { zeroNm: median(values), sdNm: robustSd(values) / Math.sqrt(values.length) };
}

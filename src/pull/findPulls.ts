import { InputError } from '../errors.ts';
import { quantile } from '../numerics/index.ts';
import { channelsOf, finiteOf, speedChannel } from './channels.ts';
import type { PullSpan, Recording } from './recording.ts';
import { LEAST_SPAN_SHARE, leastSpanRpm, sweepSpans } from './sweeps.ts';

const LEAST_TABLE_ROWS = 4;

/**
 * Every pull in a recording, in the order of its rows: rising and falling sweeps and held steps of a time
 * series, or the tables of a speed table. Full throttle is told by the throttle channel where there is one
 * that moves, else by the torque that a closed throttle would not leave.
 * @throws InputError when speed or torque is missing, or the speed never rises or falls far enough; names
 *   column and speeds
 */
export function findPulls(recording: Recording): PullSpan[] {
  const speed = speedChannel(recording);
  if (channelsOf(recording, 'torque').length + channelsOf(recording, 'power').length === 0) {
    throw new InputError('The recording has neither torque nor power, so it is not a pull.');
  }
  const finite = finiteOf(speed);
  if (finite.length === 0) {
    throw new InputError('The speed column holds no numbers.', {
      column: speed.header,
      expected: 'speeds in rev/min',
    });
  }
  const loads = [...channelsOf(recording, 'torque'), ...channelsOf(recording, 'power')];
  if (loads.every((channel) => finiteOf(channel).length === 0)) {
    throw new InputError('The torque column holds no numbers.', {
      column: loads[0]!.header,
      expected: 'torque or power',
    });
  }
  const spans =
    recording.kind === 'speed table' ? tableSpans(speed.values) : sweepSpans(recording, speed);
  if (spans.length === 0) {
    const [low, high] = [quantile(finite, 0), quantile(finite, 1)];
    const least = leastSpanRpm(high);
    throw new InputError(
      high - low < least
        ? `The speed never rises: it stays between ${low.toFixed(0)} and ${high.toFixed(0)} rev/min, so there is no pull in this recording.`
        : 'No part of this recording is a pull: the speed never rises or falls steadily under load.',
      {
        column: speed.header,
        found: `${low.toFixed(0)} to ${high.toFixed(0)} rev/min`,
        expected: `a sweep of ${least.toFixed(0)} rev/min or more under load`,
      },
    );
  }
  return spans;
}

/** One span for each table: rows whose speed keeps one direction; a table ends where the speed starts over. */
function tableSpans(speed: Float64Array): PullSpan[] {
  const rows: number[] = [];
  speed.forEach((value, row) => {
    if (Number.isFinite(value)) rows.push(row);
  });
  const spans: PullSpan[] = [];
  let start = 0;
  const close = (end: number) => {
    const part = rows.slice(start, end);
    start = end;
    if (part.length < LEAST_TABLE_ROWS) return;
    const [firstRow, lastRow] = [part[0]!, part[part.length - 1]!];
    const [fromRpm, toRpm] = [speed[firstRow]!, speed[lastRow]!];
    if (Math.abs(toRpm - fromRpm) < LEAST_SPAN_SHARE * Math.max(fromRpm, toRpm)) return;
    spans.push({ firstRow, lastRow, direction: 'table', fromRpm, toRpm });
  };
  const at = (k: number) => speed[rows[k]!]!;
  let farthest = 0;
  for (let i = 1; i < rows.length; i++) {
    const span = at(farthest) - at(start);
    const back = at(farthest) - at(i);
    if (farthest === start || (at(i) - at(farthest)) * span > 0) {
      farthest = i;
    } else if (back * Math.sign(span) > 0.3 * Math.abs(span)) {
      // Back over a third of what the table has covered: it ended at its farthest, and another begins.
      close(farthest + 1);
      farthest = start;
      i = start;
    }
  }
  close(rows.length);
  return spans;
}

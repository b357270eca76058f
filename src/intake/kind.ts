import { FormatError } from '../errors.ts';
import type { Channel, Recording } from '../pull/recording.ts';
import { holdsNumbers } from './derive.ts';
import { shown } from './display.ts';
import type { RawTable } from './types.ts';

/**
 * Refuses what is no recording of a run.
 * @param misfits  columns whose names speak of speed, torque or power but whose units do not, in words
 * @throws FormatError  without a speed, with neither torque nor power, or with a speed that never changes
 */
export function refuseOtherFiles(
  table: RawTable,
  channels: readonly Channel[],
  fileName: string,
  misfits: readonly string[] = [],
): void {
  const has = (quantity: Channel['quantity']) =>
    channels.some((channel) => channel.quantity === quantity);
  const hasSpeed = has('speed');
  const hasLoad = has('torque') || has('power');
  const place = {
    file: fileName,
    ...(table.headerLine === null ? { line: 1 } : { line: table.headerLine }),
    found: shown(table.headers.join(', '), 240),
  };
  if (hasSpeed && hasLoad) {
    const loads = channels.filter(({ quantity }) => quantity === 'torque' || quantity === 'power');
    if (loads.some(holdsNumbers)) return;
    const headers = loads.map(({ header }) => `"${header}"`).join(' and ');
    throw new FormatError(
      `this is not a run file but a file with neither torque nor power: ${headers} ${loads.length === 1 ? 'holds' : 'hold'} no numbers`,
      { ...place, found: 'no numbers', expected: 'numbers of torque or power' },
    );
  }
  const missing = [
    ...(hasSpeed ? [] : ['a file without a speed']),
    ...(hasLoad ? [] : [`${hasSpeed ? 'a file ' : ''}with neither torque nor power`]),
  ].join(' and ');
  const why =
    table.headerLine === null
      ? `it has no header, so none of its ${table.headers.length} columns is known to be speed, torque or power`
      : `none of its ${table.headers.length} columns is recognised as ${hasSpeed ? 'torque or power' : hasLoad ? 'engine speed' : 'speed, torque or power'}`;
  const hint = misfits.length === 0 ? '' : ` (${misfits.join('; ')})`;
  throw new FormatError(`this is not a run file but ${missing}: ${why}${hint}`, {
    ...place,
    expected: hasSpeed
      ? 'a column such as "Torque (lb-ft)" or "Power (kW)"'
      : 'a column such as "Engine Speed (rpm)", and one of torque or power',
  });
}

/**
 * Refuses what is no logged drive: it needs an engine speed, and no torque.
 * @throws FormatError  without a speed
 */
export function refuseOtherThanDrive(
  table: RawTable,
  channels: readonly Channel[],
  fileName: string,
): void {
  if (channels.some(({ quantity }) => quantity === 'speed')) return;
  throw new FormatError('this is not a logged drive but a file without an engine speed', {
    file: fileName,
    line: table.headerLine ?? 1,
    found: shown(table.headers.join(', '), 240),
    expected:
      'a column such as "Engine Speed (rpm)", one of time, and one of throttle if there is one',
  });
}

/** A sweep needs a speed that changes: held steps do, one held speed does not. */
export function refuseConstantSpeed(table: RawTable, speed: Channel, fileName: string): void {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < speed.values.length; row++) {
    const value = speed.values[row]!;
    // Standing still before or after the run is no speed of a run.
    if (value <= 0) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const column = table.headers.findIndex((header) => shown(header) === speed.header) + 1;
  const place = {
    file: fileName,
    line: table.lineOfRow[0] ?? 1,
    ...(column > 0 ? { column } : { column: speed.header }),
  };
  if (!(high >= low))
    throw new FormatError(`the speed column "${speed.header}" holds no speeds`, {
      ...place,
      found: 'no numbers above zero',
      expected: 'engine speeds',
    });
  // A governor holds its speed to about one per cent; less than three from end to end is one held speed.
  if (high - low >= 0.03 * Math.abs(high)) return;
  throw new FormatError(
    `the speed never rises: it stays between ${Math.round(low)} and ${Math.round(high)} rpm over ${table.rows === 1 ? 'its one row' : `all ${table.rows} rows`}, so there is no sweep in this file`,
    {
      ...place,
      found: `${Math.round(low)} to ${Math.round(high)} rpm`,
      expected: 'a speed that rises or falls through a sweep, or is held at several steps',
    },
  );
}

/** Rows binned by speed (no time, speeds in order), or rows that follow time. */
export function kindOf(channels: readonly Channel[]): Recording['kind'] {
  if (channels.some((channel) => channel.quantity === 'time')) return 'time series';
  const speed = channels.find((channel) => channel.quantity === 'speed')!.values;
  if (speed.length > 5000) return 'time series';
  let up = 0;
  let down = 0;
  let still = 0;
  const span = spanOf(speed);
  for (let row = 1; row < speed.length; row++) {
    const step = speed[row]! - speed[row - 1]!;
    // Half the span in one row is the start of the next pull, not a step of this one.
    if (Math.abs(step) >= 0.5 * span) continue;
    if (step > 0) up++;
    else if (step < 0) down++;
    else still++;
  }
  const steps = up + down + still;
  return steps === 0 || Math.max(up, down) >= 0.9 * steps ? 'speed table' : 'time series';
}

function spanOf(values: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}

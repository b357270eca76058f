import { InputError } from '../../errors.ts';
import type { TimeShare } from '../vehicle/marks.ts';
import { type ReadWritten, readWritten, type Written } from '../written.ts';
import { normalised } from './shapes.ts';
import type { Use, UsePoint } from './types.ts';

/**
 * A use from parsed JSON of the format use/1, as typed by hand: speeds, how much of the time, and the load (full unless
 * said). Parts of the time are set in proportion, so that any unit will do.
 * @returns the use, or everything that is wrong with it
 */
export function readUse(value: unknown): ReadWritten<Use> {
  return readWritten(value, (file) => {
    const key = file.object(['format', 'name', 'from', 'reason', 'points']);
    if (key === null) return null;
    if (key('format').value !== 'use/1') return key('format').wrong('"use/1"');
    const name = key('name').isMissing ? 'typed use' : key('name').text(80);
    const from = key('from').isMissing ? 'typed' : key('from').oneOf(['typed', 'log', 'vehicle']);
    const reason = key('reason').isMissing ? 'As typed.' : key('reason').text(400);
    const rows = key('points').list(1, 500, 'points');
    if (rows === null || name === null || from === null || reason === null) return null;
    const points = rows.map(pointOf).filter((point) => point !== null);
    if (points.length < rows.length) return null;
    if (!(points.reduce((sum, { share }) => sum + share, 0) > 0))
      return key('points').wrong('a share of the time above 0 in one of them at least');
    return {
      name,
      from,
      points: normalised(points.filter(({ share }) => share > 0)),
      reason,
      notes: [],
    };
  });
}

/** A use as a file of the format use/1, to be kept or typed on. */
export function writeUse({ name, from, reason, points }: Use): Readonly<Record<string, unknown>> {
  return {
    format: 'use/1',
    name: name.slice(0, 80),
    ...(from === 'chosen' ? {} : { from }),
    reason: reason.slice(0, 400),
    points: points.map(({ speedRpm, share, load }) => ({
      speed: `${Math.round(speedRpm)} rpm`,
      share: `${Number((100 * share).toPrecision(6))} %`,
      load: `${Number((100 * load).toPrecision(6))} %`,
    })),
  };
}

function pointOf(row: Written): UsePoint | null {
  const key = row.object(['speed', 'share', 'load']);
  if (key === null) return null;
  const speedRpm = key('speed').quantity('rotationalSpeed', 100, 30_000, 'from 100 to 30000 rpm');
  const share =
    typeof key('share').value === 'string' && String(key('share').value).includes('%')
      ? key('share').quantity('fraction', 0, 1, 'a part of the time, from 0 to 100 %')
      : key('share').number(0, 1e9, 'a part of the time');
  const load = key('load').isMissing
    ? 1
    : key('load').quantity('fraction', 0.01, 1, 'of full load, from 1 to 100 %');
  return speedRpm === null || share === null || load === null ? null : { speedRpm, share, load };
}

/** Throttle from which a driver asks for all there is (common practice, no source). */
const HIGH_THROTTLE = 0.8;
/** Below this an engine is not running. */
const RUNNING_RPM = 300;
const BIN_RPM = 100;
/** A gap of this many usual intervals is a pause of the logger, not time at a speed. */
const PAUSE = 10;

/** Channels of a logged drive. */
export interface LoggedDrive {
  readonly name: string;
  readonly timeS: ArrayLike<number>;
  readonly speedRpm: ArrayLike<number>;
  /** 0 to 1; null: not logged. */
  readonly throttle: ArrayLike<number> | null;
}

/**
 * A use from a logged drive: time by engine speed. Where throttle is known only time at high throttle counts, for only
 * there the full-throttle curve is what the driver gets.
 * @throws InputError  no time with the engine running, or none at high throttle
 */
export function loggedUse({ name, timeS, speedRpm, throttle }: LoggedDrive): Use {
  const intervals: number[] = [];
  for (let i = 1; i < timeS.length; i++) {
    const gap = timeS[i]! - timeS[i - 1]!;
    if (gap > 0) intervals.push(gap);
  }
  intervals.sort((a, b) => a - b);
  const usual = intervals[intervals.length >> 1];
  if (usual === undefined)
    throw new InputError(`${name} has no two moments of time: a drive is a time series.`);
  const bins = new Map<number, number>();
  let [running, counted, paused] = [0, 0, 0];
  for (let i = 1; i < timeS.length; i++) {
    const gap = timeS[i]! - timeS[i - 1]!;
    const speed = (speedRpm[i]! + speedRpm[i - 1]!) / 2;
    if (!(gap > 0 && speed > RUNNING_RPM)) continue;
    if (gap > PAUSE * usual) {
      paused += gap;
      continue;
    }
    running += gap;
    if (throttle !== null && !(throttle[i]! >= HIGH_THROTTLE)) continue;
    counted += gap;
    const bin = Math.floor(speed / BIN_RPM);
    bins.set(bin, (bins.get(bin) ?? 0) + gap);
  }
  if (!(running > 0)) throw new InputError(`In ${name} the engine never runs.`);
  if (!(counted > 0))
    throw new InputError(
      `In ${name} the throttle is never open ${100 * HIGH_THROTTLE} % or more, so the drive says nothing of full throttle.`,
    );
  const points = [...bins].map(([bin, share]) => ({
    speedRpm: (bin + 0.5) * BIN_RPM,
    share,
    load: 1,
  }));
  const minutes = (seconds: number) =>
    seconds < 120 ? `${seconds.toFixed(0)} s` : `${(seconds / 60).toFixed(1)} min`;
  return {
    name,
    from: 'log',
    points: normalised(points),
    reason:
      throttle === null
        ? `Time by engine speed over ${minutes(running)} of the drive.`
        : `Time by engine speed at ${100 * HIGH_THROTTLE} % throttle or more: ${minutes(counted)} of ${minutes(running)}.`,
    notes: [
      ...(throttle === null
        ? [
            'The log has no throttle, so all its time counts alike: speeds at which the engine only idled or coasted weigh too much.',
          ]
        : []),
      ...(paused > 0 ? [`Pauses of the logger (${minutes(paused)} in all) were left out.`] : []),
    ],
  };
}

/** A use as a vehicle makes it: time by engine speed over its run, shifts left out. */
export function vehicleUse(name: string, over: string, share: TimeShare): Use {
  return {
    name,
    from: 'vehicle',
    points: normalised(
      share.bins.map((bin) => ({
        speedRpm: (bin.fromRpm + bin.toRpm) / 2,
        share: bin.share,
        load: 1,
      })),
    ),
    reason: `Time by engine speed over the ${over} at full throttle, as computed for ${name}.`,
    notes: [],
  };
}

import { InputError } from '../errors.ts';
import { median } from '../numerics/index.ts';
import { inertiaTorqueNm } from '../trade/index.ts';
import type { ChosenTorque } from './basis.ts';
import { columnCorrection } from './calibration.ts';
import { channelsOf, speedChannel } from './channels.ts';
import { condense, type Track } from './condense.ts';
import { lagFromThrottle } from './lag.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';
import { type SpeedTrack, trackSpeed } from './speedTrack.ts';
import type { FitOptions, Mark } from './types.ts';
import { zeroOf } from './zero.ts';

/**
 * The points of one pull through which its curve goes: crank torque with inertia in, in the air the column is
 * in.
 */
export interface Points {
  readonly timeS: number[];
  readonly speedRpm: number[];
  readonly torqueNm: number[];
  /** What is not noise but shifts the whole neighbourhood: sd of torque from the rate, per point [N·m]. */
  readonly inertiaSdNm: number[];
  readonly intervalS: number;
  readonly track: SpeedTrack | null;
  readonly torqueTrack: Track;
  readonly lagS: number;
  readonly lagSdS: number;
  readonly lagFrom: 'cell' | 'throttle' | 'none';
  readonly inertia: 'in' | 'out' | 'unknown';
  /** What the column shows with the engine at rest; null: the recording does not show it. */
  readonly restNm: number | null;
  readonly marks: readonly Mark[];
}

/** Enough for the curve of any engine; the fit's time grows with it and its answer does not. */
const MOST_POINTS = 700;
const MOST_SPEEDS = 2000;
/** Held steps: a point counts when the crank moves no faster than this [rev/min per s]. */
const SETTLED_RPM_PER_S = 40;
/** After so many lags nothing is left of what was before the sweep. */
const LAGS_TO_FORGET = 4;

/**
 * Pairs torque with speed. The sensor's lag τ delays torque against speed: in a sweep, a first-order lag of a
 * smooth signal is a delay by τ to first order, so each torque belongs to the speed and the acceleration τ
 * earlier. Inertia: T + J·α with α from the speed's spline at that moment. The first 4τ of a sweep still
 * remember what was before and are left out.
 * @param columnPerSensorNm  column N·m for each N·m at the sensor, for the cell's calibration
 * @throws InputError when too little of the span can be used
 */
export function pointsOf(
  recording: Recording,
  span: PullSpan,
  chosen: ChosenTorque,
  options: FitOptions,
  columnPerSensorNm: number,
): Points {
  const speed = speedChannel(recording);
  const time = usableTime(recording, span);
  const torqueTrack = condense(time, chosen.channel, span, MOST_POINTS);
  if (torqueTrack.value.length < 6) {
    throw new InputError('The pull has too few readings of torque for a curve.', {
      column: chosen.channel.header,
      found: `${torqueTrack.value.length} readings`,
      expected: 'at least 6',
    });
  }
  const level = Math.abs(median(torqueTrack.value));
  const zero = zeroOf(speed, chosen.channel, span, level);
  const marks: Mark[] = [...chosen.marks, ...zero.marks];
  const { restNm } = zero;
  const { offsetNm, gain } = columnCorrection(options.cell.calibration, restNm, columnPerSensorNm);
  const crankTorque = torqueTrack.value.map((value) => ((value - offsetNm) / gain) * chosen.ratio);
  if (time === null) {
    return {
      ...withoutTime(span, chosen, options, speed, torqueTrack, crankTorque, marks),
      restNm,
    };
  }

  const track = trackSpeed(condense(time, speed, span, MOST_SPEEDS));
  const lag = lagOf(recording, chosen, span, options, marks);
  const { inertiaKgM2 } = options.cell;
  const putBack = chosen.basis.inertia === 'out' && inertiaKgM2 !== null;
  const inertia = putBack ? 'in' : chosen.basis.inertia;
  if (!putBack) inertiaMarks(chosen, options, track, span, marks);
  else if (options.cell.inertiaAssumed === true && span.direction !== 'held steps') {
    marks.push({
      kind: 'inertia',
      severity: 'look again',
      sentence: `The torque that accelerated the rotating parts was put back with ${inertiaKgM2} kg·m², the figure of the cell; nobody has said that it is right with this engine on it.`,
    });
  }
  const from = track.fromS + (span.direction === 'table' ? 0 : LAGS_TO_FORGET * lag.lagS);
  const points = {
    timeS: [] as number[],
    speedRpm: [] as number[],
    torqueNm: [] as number[],
    inertiaSdNm: [] as number[],
  };
  torqueTrack.timeS.forEach((at, i) => {
    const t = at - lag.lagS;
    if (at < from || t > track.toS) return;
    const rate = track.rateRpmPerS(t);
    if (span.direction === 'held steps' && Math.abs(rate) > SETTLED_RPM_PER_S) return;
    points.timeS.push(at - track.fromS);
    points.speedRpm.push(track.speedRpm(t));
    const jPerRate = putBack ? inertiaTorqueNm(inertiaKgM2, 1) : 0;
    points.torqueNm.push(crankTorque[i]! + jPerRate * rate);
    points.inertiaSdNm.push(jPerRate === 0 ? 0 : jPerRate * track.rateSd(t));
  });
  if (points.timeS.length < 6) {
    throw new InputError('Too little of the pull is left for a curve once it has settled.', {
      found: `${points.timeS.length} readings`,
      expected: 'at least 6',
    });
  }
  const intervalS = median(points.timeS.slice(1).map((t, i) => t - points.timeS[i]!));
  return { ...points, intervalS, track, torqueTrack, ...lag, inertia, restNm, marks };
}

/** The time column, if it moves on through the span; a table of speeds often has none. */
export function usableTime(recording: Recording, { firstRow, lastRow }: PullSpan): Channel | null {
  const [time] = channelsOf(recording, 'time');
  if (time === undefined) return null;
  let [last, moves, finite] = [Number.NEGATIVE_INFINITY, 0, 0];
  for (let row = firstRow; row <= lastRow; row++) {
    const t = time.values[row]!;
    if (!Number.isFinite(t)) continue;
    finite++;
    if (t > last) {
      moves++;
      last = t;
    }
  }
  return moves >= 6 && moves > 0.2 * finite ? time : null;
}

function lagOf(
  recording: Recording,
  chosen: ChosenTorque,
  span: PullSpan,
  { cell }: FitOptions,
  marks: Mark[],
): Pick<Points, 'lagS' | 'lagSdS' | 'lagFrom'> {
  if (cell.sensorLagS !== null) {
    return { lagS: cell.sensorLagS, lagSdS: 0.1 * cell.sensorLagS, lagFrom: 'cell' };
  }
  // The column's own side: a geared brake's torque is multiplied by its ratio, so its inertia is divided.
  const inertiaKgM2 =
    chosen.basis.inertia === 'out' && cell.inertiaKgM2 !== null
      ? cell.inertiaKgM2 / chosen.ratio
      : null;
  const isSweep = span.direction === 'rising' || span.direction === 'falling';
  const lag = isSweep ? lagFromThrottle(recording, chosen.channel, span, inertiaKgM2) : null;
  if (lag === null) return { lagS: 0, lagSdS: 0, lagFrom: 'none' };
  marks.push({
    kind: 'other',
    severity: 'note',
    sentence: `Torque follows the throttle ${lag.lagS.toFixed(3)} s late in this recording; the sweep was put right by that much.`,
  });
  return { lagS: lag.lagS, lagSdS: lag.sdS, lagFrom: 'throttle' };
}

function inertiaMarks(
  { basis }: ChosenTorque,
  { cell }: FitOptions,
  track: SpeedTrack,
  { direction }: PullSpan,
  marks: Mark[],
): void {
  if (direction === 'held steps' || basis.inertia === 'in') return;
  const rate = track.rateRpmPerS((track.fromS + track.toS) / 2);
  const perUnit = Math.abs(inertiaTorqueNm(1, rate));
  marks.push({
    kind: 'basis',
    severity: 'look again',
    sentence:
      basis.inertia === 'unknown'
        ? 'Nobody has said whether the torque that accelerated the rotating parts is in this column, so it was not put back.'
        : cell.inertiaKgM2 === null
          ? `The inertia of what turns is not known, so the torque that accelerated it is missing from this curve: at this sweep rate ${perUnit.toFixed(0)} N·m for each kg·m².`
          : 'The torque that accelerated the rotating parts was not put back.',
  });
}

/** Rows without a time: the table's order stands in for it, and nothing can be said of acceleration or lag. */
function withoutTime(
  span: PullSpan,
  chosen: ChosenTorque,
  { cell }: FitOptions,
  speed: Channel,
  torqueTrack: Track,
  crankTorque: Float64Array,
  marks: Mark[],
): Omit<Points, 'restNm'> {
  if (chosen.basis.inertia === 'out' && cell.inertiaKgM2 !== null && cell.inertiaKgM2 > 0) {
    marks.push({
      kind: 'basis',
      severity: 'look again',
      sentence:
        'The rows have no time, so the torque that accelerated the rotating parts could not be put back: if this was a sweep, the curve reads low.',
    });
  }
  const speeds = condense(null, speed, span, MOST_SPEEDS);
  const points = { timeS: [] as number[], speedRpm: [] as number[], torqueNm: [] as number[] };
  let k = 0;
  torqueTrack.timeS.forEach((row, i) => {
    while (k + 2 < speeds.timeS.length && speeds.timeS[k + 1]! < row) k++;
    const [left, right] = [speeds.timeS[k]!, speeds.timeS[k + 1] ?? speeds.timeS[k]! + 1];
    const part = Math.min(1, Math.max(0, (row - left) / (right - left)));
    const [from, to] = [speeds.value[k]!, speeds.value[k + 1] ?? speeds.value[k]!];
    points.timeS.push(row);
    points.speedRpm.push(from + part * (to - from));
    points.torqueNm.push(crankTorque[i]!);
  });
  return {
    ...points,
    inertiaSdNm: points.timeS.map(() => 0),
    intervalS: 1,
    track: null,
    torqueTrack,
    lagS: 0,
    lagSdS: 0,
    lagFrom: 'none',
    inertia: chosen.basis.inertia,
    marks,
  };
}

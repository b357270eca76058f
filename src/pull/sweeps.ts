import { median, quantile } from '../numerics/index.ts';
import { channelsOf, finiteOf } from './channels.ts';
import type { Channel, PullSpan, Recording } from './recording.ts';

/** A recording thinned to what finding sweeps needs: means over equal blocks of rows. */
interface Thin {
  readonly timeS: Float64Array;
  readonly speedRpm: Float64Array;
  /** NaN where torque is missing. */
  readonly torqueNm: Float64Array;
  readonly open: Uint8Array;
  /** First row of each block; one more entry at the end. */
  readonly rowOf: Int32Array;
}

/** A pull must cover this much speed, as a part of the highest speed, and no less than LEAST_SPAN_RPM. */
export const LEAST_SPAN_SHARE = 0.12;
const LEAST_SPAN_RPM = 400;

/** The least range of speed that counts as a pull in a recording [rev/min]. */
export const leastSpanRpm = (highestRpm: number): number =>
  Math.max(LEAST_SPAN_RPM, LEAST_SPAN_SHARE * highestRpm);

/** About as many blocks as a recording of some minutes needs; a log of hours gets more, each no longer than this. */
const USUAL_BLOCKS = 4000;
const LONGEST_BLOCK_S = 0.05;
/** Throttle at this part of its highest steady value, or more, is open. */
const OPEN_SHARE = 0.85;
/** A run under less than this part of the recording's high torque is not a pull but a fall-off. */
const LOADED_SHARE = 0.4;
/** So long at least a recording is under the torque that a pull is known by. */
const LEAST_LOADED_S = 3;
/** The lag of torque and the filling of the manifold are over after this long [s]. */
const SETTLE_S = 0.3;
const LEAST_HOLD_S = 0.8;
/** A slope over a longer stretch would blur a sweep of some seconds in a log of hours. */
const LONGEST_HALF_S = 0.5;

/** Rising and falling sweeps and held steps of a time series. */
export function sweepSpans(recording: Recording, speed: Channel): PullSpan[] {
  const thin = thinned(recording, speed);
  if (thin.timeS.length < 6) return [];
  const leastRpm = leastSpanRpm(quantile(thin.speedRpm, 1));
  const leastNm = LOADED_SHARE * highOf(thin.torqueNm, thin.timeS, 0.9);
  return openRuns(thin).flatMap(([from, to]) => spansIn(thin, from, to, leastRpm, leastNm));
}

function thinned(recording: Recording, speed: Channel): Thin {
  const [time] = channelsOf(recording, 'time');
  const torque = [...channelsOf(recording, 'torque'), ...channelsOf(recording, 'power')].find(
    (channel) => finiteOf(channel).length > 0,
  )!;
  const size = blockRows(recording.rows, time);
  // Filled in place: growing lists would leave a log of hours several times over in memory.
  const most = Math.ceil(recording.rows / size);
  const column = () => new Float64Array(most);
  const [times, speeds, torques] = [column(), column(), column()];
  const throttles = channelsOf(recording, 'throttle').map(({ values }) => ({
    values,
    blocks: column(),
  }));
  const rowOf = new Int32Array(most + 1);
  let count = 0;
  for (let row = 0; row < recording.rows; row += size) {
    const end = Math.min(row + size, recording.rows);
    const t = time === undefined ? row / 50 : finiteMean(time.values, row, end);
    const n = finiteMean(speed.values, row, end);
    if (!Number.isFinite(t) || !Number.isFinite(n)) continue;
    if (count > 0 && t <= times[count - 1]!) continue;
    times[count] = t;
    speeds[count] = n;
    torques[count] = finiteMean(torque.values, row, end);
    for (const { values, blocks } of throttles) blocks[count] = finiteMean(values, row, end);
    rowOf[count++] = row;
  }
  rowOf[count] = recording.rows;
  const timeS = times.subarray(0, count);
  const throttle = throttles
    .map(({ blocks }) => blocks.subarray(0, count))
    .find((blocks) => moves(blocks, timeS));
  const openFrom = throttle === undefined ? 0 : OPEN_SHARE * highOf(throttle, timeS, 0.98);
  const open = new Uint8Array(count).fill(1);
  throttle?.forEach((value, block) => {
    if (!(value >= openFrom)) open[block] = 0;
  });
  return {
    timeS,
    speedRpm: speeds.subarray(0, count),
    torqueNm: torques.subarray(0, count),
    open,
    rowOf: rowOf.subarray(0, count + 1),
  };
}

/** Rows to a block: a pull of some seconds keeps enough blocks, however long the log around it. */
function blockRows(rows: number, time: Channel | undefined): number {
  const usual = Math.ceil(rows / USUAL_BLOCKS);
  const seconds = time === undefined ? [] : finiteOf(time);
  const durationS = seconds.length === 0 ? 0 : quantile(seconds, 1) - quantile(seconds, 0);
  const most = durationS > 0 ? Math.floor((rows * LONGEST_BLOCK_S) / durationS) : usual;
  return Math.max(1, Math.min(usual, most));
}

function finiteMean(values: Float64Array, from: number, to: number): number {
  let [sum, count] = [0, 0];
  for (let i = from; i < to; i++) {
    if (!Number.isFinite(values[i]!)) continue;
    sum += values[i]!;
    count++;
  }
  return count === 0 ? Number.NaN : sum / count;
}

/**
 * A high value that some seconds at least stay above: this quantile, or a higher one, because of a log of hours
 * nearly all is idling.
 */
function highOf(values: Float64Array, timeS: Float64Array, probability: number): number {
  const durationS = timeS[timeS.length - 1]! - timeS[0]!;
  return quantile(values, Math.max(probability, 1 - LEAST_LOADED_S / durationS));
}

/** A throttle channel that tells anything: it moves by more than a third of its highest value. */
function moves(values: Float64Array, timeS: Float64Array): boolean {
  if (values.reduce((count, value) => count + (Number.isFinite(value) ? 1 : 0), 0) < 6)
    return false;
  const [low, high] = [quantile(values, 0), highOf(values, timeS, 0.98)];
  return high > 0 && high - low > 0.35 * high;
}

/** Runs of open throttle, gaps under a tenth of a second bridged: [first, one past the last] block. */
function openRuns({ open, timeS }: Thin): [number, number][] {
  const runs: [number, number][] = [];
  for (let i = 0; i < open.length; i++) {
    if (open[i] === 0) continue;
    let end = i + 1;
    while (end < open.length && open[end] === 1) end++;
    const previous = runs[runs.length - 1];
    if (previous !== undefined && timeS[i]! - timeS[previous[1] - 1]! < 0.1) previous[1] = end;
    else runs.push([i, end]);
    i = end;
  }
  return runs;
}

type Motion = -1 | 0 | 1;
interface Run {
  readonly motion: Motion;
  from: number;
  to: number;
}

/** Sweeps or held steps in one run of open throttle; `leastNm` is the load below which it is a fall-off. */
function spansIn(
  thin: Thin,
  from: number,
  to: number,
  leastRpm: number,
  leastNm: number,
): PullSpan[] {
  const { timeS, speedRpm } = thin;
  if (to - from < 6) return [];
  const duration = timeS[to - 1]! - timeS[from]!;
  const half = Math.min(LONGEST_HALF_S, Math.max(0.3, 0.015 * duration));
  const slope = localSlope(timeS, speedRpm, from, to, half);
  const strong = quantile(slope.map(Math.abs), 0.9);
  const threshold = Math.max(12, 0.25 * strong);
  const runs = merged(motions(slope, threshold, from), timeS);
  const held = heldSteps(thin, runs, from, to, leastRpm);
  if (held !== null) return [held];
  return runs.flatMap((run, at) => {
    if (run.motion === 0) return [];
    const trimmed = trim(thin, run, runs[at - 1], runs[at + 1], [from, to]);
    if (trimmed === null) return [];
    const [first, last] = trimmed;
    if ((speedRpm[last]! - speedRpm[first]!) * run.motion < leastRpm) return [];
    const load = thin.torqueNm.slice(first, last + 1).filter(Number.isFinite);
    if (load.length < 6 || median(load) < leastNm) return [];
    return [spanOf(thin, first, last, run.motion === 1 ? 'rising' : 'falling')];
  });
}

function spanOf(
  thin: Thin,
  first: number,
  last: number,
  direction: PullSpan['direction'],
): PullSpan {
  return {
    firstRow: thin.rowOf[first]!,
    lastRow: thin.rowOf[last + 1]! - 1,
    direction,
    fromRpm: edgeSpeed(thin, first, 1),
    toRpm: edgeSpeed(thin, last, -1),
  };
}

/** Median of a few blocks inward from an edge: one noisy sample does not name the pull. */
function edgeSpeed({ speedRpm }: Thin, edge: number, inward: 1 | -1): number {
  const end = edge + 3 * inward;
  const part = inward === 1 ? speedRpm.slice(edge, end) : speedRpm.slice(end + 1, edge + 1);
  return Math.round(median(part));
}

/** Slope of the regression over ± half a window [rev/min per s], one a block. */
function localSlope(
  timeS: Float64Array,
  speedRpm: Float64Array,
  from: number,
  to: number,
  half: number,
): Float64Array {
  const slope = new Float64Array(to - from);
  let [left, right] = [from, from];
  for (let i = from; i < to; i++) {
    while (timeS[i]! - timeS[left]! > half) left++;
    while (right < to && timeS[right]! - timeS[i]! <= half) right++;
    let [count, sumT, sumN] = [0, 0, 0];
    for (let k = left; k < right; k++) {
      count++;
      sumT += timeS[k]!;
      sumN += speedRpm[k]!;
    }
    let [across, own] = [0, 0];
    for (let k = left; k < right; k++) {
      across += (timeS[k]! - sumT / count) * (speedRpm[k]! - sumN / count);
      own += (timeS[k]! - sumT / count) ** 2;
    }
    slope[i - from] = own > 0 ? across / own : 0;
  }
  return slope;
}

function motions(slope: Float64Array, threshold: number, from: number): Run[] {
  const runs: Run[] = [];
  slope.forEach((value, i) => {
    const motion: Motion = value > threshold ? 1 : value < -threshold ? -1 : 0;
    const last = runs[runs.length - 1];
    if (last !== undefined && last.motion === motion) last.to = from + i + 1;
    else runs.push({ motion, from: from + i, to: from + i + 1 });
  });
  return runs;
}

/** A sweep that pauses or slips for less than half a second and goes on is one sweep. */
function merged(runs: readonly Run[], timeS: Float64Array): Run[] {
  const out: Run[] = [];
  for (const run of runs) {
    const [before, pause] = [out[out.length - 2], out[out.length - 1]];
    const isPause =
      pause !== undefined &&
      pause.motion !== run.motion &&
      timeS[pause.to - 1]! - timeS[pause.from]! < 0.5;
    if (isPause && before !== undefined && before.motion === run.motion && run.motion !== 0) {
      out.pop();
      before.to = run.to;
    } else {
      out.push({ ...run });
    }
  }
  return out;
}

/** Three holds or more at different speeds that make up most of the time are one pull of held steps. */
function heldSteps(
  thin: Thin,
  runs: readonly Run[],
  from: number,
  to: number,
  leastRpm: number,
): PullSpan | null {
  const { timeS, speedRpm } = thin;
  const holds = runs.filter(
    (run) => run.motion === 0 && timeS[run.to - 1]! - timeS[run.from]! >= LEAST_HOLD_S,
  );
  if (holds.length < 3) return null;
  const levels = holds.map((run) => median(speedRpm.slice(run.from, run.to)));
  const held = holds.reduce((sum, run) => sum + timeS[run.to - 1]! - timeS[run.from]!, 0);
  const span = Math.max(...levels) - Math.min(...levels);
  if (held < 0.5 * (timeS[to - 1]! - timeS[from]!)) return null;
  if (span < leastRpm) return null;
  const distinct = levels.filter(
    (level, i) => i === 0 || Math.abs(level - levels[i - 1]!) > 0.04 * span,
  );
  if (distinct.length < 3) return null;
  return {
    ...spanOf(thin, holds[0]!.from, holds[holds.length - 1]!.to - 1, 'held steps'),
    fromRpm: Math.round(levels[0]!),
    toRpm: Math.round(levels[levels.length - 1]!),
  };
}

/** First and last block of a run: where the sweep leaves its hold, and the last moment under load. */
function trim(
  thin: Thin,
  run: Run,
  before: Run | undefined,
  after: Run | undefined,
  [openFrom, openTo]: readonly [number, number],
): [number, number] | null {
  const { timeS, open } = thin;
  let first = before?.motion === 0 ? bend(thin, run, before, 1) : run.from;
  let last = after?.motion === 0 ? bend(thin, run, after, -1) : run.to - 1;
  if (after !== undefined && after.motion === -run.motion) last = turn(thin, run);
  // The local slope is blurred at the ends of the open throttle: the run goes to the very edge there.
  if (before === undefined) first = openFrom;
  if (after === undefined) last = openTo - 1;
  const isOpening = openFrom > 0 && open.includes(0);
  while (isOpening && first < last && timeS[first]! - timeS[openFrom]! < SETTLE_S) first++;
  last = beforeCollapse(thin, first, last);
  return last - first >= 6 ? [first, last] : null;
}

/** Block at which a sweep turns round: the extreme speed near the end of its run. */
function turn({ timeS, speedRpm }: Thin, { motion, to }: Run): number {
  let best = to - 1;
  for (let i = to - 1; i < timeS.length && timeS[i]! - timeS[to - 1]! < 0.4; i++) {
    if ((speedRpm[i]! - speedRpm[best]!) * motion > 0) best = i;
  }
  return best;
}

/** Block at which the line of the sweep crosses the level of the hold beside it. */
function bend({ timeS, speedRpm }: Thin, run: Run, hold: Run, side: 1 | -1): number {
  const level = median(speedRpm.slice(hold.from, hold.to));
  const edge = side === 1 ? run.from : run.to - 1;
  const points: number[] = [];
  for (let i = edge; i >= run.from && i < run.to; i += side) {
    const away = Math.abs(timeS[i]! - timeS[edge]!);
    if (away > 1.3) break;
    if (away >= 0.25) points.push(i);
  }
  if (points.length < 4) return edge;
  const meanT = points.reduce((sum, i) => sum + timeS[i]!, 0) / points.length;
  const meanN = points.reduce((sum, i) => sum + speedRpm[i]!, 0) / points.length;
  const across = points.reduce((sum, i) => sum + (timeS[i]! - meanT) * (speedRpm[i]! - meanN), 0);
  const own = points.reduce((sum, i) => sum + (timeS[i]! - meanT) ** 2, 0);
  const rate = across / own;
  if (rate === 0) return edge;
  const crossing = meanT + (level - meanN) / rate;
  let block = edge;
  const [low, high] = side === 1 ? [hold.from, run.to - 1] : [run.from, hold.to - 1];
  while (block > low && timeS[block]! > crossing) block--;
  while (block < high && timeS[block]! < crossing) block++;
  return block;
}

/**
 * Where the torque of the last second falls to under 60 % and stays there, the throttle was closed: end
 * before it.
 */
function beforeCollapse({ timeS, torqueNm }: Thin, first: number, last: number): number {
  const reference: number[] = [];
  for (let i = last; i >= first && timeS[last]! - timeS[i]! <= 1.2; i--) {
    if (timeS[last]! - timeS[i]! >= 0.6 && Number.isFinite(torqueNm[i]!))
      reference.push(torqueNm[i]!);
  }
  if (reference.length < 3) return last;
  const floor = 0.6 * median(reference);
  let end = last;
  while (end > first && !(torqueNm[end]! >= floor)) end--;
  return end;
}

import { type FitPriors, fitPenalisedSpline, type PenalisedFit } from './penalised.ts';
import type { PenaltyOrder } from './penalty.ts';
import { median, robustSd } from './quantile.ts';
import { evaluateSpline, type KnotGrid, type SplineCurve } from './spline.ts';
import { stiffCurvesOf } from './stiff.ts';
import type { Series } from './wander.ts';

/** A run of points that stand away from the curve by more than chance does; left out of the fit. */
export interface Blip {
  /** Indices into the series, inclusive. */
  readonly from: number;
  readonly to: number;
  /** Mean distance from the curve, in the unit of the ordinate. */
  readonly size: number;
}

export interface RobustFit extends PenalisedFit {
  readonly blips: readonly Blip[];
  /** 1: counted, 0: left out. */
  readonly weight: Float64Array;
  /** Ordinate minus curve, for every point. */
  readonly residual: Float64Array;
}

/** What is looked for as a blip, and how the fit goes on without it. */
export interface BlipSearch {
  /** Longest blip, in points. */
  readonly longest: number;
  /** Mean distance from the curve below which nothing is worth leaving out, in the unit of the ordinate. */
  readonly least?: number;
  /** The full fit is made through means over so many points. */
  readonly block?: number;
}

/**
 * How many robust sds the mean over a window must stand off. A pull has some thousand overlapping windows that
 * amount to a few hundred independent ones; 4.5 makes a false blip about one pull in thirty (robust.test.ts).
 */
const STAND_OFF = 4.5;
/** No more than this part of the points may be left out, the worst first. */
const MOST = 0.2;
const ROUNDS = 5;

/**
 * The penalised fit with blips left out: points get weight 0 or 1, by windows of every length up to
 * `longest` (in points) whose mean residual stands off. The scale of each window length is the robust sd
 * of all windows of that length, so autocorrelation is in it and blips are not. Windows see what single
 * samples cannot: a half-second sag of two sds in every sample.
 *
 * Blips are looked for against a curve that bends little and knows no wander (a wander would explain them),
 * again until their set settles; a point that the next curve explains comes back. The full fit is made once,
 * at the end, through means over `block` points: faster, and nearer to white beside the wander than single
 * samples are. A blip that the full fit shows to be smaller than `least` comes back into it: where there is
 * next to no noise, what stands off the stiff curve is mostly the curve's own shape.
 * @throws InputError as fitPenalisedSpline
 */
export function fitRobustSpline(
  grid: KnotGrid,
  series: Omit<Series, 'weight'>,
  order: PenaltyOrder,
  priors: FitPriors,
  { longest, least = 0, block = 1 }: BlipSearch,
): RobustFit {
  const count = series.y.length;
  let weight = startWeights(series.y, longest);
  const stiffCurve = stiffCurvesOf(grid, series, order, priors.smoothness, STIFF_DOF);
  for (let round = 0; round < ROUNDS; round++) {
    const next = weightsFrom(residualsOf(stiffCurve(weight), series), longest, least);
    if (next.every((w, i) => w === weight[i])) break;
    weight = next;
  }
  for (let round = 0; ; round++) {
    const fit = fitPenalisedSpline(grid, blocksOf({ ...series, weight }, block), order, priors);
    const residual = residualsOf(fit.spline, series);
    const blips = runsOf(weight, residual, count);
    const small = blips.filter(({ size }) => Math.abs(size) < least);
    if (small.length === 0 || round === ROUNDS) return { ...fit, weight, residual, blips };
    for (const { from, to } of small) weight.fill(1, from, to + 1);
  }
}

/**
 * Means over runs of `block` points, what weighs nothing left out; the weight of a mean is its part of a
 * whole block.
 */
function blocksOf(series: Series, block: number): Series {
  if (block <= 1) return series;
  const out = {
    time: [] as number[],
    x: [] as number[],
    y: [] as number[],
    weight: [] as number[],
  };
  for (let from = 0; from < series.y.length; from += block) {
    const to = Math.min(from + block, series.y.length);
    let [time, x, y, total] = [0, 0, 0, 0];
    for (let i = from; i < to; i++) {
      const w = series.weight[i]!;
      time += w * series.time[i]!;
      x += w * series.x[i]!;
      y += w * series.y[i]!;
      total += w;
    }
    if (!(total > 0)) continue;
    out.time.push(time / total);
    out.x.push(x / total);
    out.y.push(y / total);
    out.weight.push(total / block);
  }
  return out;
}

function residualsOf(curve: SplineCurve, { x, y }: Omit<Series, 'weight'>): Float64Array {
  const residual = new Float64Array(y.length);
  for (let i = 0; i < y.length; i++) residual[i] = y[i]! - evaluateSpline(curve, x[i]!);
  return residual;
}

/**
 * Before there is a curve: points far from the running median, so that a dead second cannot bend the first
 * fit.
 */
function startWeights(y: ArrayLike<number>, longestBlip: number): Float64Array {
  const half = Math.min(Math.max(3, longestBlip), Math.floor(y.length / 8));
  if (half < 3) return new Float64Array(y.length).fill(1);
  const centre = new Float64Array(y.length);
  const stride = Math.max(1, half >> 2);
  const window = new Float64Array(2 * half + 1);
  let before = 0;
  for (let i = 0; ; i = Math.min(y.length - 1, i + stride)) {
    const from = Math.max(0, Math.min(i - half, y.length - 1 - 2 * half));
    for (let k = 0; k <= 2 * half; k++) window[k] = y[from + k]!;
    centre[i] = median(window);
    // Medians stand a quarter of a window apart; straight lines between them.
    for (let k = before + 1; k < i; k++) {
      centre[k] = centre[before]! + ((k - before) / (i - before)) * (centre[i]! - centre[before]!);
    }
    before = i;
    if (i === y.length - 1) break;
  }
  const away = centre.map((value, i) => y[i]! - value);
  const limit = 2 * STAND_OFF * robustSd(away, 0);
  return away.map((value) => (Math.abs(value) > limit ? 0 : 1));
}

/**
 * Parameters of the curve from which blips are first looked for: enough for a torque curve, too few for a
 * blip, so that a sag cannot hide by bending it.
 */
const STIFF_DOF = 12;

interface Window {
  readonly from: number;
  readonly length: number;
  readonly score: number;
}

function weightsFrom(residual: Float64Array, longestBlip: number, least: number): Float64Array {
  const count = residual.length;
  const centre = median(residual);
  const running = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) running[i + 1] = running[i]! + residual[i]! - centre;
  const windows: Window[] = [];
  // Lengths longer than this leave too few windows to take a scale from.
  const longest = Math.min(longestBlip, Math.floor(count / 20));
  for (let length = 1; length <= longest; length = Math.max(length + 1, Math.round(length * 1.5))) {
    const means = new Float64Array(count - length + 1);
    for (let i = 0; i < means.length; i++) means[i] = (running[i + length]! - running[i]!) / length;
    const scale = robustSd(means, 0);
    if (!(scale > 0)) continue;
    for (let i = 0; i < means.length; i++) {
      const score = Math.abs(means[i]!) / scale;
      if (score > STAND_OFF && Math.abs(means[i]!) >= least)
        windows.push({ from: i, length, score });
    }
  }
  windows.sort((one, other) => other.score - one.score);
  const weight = new Float64Array(count).fill(1);
  let left = Math.floor(MOST * count);
  for (const { from, length } of windows) {
    // A window that a worse one has already emptied says nothing of its own.
    let fresh = 0;
    for (let i = from; i < from + length; i++) fresh += weight[i]!;
    if (fresh < length || fresh > left) continue;
    weight.fill(0, from, from + length);
    left -= fresh;
  }
  return weight;
}

function runsOf(weight: Float64Array, residual: Float64Array, count: number): Blip[] {
  const blips: Blip[] = [];
  for (let from = 0; from < count; from++) {
    if (weight[from] !== 0) continue;
    let to = from;
    // One good point between two bad ones belongs to the same blip.
    while (to + 1 < count && (weight[to + 1] === 0 || (to + 2 < count && weight[to + 2] === 0)))
      to++;
    let [sum, bad] = [0, 0];
    for (let i = from; i <= to; i++) {
      if (weight[i] !== 0) continue;
      sum += residual[i]!;
      bad++;
    }
    blips.push({ from, to, size: sum / bad });
    from = to;
  }
  return blips;
}

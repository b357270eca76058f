import { basisAt, coefficientCount, type KnotGrid } from './spline.ts';

/**
 * Noise of a recorded signal: white, plus a wander that forgets itself exponentially. Variance of white: σ²;
 * of the wander: share·σ²; correlation of the wander over Δt: exp(−Δt/memory). A mean over equal blocks of
 * such noise is again of this kind (an ARMA(1,1) at any rate), so a recording may be averaged down without
 * leaving the model. share = 0: white alone; white small beside the wander: AR(1).
 */
export interface Noise {
  readonly share: number;
  readonly memory: number;
}

/** Points in the order of time; weight 0 leaves a point out, 1 counts it in full. */
export interface Series {
  readonly time: ArrayLike<number>;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly weight: ArrayLike<number>;
}

/** Cross products of the whitened design and ordinate, all that a fit with given noise needs. */
export interface CrossProducts {
  /** BᵀR⁻¹B, row-major. */
  readonly gram: Float64Array;
  /** BᵀR⁻¹y. */
  readonly right: Float64Array;
  /** yᵀR⁻¹y. */
  readonly square: number;
  /** ln|R|, white variance as unit. */
  readonly logDeterminant: number;
  /** Points with weight. */
  readonly count: number;
  /** No entry of the gram stands farther from its diagonal: the wander forgets. */
  readonly band: number;
}

/** The design of a series on a grid: for each point its first basis function and four values. */
interface Design {
  readonly first: Int32Array;
  readonly values: Float64Array;
}

export function designOf(grid: KnotGrid, x: ArrayLike<number>): Design {
  const first = new Int32Array(x.length);
  const values = new Float64Array(4 * x.length);
  const four = [0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    first[i] = basisAt(grid, x[i]!, four);
    for (let k = 0; k < 4; k++) values[4 * i + k] = four[k]!;
  }
  return { first, values };
}

/** A whitened column below this part of its scale is taken for zero: what the wander still remembers of it. */
const FORGOTTEN = 1e-8;

/**
 * Whitens ordinate and design by the innovations of a Kalman filter with one state, the wander u: u(t+Δ) =
 * φu(t) + noise, y = Ba + u + white/√weight, and forms the cross products of what comes out. Exact for uneven
 * times, gaps and weights; the gain is common to all columns, so each costs one multiply a point.
 *
 * @source R. E. Kalman's filter for a scalar state; whitening by innovations as in A. C. Harvey, Forecasting,
 *         Structural Time Series Models and the Kalman Filter, ch. 3 [from memory]; checked against the dense
 *         closed form BᵀR⁻¹B in wander.test.ts and in R (reference/spline.test.ts)
 */
export function whiten(
  grid: KnotGrid,
  design: Design,
  series: Series,
  noise: Noise,
): CrossProducts {
  if (noise.share === 0) return weighted(grid, design, series);
  const { share, memory } = noise;
  const { first, values } = design;
  const size = coefficientCount(grid);
  const { time, y, weight } = series;
  const gram = new Float64Array(size * size);
  const right = new Float64Array(size);
  const state = new Float64Array(size);
  const row = new Float64Array(size);
  let square = 0;
  let logDeterminant = 0;
  let count = 0;
  let band = 3;
  let stateY = 0;
  let [lastStep, phi] = [-1, 0];
  let variance = share;
  // Columns outside [from, to) are zero in the state.
  let from = size;
  let to = 0;
  for (let i = 0; i < y.length; i++) {
    if (i > 0) {
      const step = time[i]! - time[i - 1]!;
      // Equal steps are the rule; only another step needs another exponential.
      if (Math.abs(step - lastStep) > 1e-9 * step) {
        lastStep = step;
        phi = Math.exp(-step / memory);
      }
      variance = phi * phi * variance + share * (1 - phi * phi);
      stateY *= phi;
      for (let j = from; j < to; j++) state[j]! *= phi;
      while (from < to && Math.abs(state[from]!) < FORGOTTEN) state[from++] = 0;
      while (to > from && Math.abs(state[to - 1]!) < FORGOTTEN) state[--to] = 0;
    }
    const w = weight[i]!;
    if (!(w > 0)) continue;
    const total = variance + 1 / w;
    const scale = 1 / Math.sqrt(total);
    const gain = variance / total;
    const start = first[i]!;
    if (from >= to) {
      from = start;
      to = start + 4;
    } else {
      from = Math.min(from, start);
      to = Math.max(to, start + 4);
    }
    for (let j = from; j < to; j++) {
      const inside = j >= start && j < start + 4 ? values[4 * i + j - start]! : 0;
      const innovation = inside - state[j]!;
      row[j] = innovation * scale;
      state[j]! += gain * innovation;
    }
    if (to - from - 1 > band) band = to - from - 1;
    const innovationY = y[i]! - stateY;
    stateY += gain * innovationY;
    const white = innovationY * scale;
    square += white * white;
    logDeterminant += Math.log(total);
    count++;
    for (let j = from; j < to; j++) {
      const value = row[j]!;
      if (value === 0) continue;
      right[j]! += value * white;
      for (let k = from; k <= j; k++) gram[j * size + k]! += value * row[k]!;
    }
    variance *= 1 - gain;
  }
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < j; k++) gram[k * size + j] = gram[j * size + k]!;
  }
  return { gram, right, square, logDeterminant, count, band };
}

/** The same for white noise alone: weighted sums, a band of three. */
function weighted(grid: KnotGrid, { first, values }: Design, { y, weight }: Series): CrossProducts {
  const size = coefficientCount(grid);
  const gram = new Float64Array(size * size);
  const right = new Float64Array(size);
  let [square, logDeterminant, count] = [0, 0, 0];
  for (let i = 0; i < y.length; i++) {
    const w = weight[i]!;
    if (!(w > 0)) continue;
    count++;
    const ordinate = y[i]!;
    square += w * ordinate * ordinate;
    if (w !== 1) logDeterminant -= Math.log(w);
    const start = first[i]!;
    for (let j = 0; j < 4; j++) {
      const value = w * values[4 * i + j]!;
      right[start + j]! += value * ordinate;
      const row = (start + j) * size + start;
      for (let k = 0; k <= j; k++) gram[row + k]! += value * values[4 * i + k]!;
    }
  }
  for (let j = 0; j < size; j++) {
    for (let k = Math.max(0, j - 3); k < j; k++) gram[k * size + j] = gram[j * size + k]!;
  }
  return { gram, right, square, logDeterminant, count, band: 3 };
}

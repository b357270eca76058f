import { STRAY_SD } from './priors.ts';
import { type ResponseShape, SHAPES } from './shape.ts';

/** What one pull tells the response. */
export interface ResponsePoint {
  /** The setting, mirrored where needed so that up is the unsafe side. */
  readonly u: number;
  /** Place in the day's order. */
  readonly order: number;
  /** Mean power over the band, or typed peak, relative to the mean of the day's pulls. */
  readonly y: number;
  /** Relative sd that the curve's own fit leaves in y. */
  readonly ySd: number;
}

/** Sufficient statistics of the pulls for one (σ, D): the quadratic form between y and the columns of the shape. */
export interface Form {
  readonly constant: number;
  readonly g: Float64Array;
  /** Conditional mean of a as a linear function of y and the columns, its sd, and the same for δ. */
  readonly level: Float64Array;
  readonly levelSd: number;
  readonly slope: Float64Array;
  readonly slopeSd: number;
}

/** Closed-form elimination of level and drift for one repeatability, drift sd and (or −1) one stray pull. */
export function formOf(
  points: readonly ResponsePoint[],
  middle: number,
  orderMiddle: number,
  sigma: number,
  driftSd: number,
  stray: number,
  shape: ResponseShape = SHAPES.cubic,
  lean = 0,
): Form {
  const n = points.length;
  // With D²ττᵀ added, W = Λ − Λτ(D⁻² + τᵀΛτ)⁻¹τᵀΛ; all sums below follow from weighted moments.
  const columns = points.map((p) => [p.y, ...shape.columns(p.u - middle, lean)]);
  let logDet = 0;
  const weights = points.map((p, i) => {
    const variance = sigma * sigma + p.ySd * p.ySd + (i === stray ? STRAY_SD * STRAY_SD : 0);
    logDet += Math.log(variance);
    return 1 / variance;
  });
  const tau = points.map((p) => p.order - orderMiddle);
  let tt = 0;
  for (let i = 0; i < n; i++) tt += weights[i]! * tau[i]! * tau[i]!;
  const driftPrecision = 1 / (driftSd * driftSd) + tt;
  logDet += Math.log(driftSd * driftSd * driftPrecision);
  const moment = (f: (i: number) => number, h: (i: number) => number) => {
    let fh = 0;
    let ft = 0;
    let ht = 0;
    for (let i = 0; i < n; i++) {
      const w = weights[i]!;
      fh += w * f(i) * h(i);
      ft += w * f(i) * tau[i]!;
      ht += w * h(i) * tau[i]!;
    }
    return fh - (ft * ht) / driftPrecision;
  };
  const one = () => 1;
  // Without a pull the level is the day's own: 1, from nothing.
  const ones = n === 0 ? 1 : moment(one, one);
  const column = (j: number) => (i: number) => columns[i]![j]!;
  const level = Float64Array.from({ length: 4 }, (_, j) => moment(one, column(j)) / ones);
  const g = new Float64Array(16);
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j <= i; j++) {
      const value = moment(column(i), column(j)) - ones * level[i]! * level[j]!;
      g[4 * i + j] = value;
      g[4 * j + i] = value;
    }
  }
  const slope = Float64Array.from({ length: 4 }, (_, j) => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += weights[i]! * tau[i]! * (columns[i]![j]! - level[j]!);
    return sum / driftPrecision;
  });
  return {
    constant: -0.5 * (logDet + Math.log(ones)),
    g,
    level,
    levelSd: Math.sqrt(1 / ones),
    slope,
    slopeSd: Math.sqrt(1 / driftPrecision),
  };
}

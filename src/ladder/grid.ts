import { type Form, formOf, type ResponsePoint } from './form.ts';
import { DRIFT_SDS, type Priors } from './priors.ts';
import { type ResponseShape, SHAPES } from './shape.ts';

/** Log weight against the best grid point below which a point is left out. */
const NEGLIGIBLE = -18;

export interface Axes {
  readonly shape: ResponseShape;
  readonly best: Float64Array;
  readonly logBest: Float64Array;
  readonly curvature: Float64Array;
  readonly logCurvature: Float64Array;
  readonly lean: Float64Array;
  readonly logLean: Float64Array;
  readonly repeat: Float64Array;
  readonly logRepeat: Float64Array;
}

function linspace(low: number, high: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) =>
    count === 1 ? (low + high) / 2 : low + ((high - low) * i) / (count - 1),
  );
}

/** Student t with 10 degrees of freedom: a ladder begun far from the best is rare, not impossible. */
const logBestPrior = (b: number, [middle, spread]: Priors['best']) =>
  -5.5 * Math.log1p(((b - middle) / spread) ** 2 / 10);

/** Log-uniform between the two, with soft ends (sd of a fifth in the logarithm): no cliff at a round number. */
function logCurvaturePrior(k: number, [low, high]: Priors['curvature']): number {
  const past = Math.max(0, Math.log(low / k), Math.log(k / high));
  return -0.5 * (past / 0.2) ** 2;
}

export function axesOf(
  priors: Priors,
  best: readonly [number, number, number],
  curvature: readonly [number, number, number],
  leans: number,
  repeat: readonly [number, number, number],
): Axes {
  const b = linspace(...best);
  const k = linspace(Math.log(curvature[0]), Math.log(curvature[1]), curvature[2]).map(Math.exp);
  const reach = leans > 3 ? 2.2 : 1.6;
  const z = linspace(-reach, reach, leans);
  const s = linspace(Math.log(repeat[0]), Math.log(repeat[1]), repeat[2]).map(Math.exp);
  return {
    shape: SHAPES[priors.shape],
    best: b,
    logBest: b.map((value) => logBestPrior(value, priors.best)),
    curvature: k,
    logCurvature: k.map((value) => logCurvaturePrior(value, priors.curvature)),
    lean: z.map((value) => priors.lean[0] + priors.lean[1] * value),
    logLean: z.map((value) => -0.5 * value * value),
    repeat: s,
    logRepeat: s.map(
      (value) => -0.5 * (Math.log(value / priors.repeatMedian) / priors.repeatLogSd) ** 2,
    ),
  };
}

export interface Case {
  readonly sigma: number;
  /** One a lean of the axes; the same one where the columns do not depend on it. */
  readonly forms: readonly Form[];
  readonly logWeight: number;
}

export function casesOf(
  points: readonly ResponsePoint[],
  axes: Axes,
  middle: number,
  orderMiddle: number,
  strays: readonly (readonly [pull: number, logWeight: number])[],
  drifts = DRIFT_SDS,
): Case[] {
  const cases: Case[] = [];
  axes.repeat.forEach((sigma, s) => {
    for (const [driftSd, weight] of drifts) {
      for (const [stray, logStray] of strays) {
        const { shape } = axes;
        const formAt = (lean: number) =>
          formOf(points, middle, orderMiddle, sigma, driftSd, stray, shape, lean);
        const first = formAt(axes.lean[0]!);
        cases.push({
          sigma,
          forms: Array.from(axes.lean, (lean, ic) =>
            ic === 0 || !shape.leansInColumns ? first : formAt(lean),
          ),
          logWeight: axes.logRepeat[s]! + Math.log(weight) + logStray + first.constant,
        });
      }
    }
  });
  return cases;
}

/** Log posterior at every grid point, best slowest, case fastest. */
export function logPosterior(axes: Axes, cases: readonly Case[], middle: number): Float64Array {
  const [nb, nk, nc] = [axes.best.length, axes.curvature.length, axes.lean.length];
  const out = new Float64Array(nb * nk * nc * cases.length);
  const count = cases.length;
  const size = count * 10;
  const packed = new Float64Array(nc * size);
  cases.forEach(({ forms, logWeight }, i) => {
    for (let ic = 0; ic < nc; ic++) {
      const { g } = forms[ic]!;
      packed.set(
        [
          -0.5 * g[0]! + logWeight,
          -g[1]!,
          -g[2]!,
          -g[3]!,
          -0.5 * g[5]!,
          -g[6]!,
          -g[7]!,
          -0.5 * g[10]!,
          -g[11]!,
          -0.5 * g[15]!,
        ],
        ic * size + 10 * i,
      );
    }
  });
  let at = 0;
  for (let ib = 0; ib < nb; ib++) {
    const b = axes.best[ib]! - middle;
    for (let ik = 0; ik < nk; ik++) {
      const k = axes.curvature[ik]!;
      for (let ic = 0; ic < nc; ic++) {
        const c = axes.lean[ic]!;
        const prior = axes.logBest[ib]! + axes.logCurvature[ik]! + axes.logLean[ic]!;
        const [x, y, z] = axes.shape.factors(k, b, c);
        for (let i = 0, p = ic * size; i < count; i++, p += 10) {
          out[at++] =
            prior +
            packed[p]! +
            x * (packed[p + 1]! + x * packed[p + 4]! + y * packed[p + 5]! + z * packed[p + 6]!) +
            y * (packed[p + 2]! + y * packed[p + 7]! + z * packed[p + 8]!) +
            z * (packed[p + 3]! + z * packed[p + 9]!);
        }
      }
    }
  }
  return out;
}

/** Turns log weights into weights that sum to one, in place. */
export function normalise(log: Float64Array): Float64Array {
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < log.length; i++) if (log[i]! > top) top = log[i]!;
  let sum = 0;
  for (let i = 0; i < log.length; i++) {
    const value = log[i]! - top;
    const weight = value < NEGLIGIBLE ? 0 : Math.exp(value);
    log[i] = weight;
    sum += weight;
  }
  for (let i = 0; i < log.length; i++) log[i]! /= sum;
  return log;
}

/** First and last index between which all but `tail` on each side lies, widened by one. */
export function reachOf(marginal: Float64Array, tail: number): [number, number] {
  let low = 0;
  for (let sum = marginal[0]!; sum < tail && low < marginal.length - 1; sum += marginal[low]!)
    low++;
  let high = marginal.length - 1;
  for (let sum = marginal[high]!; sum < tail && high > 0; sum += marginal[high]!) high--;
  return [Math.max(0, low - 1), Math.min(marginal.length - 1, high + 1)];
}

export function marginalsOf(axes: Axes, cases: number, weights: Float64Array) {
  const best = new Float64Array(axes.best.length);
  const curvature = new Float64Array(axes.curvature.length);
  const byCase = new Float64Array(cases);
  let at = 0;
  for (let ib = 0; ib < best.length; ib++) {
    for (let ik = 0; ik < curvature.length; ik++) {
      for (let ic = 0; ic < axes.lean.length; ic++) {
        for (let i = 0; i < cases; i++) {
          const weight = weights[at++]!;
          best[ib]! += weight;
          curvature[ik]! += weight;
          byCase[i]! += weight;
        }
      }
    }
  }
  return { best, curvature, cases: byCase };
}

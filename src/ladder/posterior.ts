import { fraction, normalFraction } from './evenly.ts';
import { DRIFT_SDS, type Priors, STRAY_SD, STRAY_SHARE } from './priors.ts';

/*
 * The response of mean power to the setting, and what the pulls leave possible of it.
 *
 * Pull p at setting u_p (mirrored: up is the unsafe side), in the day's order τ_p, with power y_p relative to the
 * day's mean:
 *
 *   y_p = a − loss(u_p) + δ·τ_p + o_p + e_p,      loss(u) = k·(u − b)²·(1 + c·(u − b))
 *
 * b the best, k the curvature there, c the lean; o_p ~ N(0, σ²) pull to pull, e_p the curve's own sampling error,
 * δ ~ N(0, D²) drift a pull, a flat. Given (b, k, c, σ, D) the rest is linear and Gaussian, so a and δ are integrated
 * in closed form: with C = diag(σ² + s_p²) + D²ττᵀ, W = C⁻¹ and A = W − W11ᵀW/(1ᵀW1),
 *
 *   log p(y | b, k, c, σ, D) = −½ [log|C| + log(1ᵀW1) + (y + loss)ᵀA(y + loss)].
 *
 * loss is a cubic in u, so the quadratic form needs only the 4 × 4 matrix of A between y, v, v², v³: some twenty
 * operations a grid point. (b, k, c, σ, D) are then summed over a grid that is first laid wide and then drawn
 * together around what is left possible. The best is thus never a ratio of two estimates: its skewed posterior is
 * read off the grid.
 *
 * One pull may be a stray: the same sum is made on a coarse grid with each pull's variance raised in turn, and the
 * cases that keep weight are mixed.
 */

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

/** Equally likely responses, as columns; `level` is a, relative to the day's mean. */
export interface ResponseDraws {
  readonly count: number;
  readonly best: Float64Array;
  readonly curvature: Float64Array;
  readonly lean: Float64Array;
  readonly level: Float64Array;
  readonly repeatSd: Float64Array;
  readonly drift: Float64Array;
}

export interface ResponsePosterior {
  readonly draws: ResponseDraws;
  /** Chance that the best lies below u. */
  readonly chanceBestBelow: (u: number) => number;
  readonly bestQuantile: (p: number) => number;
  /** Chance of each pull to be a stray, in the order given. */
  readonly strayChance: readonly number[];
}

/** Relative loss of power at d above the best. */
export function lossAt(d: number, curvature: number, lean: number): number {
  return curvature * d * d * (1 + lean * d);
}

const DRAWS = 512;
/** Log weight against the best grid point below which a point is left out. */
const NEGLIGIBLE = -18;

interface Axes {
  readonly best: Float64Array;
  readonly logBest: Float64Array;
  readonly curvature: Float64Array;
  readonly logCurvature: Float64Array;
  readonly lean: Float64Array;
  readonly logLean: Float64Array;
  readonly repeat: Float64Array;
  readonly logRepeat: Float64Array;
}

/** Sufficient statistics of the pulls for one (σ, D): the quadratic form between y, v, v², v³. */
interface Form {
  readonly constant: number;
  readonly g: Float64Array;
  /** Conditional mean of a as a linear function of (y, v, v², v³), its sd, and the same for δ. */
  readonly level: Float64Array;
  readonly levelSd: number;
  readonly slope: Float64Array;
  readonly slopeSd: number;
}

function linspace(low: number, high: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) =>
    count === 1 ? (low + high) / 2 : low + ((high - low) * i) / (count - 1),
  );
}

/** Student t with 10 degrees of freedom: a ladder begun far from the best is rare, not impossible. */
const logBestPrior = (b: number, [middle, spread]: Priors['best']) =>
  -5.5 * Math.log1p(((b - middle) / spread) ** 2 / 10);

/** Log-uniform between the two, with soft ends (sd of a third in the logarithm): no cliff at a round number. */
function logCurvaturePrior(k: number, [low, high]: Priors['curvature']): number {
  const past = Math.max(0, Math.log(low / k), Math.log(k / high));
  return -0.5 * (past / 0.2) ** 2;
}

function axesOf(
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

/** Closed-form elimination of level and drift for one repeatability, drift sd and (or −1) one stray pull. */
function formOf(
  points: readonly ResponsePoint[],
  middle: number,
  orderMiddle: number,
  sigma: number,
  driftSd: number,
  stray: number,
): Form {
  const n = points.length;
  // With D²ττᵀ added, W = Λ − Λτ(D⁻² + τᵀΛτ)⁻¹τᵀΛ; all sums below follow from weighted moments.
  const columns = points.map((p) => {
    const v = p.u - middle;
    return [p.y, v, v * v, v * v * v];
  });
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

/** The three coefficients of v, v², v³ of the loss k(v − b)²(1 + c(v − b)); its constant is part of the level. */
const q1 = (k: number, b: number, c: number) => k * b * (3 * c * b - 2);
const q2 = (k: number, b: number, c: number) => k * (1 - 3 * c * b);
const q0 = (k: number, b: number, c: number) => k * b * b * (1 - c * b);

interface Case {
  readonly sigma: number;
  readonly form: Form;
  readonly logWeight: number;
}

function casesOf(
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
        const form = formOf(points, middle, orderMiddle, sigma, driftSd, stray);
        cases.push({
          sigma,
          form,
          logWeight: axes.logRepeat[s]! + Math.log(weight) + logStray + form.constant,
        });
      }
    }
  });
  return cases;
}

/** Log posterior at every grid point, best slowest, case fastest. */
function logPosterior(axes: Axes, cases: readonly Case[], middle: number): Float64Array {
  const [nb, nk, nc] = [axes.best.length, axes.curvature.length, axes.lean.length];
  const out = new Float64Array(nb * nk * nc * cases.length);
  const count = cases.length;
  const packed = new Float64Array(count * 10);
  cases.forEach(({ form: { g }, logWeight }, i) => {
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
      10 * i,
    );
  });
  let at = 0;
  for (let ib = 0; ib < nb; ib++) {
    const b = axes.best[ib]! - middle;
    for (let ik = 0; ik < nk; ik++) {
      const k = axes.curvature[ik]!;
      for (let ic = 0; ic < nc; ic++) {
        const c = axes.lean[ic]!;
        const prior = axes.logBest[ib]! + axes.logCurvature[ik]! + axes.logLean[ic]!;
        const [x, y, z] = [q1(k, b, c), q2(k, b, c), k * c];
        for (let i = 0, p = 0; i < count; i++, p += 10) {
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
function normalise(log: Float64Array): Float64Array {
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
function reachOf(marginal: Float64Array, tail: number): [number, number] {
  let low = 0;
  for (let sum = marginal[0]!; sum < tail && low < marginal.length - 1; sum += marginal[low]!)
    low++;
  let high = marginal.length - 1;
  for (let sum = marginal[high]!; sum < tail && high > 0; sum += marginal[high]!) high--;
  return [Math.max(0, low - 1), Math.min(marginal.length - 1, high + 1)];
}

/** What the pulls leave possible of the response. Any number of pulls, none included: then the prior speaks. */
export function gridPosterior(points: readonly ResponsePoint[], priors: Priors): ResponsePosterior {
  const us = points.map((p) => p.u);
  const middle = points.length === 0 ? priors.best[0] : (Math.min(...us) + Math.max(...us)) / 2;
  const orders = points.map((p) => p.order);
  const orderMiddle = points.length === 0 ? 0 : (Math.min(...orders) + Math.max(...orders)) / 2;
  const [b0, spread] = priors.best;
  const span = points.length === 0 ? 0 : Math.max(...us) - Math.min(...us);
  const [kLow, kHigh] = [priors.curvature[0] / 2, priors.curvature[1] * 1.8];
  const sLow = priors.repeatMedian * Math.exp(-2.6 * priors.repeatLogSd);
  const sHigh = priors.repeatMedian * Math.exp(2.6 * priors.repeatLogSd);
  const bestRange = [b0 - 5 * spread, b0 + Math.max(6 * spread, span + 2 * spread)] as const;
  const { strayChance, kept } = straysOf(points, middle, orderMiddle, (sigmas) =>
    axesOf(priors, [...bestRange, 28], [kLow, kHigh, 6], 3, [sLow, sHigh, sigmas]),
  );
  const wide = axesOf(priors, [...bestRange, 56], [kLow, kHigh, 9], 3, [sLow, sHigh, 3]);
  const wideCases = casesOf(points, wide, middle, orderMiddle, kept);
  const wideWeights = normalise(logPosterior(wide, wideCases, middle));
  const marginals = marginalsOf(wide, wideCases.length, wideWeights);

  const [bi, bj] = reachOf(marginals.best, 2e-4);
  const [ki, kj] = reachOf(marginals.curvature, 1e-3);
  const fine = axesOf(
    priors,
    [wide.best[bi]!, wide.best[bj]!, 64],
    [wide.curvature[ki]!, wide.curvature[kj]!, 12],
    5,
    priors.repeatLogSd <= STATED_LOG_SD_LIMIT ? [sLow, sHigh, 3] : [sLow, sHigh, 6],
  );
  const cases = casesOf(points, fine, middle, orderMiddle, kept);
  const weights = normalise(logPosterior(fine, cases, middle));
  const { best: bestMarginal } = marginalsOf(fine, cases.length, weights);

  const step = fine.best[1]! - fine.best[0]!;
  const cumulative = new Float64Array(bestMarginal.length + 1);
  bestMarginal.forEach((weight, i) => {
    cumulative[i + 1] = cumulative[i]! + weight;
  });
  const edge = (i: number) => fine.best[0]! + (i - 0.5) * step;
  const chanceBestBelow = (u: number) => {
    const place = (u - edge(0)) / step;
    if (place <= 0) return 0;
    if (place >= bestMarginal.length) return 1;
    const i = Math.floor(place);
    return cumulative[i]! + (place - i) * bestMarginal[i]!;
  };
  const bestQuantile = (p: number) => {
    let i = 0;
    while (i < bestMarginal.length - 1 && cumulative[i + 1]! < p) i++;
    const inside = bestMarginal[i]! > 0 ? (p - cumulative[i]!) / bestMarginal[i]! : 0.5;
    return edge(i + Math.min(1, Math.max(0, inside)));
  };
  return {
    draws: drawsOf(fine, cases, weights, middle, step),
    chanceBestBelow,
    bestQuantile,
    strayChance,
  };
}

const STATED_LOG_SD_LIMIT = 0.2;
/** A pull that is a stray with less than this chance is not carried on as one. */
const STRAY_KEPT = 0.03;

/** Chance of each pull to be the one stray of the day, and the cases worth carrying on. Four pulls at least. */
function straysOf(
  points: readonly ResponsePoint[],
  middle: number,
  orderMiddle: number,
  axesWith: (sigmas: number) => Axes,
) {
  const none: readonly [number, number] = [-1, 0];
  const strayChance = points.map(() => 0);
  if (points.length < 4) return { strayChance, kept: [none] };
  const odds = Math.log(STRAY_SHARE / (1 - STRAY_SHARE));
  const strays = [none, ...points.map((_, i) => [i, odds] as const)];
  const axes = axesWith(3);
  const cases = casesOf(points, axes, middle, orderMiddle, strays, DRIFT_SDS.slice(0, 1));
  const weights = marginalsOf(axes, cases.length, normalise(logPosterior(axes, cases, middle)));
  cases.forEach((_, i) => {
    const pull = strays[i % strays.length]![0];
    if (pull >= 0) strayChance[pull]! += weights.cases[i]!;
  });
  return {
    strayChance,
    kept: strays.filter(([pull]) => pull < 0 || strayChance[pull]! > STRAY_KEPT),
  };
}

function marginalsOf(axes: Axes, cases: number, weights: Float64Array) {
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

/** Evenly spaced draws along the cumulative weight; inside a cell of the grid they are spread by fixed fractions. */
function drawsOf(
  axes: Axes,
  cases: readonly Case[],
  weights: Float64Array,
  middle: number,
  bestStep: number,
): ResponseDraws {
  const column = () => new Float64Array(DRAWS);
  const draws = {
    count: DRAWS,
    best: column(),
    curvature: column(),
    lean: column(),
    level: column(),
    repeatSd: column(),
    drift: column(),
  };
  const count = cases.length;
  const [nk, nc] = [axes.curvature.length, axes.lean.length];
  const kStep = nk > 1 ? Math.log(axes.curvature[1]! / axes.curvature[0]!) : 0;
  const cStep = nc > 1 ? axes.lean[1]! - axes.lean[0]! : 0;
  const sStep = axes.repeat.length > 1 ? Math.log(axes.repeat[1]! / axes.repeat[0]!) : 0;
  let at = 0;
  let before = 0;
  for (let i = 0; i < DRAWS; i++) {
    const target = (i + 0.5) / DRAWS;
    while (at < weights.length - 1 && before + weights[at]! < target) before += weights[at++]!;
    const { sigma, form } = cases[at % count]!;
    const cell = Math.floor(at / count);
    const ic = cell % nc;
    const ik = Math.floor(cell / nc) % nk;
    const ib = Math.floor(cell / (nc * nk));
    const b = axes.best[ib]! + bestStep * (fraction(i, 0) - 0.5);
    const k = axes.curvature[ik]! * Math.exp(kStep * (fraction(i, 1) - 0.5));
    const c = axes.lean[ic]! + cStep * (fraction(i, 2) - 0.5);
    const v = b - middle;
    const q = [1, q1(k, v, c), q2(k, v, c), k * c];
    let level = q0(k, v, c);
    let drift = 0;
    for (let j = 0; j < 4; j++) {
      level += q[j]! * form.level[j]!;
      drift += q[j]! * form.slope[j]!;
    }
    draws.best[i] = b;
    draws.curvature[i] = k;
    draws.lean[i] = c;
    draws.level[i] = level + form.levelSd * normalFraction(i, 3);
    draws.drift[i] = drift + form.slopeSd * normalFraction(i, 4);
    draws.repeatSd[i] = sigma * Math.exp(sStep * (fraction(i, 5) - 0.5));
  }
  return draws;
}

import { fraction, normalFraction } from './evenly.ts';
import type { ResponsePoint } from './form.ts';
import {
  type Axes,
  axesOf,
  type Case,
  casesOf,
  logPosterior,
  marginalsOf,
  normalise,
  reachOf,
} from './grid.ts';
import { DRIFT_SDS, type Priors, STRAY_SHARE } from './priors.ts';
import type { ResponseShape } from './shape.ts';

/*
 * The response of mean power to the setting, and what the pulls leave possible of it.
 *
 * Pull p at setting u_p (mirrored: up is the unsafe side), in the day's order τ_p, with power y_p relative to the
 * day's mean:
 *
 *   y_p = a − loss(u_p) + δ·τ_p + o_p + e_p,      loss(u) = k·(u − b)²·(1 + c·(u − b) + …)
 *
 * b the best, k the curvature there, c the lean, the rest as the shape says (shape.ts); o_p ~ N(0, σ²) pull to pull, e_p the curve's own sampling error,
 * δ ~ N(0, D²) drift a pull, a flat. Given (b, k, c, σ, D) the rest is linear and Gaussian, so a and δ are integrated
 * in closed form: with C = diag(σ² + s_p²) + D²ττᵀ, W = C⁻¹ and A = W − W11ᵀW/(1ᵀW1),
 *
 *   log p(y | b, k, c, σ, D) = −½ [log|C| + log(1ᵀW1) + (y + loss)ᵀA(y + loss)].
 *
 * For given c the loss is linear in three columns of u, so the quadratic form needs only the 4 × 4 matrix of A between
 * y and these: some twenty operations a grid point. (b, k, c, σ, D) are then summed over a grid that is first laid wide and then drawn
 * together around what is left possible. The best is thus never a ratio of two estimates: its skewed posterior is
 * read off the grid.
 *
 * One pull may be a stray: the same sum is made on a coarse grid with each pull's variance raised in turn, and the
 * cases that keep weight are mixed.
 */

/** Equally likely responses, as columns; `level` is a, relative to the day's mean. */
export interface ResponseDraws {
  readonly count: number;
  readonly shape: ResponseShape;
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

const DRAWS = 512;
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
  const bestRange = [b0 - 8 * spread, b0 + Math.max(6 * spread, span + 2 * spread)] as const;
  const { strayChance, kept } = straysOf(points, middle, orderMiddle, (sigmas) =>
    axesOf(priors, [...bestRange, 32], [kLow, kHigh, 6], 3, [sLow, sHigh, sigmas]),
  );
  const wide = axesOf(priors, [...bestRange, 64], [kLow, kHigh, 9], 3, [sLow, sHigh, 3]);
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

/** Evenly spaced draws along the cumulative weight; inside a cell of the grid they are spread by fixed fractions. */
function drawsOf(
  axes: Axes,
  cases: readonly Case[],
  weights: Float64Array,
  middle: number,
  bestStep: number,
): ResponseDraws {
  const column = () => new Float64Array(DRAWS);
  const { shape } = axes;
  const draws = {
    count: DRAWS,
    shape,
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
    const { sigma, forms } = cases[at % count]!;
    const cell = Math.floor(at / count);
    const ic = cell % nc;
    const ik = Math.floor(cell / nc) % nk;
    const ib = Math.floor(cell / (nc * nk));
    const b = axes.best[ib]! + bestStep * (fraction(i, 0) - 0.5);
    const k = axes.curvature[ik]! * Math.exp(kStep * (fraction(i, 1) - 0.5));
    // Columns that depend on the lean are known at the axes' own leans only.
    const spread = shape.leansInColumns ? 0 : cStep;
    const c = axes.lean[ic]! + spread * (fraction(i, 2) - 0.5);
    const form = forms[ic]!;
    const v = b - middle;
    const q = [1, ...shape.factors(k, v, c)];
    let level = shape.constant(k, v, c);
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

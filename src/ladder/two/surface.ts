import { gaussianTable } from '../../numerics/draws.ts';
import { ensembleDraws, xorshift } from '../../numerics/ensemble.ts';
import { LAMBDA, SPARK_LEAD } from '../kinds.ts';
import { DRIFT_SDS, type Priors, priorsFor, STRAY_SD } from '../priors.ts';
import { SHAPES } from '../shape.ts';

/*
 * Lead and mixture at once, from pulls in any pattern.
 *
 * Pull p with lead L and mixture λ, in its day's order τ, with mean power y relative to the mean of the pulls:
 *
 *   y = a_day − loss(L, λ) + δ_day·τ + o + e
 *   loss(L, λ) = f(L − L*(λ); kL, cL) + f(λ − b; kλ, cλ),      L*(λ) = B + m·(λ − b)
 *
 * f the linear-exponential loss of shape.ts for both, B and b the best lead and mixture, m the ridge: how the best lead
 * follows the mixture. To second order this is the full quadratic of a response surface (its interaction is −2·kL·m), but
 * written by its best, so that this is never a ratio of estimates. Pull to pull o ~ N(0, σ²), drift δ as in priors.ts,
 * levels a flat. Given (B, kL, cL, b, kλ, cλ, m, σ) levels and drifts are integrated in closed form, day by day: with
 * weights w and r = y + loss, Σ over the day's pulls and P = 1/D² + Σwτ²,
 *
 *   log p = −½ [Σ log 1/w + log D²P + log S + Σwr² − (Σwrτ)²/P − (Σwr − Σwτ·Σwrτ/P)²/S],    S = Σw − (Σwτ)²/P,
 *
 * mixed over the drift's two sds. The eight are drawn by an ensemble of walkers (numerics/ensemble.ts).
 *
 * The ridge's prior. The best lead is about half of the burn before the best place of its middle, and the burn goes as
 * the flame's speed to the power of some −½. Laminar flame speed of gasoline is 30.5 − 54.9(φ − 1.21)² cm/s (Heywood
 * 1988, table 9.4, from memory): from lambda 0.80 to 1.00 it falls from 30.4 to 28.1, the burn grows by 4 %, and a best
 * lead of 32° with its middle 8° after top centre moves by 1.6°, 8 degrees a unit of lambda; from 0.9 to 1.1 by 20 a
 * unit. Prior 10 ± 15.
 */

export interface SurfacePoint {
  readonly leadDeg: number;
  readonly lambda: number;
  readonly lambdaSd: number;
  readonly day: number;
  readonly order: number;
  readonly y: number;
  readonly ySd: number;
}

/** Equally likely surfaces, as columns. */
export interface SurfaceDraws {
  readonly count: number;
  readonly bestLead: Float64Array;
  readonly leadCurvature: Float64Array;
  readonly leadLean: Float64Array;
  readonly bestLambda: Float64Array;
  readonly lambdaCurvature: Float64Array;
  readonly lambdaLean: Float64Array;
  readonly ridge: Float64Array;
  readonly repeatSd: Float64Array;
}

export interface SurfacePosterior {
  readonly draws: SurfaceDraws;
  /** The pull that disagrees with the others, or −1. */
  readonly stray: number;
}

/** Degrees of lead a unit of lambda. */
export const RIDGE_PRIOR: readonly [number, number] = [10, 15];
const SIZE = 8;
const WALKERS = 40;
const BURN = 260;
const KEEP = 320;
const THIN = 25;
/** Distance from the surface, in sds of what the cell repeats, at which one pull is taken for a stray. */
const STRAY_SDS = 3.6;

const { loss: lossOf, slope: slopeOf } = SHAPES.linex;

/** Relative loss of mean power at a place, for one draw. */
export function surfaceLoss(
  draws: SurfaceDraws,
  d: number,
  leadDeg: number,
  lambda: number,
): number {
  const e = lambda - draws.bestLambda[d]!;
  return (
    lossOf(
      leadDeg - draws.bestLead[d]! - draws.ridge[d]! * e,
      draws.leadCurvature[d]!,
      draws.leadLean[d]!,
    ) + lossOf(e, draws.lambdaCurvature[d]!, draws.lambdaLean[d]!)
  );
}

/** Best lead at a mixture, for one draw. */
export const ridgeLead = (draws: SurfaceDraws, d: number, lambda: number): number =>
  draws.bestLead[d]! + draws.ridge[d]! * (lambda - draws.bestLambda[d]!);

const logStudent = (x: number, [middle, spread]: Priors['best']) =>
  -5.5 * Math.log1p(((x - middle) / spread) ** 2 / 10);

/** Log-uniform with soft ends, of the logarithm. */
function logCurvature(log: number, [low, high]: Priors['curvature']): number {
  const past = Math.max(0, Math.log(low) - log, log - Math.log(high));
  return -0.5 * (past / 0.2) ** 2;
}

/** What the pulls leave possible of the surface; without any the priors speak. */
export function surfacePosterior(
  points: readonly SurfacePoint[],
  statedPercent: number | null,
): SurfacePosterior {
  const span = (of: (point: SurfacePoint) => number, fallback: number) => {
    const values = points.map(of);
    return values.length === 0
      ? ([fallback, fallback] as const)
      : ([Math.min(...values), Math.max(...values)] as const);
  };
  const lead = priorsFor(SPARK_LEAD, ...span((p) => p.leadDeg, 25), statedPercent);
  const mixture = priorsFor(LAMBDA, ...span((p) => p.lambda, 0.82), statedPercent);
  const logPrior = (x: Float64Array) =>
    logStudent(x[0]!, lead.best) +
    logCurvature(x[1]!, lead.curvature) -
    0.5 * ((x[2]! - lead.lean[0]) / lead.lean[1]) ** 2 +
    logStudent(x[3]!, mixture.best) +
    logCurvature(x[4]!, mixture.curvature) -
    0.5 * ((x[5]! - mixture.lean[0]) / mixture.lean[1]) ** 2 -
    0.5 * ((x[6]! - RIDGE_PRIOR[0]) / RIDGE_PRIOR[1]) ** 2 -
    0.5 * ((x[7]! - Math.log(lead.repeatMedian)) / lead.repeatLogSd) ** 2;

  const starts = startsFrom(lead, mixture);
  const sample = (variances: readonly number[]) => {
    const days = daysOf(points, variances);
    const log = (x: Float64Array) => {
      const prior = logPrior(x);
      return prior > -200 ? prior + logLikelihood(days, x) : Number.NEGATIVE_INFINITY;
    };
    const likely = starts
      .map((x) => ({ x, log: log(x) }))
      .sort((a, b) => b.log - a.log)
      .slice(0, WALKERS)
      .map(({ x }) => x);
    return columnsOf(ensembleDraws(log, likely, BURN, KEEP, THIN));
  };
  const own = points.map(({ ySd }) => ySd * ySd);
  let draws = sample(own);
  if (points.some(({ lambdaSd }) => lambdaSd > 0)) {
    // Effective variance, as for one setting (answer.ts).
    points.forEach((point, i) => {
      own[i]! += (point.lambdaSd * meanSlope(draws, point)) ** 2;
    });
    draws = sample(own);
  }
  const stray = strayOf(points, draws);
  if (stray >= 0) {
    own[stray]! += STRAY_SD ** 2;
    draws = sample(own);
  }
  return { draws, stray };
}

/** Root mean square slope of the loss with lambda at a pull. */
function meanSlope(draws: SurfaceDraws, { leadDeg, lambda }: SurfacePoint): number {
  let square = 0;
  for (let d = 0; d < draws.count; d++) {
    const e = lambda - draws.bestLambda[d]!;
    const byLead = slopeOf(
      leadDeg - ridgeLead(draws, d, lambda),
      draws.leadCurvature[d]!,
      draws.leadLean[d]!,
    );
    const byLambda = slopeOf(e, draws.lambdaCurvature[d]!, draws.lambdaLean[d]!);
    square += (byLambda - draws.ridge[d]! * byLead) ** 2 / draws.count;
  }
  return Math.sqrt(square);
}

/** The one pull that stands farther off the surface than the cell repeats, or −1; six pulls at least tell one. */
function strayOf(points: readonly SurfacePoint[], draws: SurfaceDraws): number {
  if (points.length < 7) return -1;
  let sd = 0;
  const off = points.map((point) => {
    let mean = 0;
    for (let d = 0; d < draws.count; d++)
      mean += surfaceLoss(draws, d, point.leadDeg, point.lambda) / draws.count;
    return point.y + mean;
  });
  for (const value of draws.repeatSd) sd += value / draws.count;
  // Against the median, which a stray moves little, and the scatter of the others.
  const middle = [...off].sort((a, b) => a - b)[off.length >> 1]!;
  const distances = off.map((value) => Math.abs(value - middle));
  const worst = distances.indexOf(Math.max(...distances));
  const others = distances.filter((_, i) => i !== worst);
  const scatter = Math.sqrt(others.reduce((sum, x) => sum + x * x, 0) / (others.length - 1));
  return distances[worst]! > STRAY_SDS * Math.max(scatter, Math.min(sd, 0.006)) ? worst : -1;
}

interface Day {
  readonly lead: Float64Array;
  readonly lambda: Float64Array;
  readonly y: Float64Array;
  readonly variance: Float64Array;
  readonly tau: Float64Array;
}

function daysOf(points: readonly SurfacePoint[], variances: readonly number[]): Day[] {
  return [...new Set(points.map(({ day }) => day))].map((day) => {
    const own = points.flatMap((point, i) => (point.day === day ? [i] : []));
    const orders = own.map((i) => points[i]!.order);
    const middle = (Math.min(...orders) + Math.max(...orders)) / 2;
    const column = (of: (i: number) => number) => Float64Array.from(own, of);
    return {
      lead: column((i) => points[i]!.leadDeg),
      lambda: column((i) => points[i]!.lambda),
      y: column((i) => points[i]!.y),
      variance: column((i) => variances[i]!),
      tau: column((i) => points[i]!.order - middle),
    };
  });
}

function logLikelihood(days: readonly Day[], x: Float64Array): number {
  const [best, kl, cl, rich, km, cm, ridge] = [
    x[0]!,
    Math.exp(x[1]!),
    x[2]!,
    x[3]!,
    Math.exp(x[4]!),
    x[5]!,
    x[6]!,
  ];
  const square = Math.exp(2 * x[7]!);
  let total = 0;
  for (const { lead, lambda, y, variance, tau } of days) {
    let [logs, sw, st, stt, sr, srt, srr] = [0, 0, 0, 0, 0, 0, 0];
    for (let i = 0; i < y.length; i++) {
      const e = lambda[i]! - rich;
      const r = y[i]! + lossOf(lead[i]! - best - ridge * e, kl, cl) + lossOf(e, km, cm);
      const whole = square + variance[i]!;
      const w = 1 / whole;
      const t = tau[i]!;
      logs += Math.log(whole);
      sw += w;
      st += w * t;
      stt += w * t * t;
      sr += w * r;
      srt += w * r * t;
      srr += w * r * r;
    }
    let top = Number.NEGATIVE_INFINITY;
    let sum = 0;
    for (const [sd, share] of DRIFT_SDS) {
      const p = 1 / (sd * sd) + stt;
      const s = sw - (st * st) / p;
      const level = sr - (st * srt) / p;
      const log =
        Math.log(share) -
        0.5 *
          (logs +
            Math.log(sd * sd * p) +
            Math.log(s) +
            srr -
            (srt * srt) / p -
            (level * level) / s);
      if (log > top) {
        sum = sum * Math.exp(top - log) + 1;
        top = log;
      } else sum += Math.exp(log - top);
    }
    total += top + Math.log(sum);
  }
  return Number.isFinite(total) ? total : Number.NEGATIVE_INFINITY;
}

const PRIOR_DRAWS = 600;

/** Places drawn from the priors, from the likeliest of which the walkers set out. */
function startsFrom(lead: Priors, mixture: Priors): Float64Array[] {
  const uniform = xorshift(0x7a11);
  const between = ([low, high]: readonly [number, number]) =>
    Math.log(low) + uniform() * Math.log(high / low);
  return gaussianTable(PRIOR_DRAWS, SIZE, 0x7a12).map((z) =>
    Float64Array.of(
      lead.best[0] + lead.best[1] * z[0]!,
      between(lead.curvature),
      lead.lean[0] + lead.lean[1] * z[2]!,
      mixture.best[0] + mixture.best[1] * z[3]!,
      between(mixture.curvature),
      mixture.lean[0] + mixture.lean[1] * z[5]!,
      RIDGE_PRIOR[0] + RIDGE_PRIOR[1] * z[6]!,
      Math.log(lead.repeatMedian) + lead.repeatLogSd * z[7]!,
    ),
  );
}

function columnsOf(rows: readonly Float64Array[]): SurfaceDraws {
  const column = (j: number, of: (value: number) => number = (value) => value) =>
    Float64Array.from(rows, (row) => of(row[j]!));
  return {
    count: rows.length,
    bestLead: column(0),
    leadCurvature: column(1, Math.exp),
    leadLean: column(2),
    bestLambda: column(3),
    lambdaCurvature: column(4, Math.exp),
    lambdaLean: column(5),
    ridge: column(6),
    repeatSd: column(7, Math.exp),
  };
}

import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { factorInPlace, inverseFromFactor, solveFactored } from '../numerics/cholesky.ts';
import {
  DAY_LOG_SD,
  DAY_MEDIAN,
  DRIFT_SDS,
  REPEAT_LOG_SD,
  REPEAT_MEDIAN,
  STATED_LOG_SD,
} from './priors.ts';

/*
 * The groups' mean power over the band.
 *
 * Pull p of group g, made as τ-th of day d on cell c, has the log mean power
 *
 *   z_p = μ_g + D_d + κ_c + δ_d·τ_p + o_p + e_p,
 *
 * D_d ~ N(0, ρ²) the day's own offset, κ_c ~ N(0, u_c²) the cell's calibration, δ_d ~ N(0, η²) the day's drift a pull,
 * o_p ~ N(0, σ²) pull to pull, e_p the curve's own sampling error; μ_g flat. Given (σ, ρ, η) this is the linear
 * Gaussian model: V the covariance of all that is random, μ̂ = (XᵀV⁻¹X)⁻¹XᵀV⁻¹z with covariance (XᵀV⁻¹X)⁻¹, and
 *
 *   log p(z | σ, ρ, η) = −½ [log|V| + log|XᵀV⁻¹X| + (z − Xμ̂)ᵀV⁻¹(z − Xμ̂)]
 *
 * (the restricted likelihood). σ, ρ, η are summed over a grid with their priors, so the law of μ is a mixture of
 * Gaussians: with few pulls its tails are wide, as Student's are. Groups made on one day share D_d, which then leaves
 * their difference by itself; groups of different days keep it, however many pulls were made.
 */

/** What one pull tells of its group's mean power. */
export interface MeanPoint {
  readonly group: number;
  readonly day: number;
  readonly cell: number;
  readonly order: number;
  /** Log mean power over the band. */
  readonly z: number;
  readonly zSd: number;
}

/** One part of the mixture. */
export interface Part {
  readonly weight: number;
  readonly repeatSd: number;
  readonly daySd: number;
  readonly mean: Float64Array;
  /** Covariance of the groups' means, and its lower Cholesky factor; row-major. */
  readonly covariance: Float64Array;
  readonly factor: Float64Array;
}

const SIGMAS = 13;
const RHOS = 7;
/** How far the grids of sd reach, in sds of their logarithm. */
const REACH = 2.6;
/** A part this much less likely than the likeliest changes nothing that is shown. */
const LEAST_LOG = -12;

/** An evenly spaced grid over the logarithm of an sd, with its prior's log density. */
function logGrid(median: number, logSd: number, count: number) {
  return Array.from({ length: count }, (_, i) => {
    const at = count === 1 ? 0 : REACH * ((2 * i) / (count - 1) - 1);
    return { sd: median * Math.exp(at * logSd), logPrior: -0.5 * at * at };
  });
}

/**
 * The law of the groups' log mean powers.
 *
 * @param statedSd  pull-to-pull sd that the shop states [1], or null
 * @param cellSds  relative sd of each cell's calibration, by cell index
 */
export function groupMeans(
  points: readonly MeanPoint[],
  groups: number,
  statedSd: number | null,
  cellSds: readonly number[],
): readonly Part[] {
  const days = new Set(points.map((point) => point.day)).size;
  const sigmas =
    statedSd === null
      ? logGrid(REPEAT_MEDIAN, REPEAT_LOG_SD, SIGMAS)
      : logGrid(statedSd, STATED_LOG_SD, 5);
  const rhos = logGrid(DAY_MEDIAN, DAY_LOG_SD, days > 1 ? RHOS : 1);
  const design = designOf(points, groups, cellSds);
  const raw: (Omit<Part, 'weight'> & { log: number })[] = [];
  for (const sigma of sigmas) {
    const at = given(design, sigma.sd);
    for (const rho of rhos)
      for (const [eta, share] of DRIFT_SDS) {
        const fit = fitGiven(design, at, rho.sd, eta);
        raw.push({
          ...fit,
          repeatSd: sigma.sd,
          daySd: rho.sd,
          log: fit.log + sigma.logPrior + rho.logPrior + Math.log(share),
        });
      }
  }
  const top = Math.max(...raw.map((part) => part.log));
  const kept = raw.filter((part) => part.log - top > LEAST_LOG);
  const total = kept.reduce((sum, part) => sum + Math.exp(part.log - top), 0);
  return kept.map(({ log, ...part }) => ({ ...part, weight: Math.exp(log - top) / total }));
}

/** Order within the day, from the day's middle. */
function centredOrders(points: readonly MeanPoint[]): number[] {
  const middle = new Map<number, number>();
  for (const { day } of points) {
    const orders = points.filter((point) => point.day === day).map((point) => point.order);
    middle.set(day, (Math.min(...orders) + Math.max(...orders)) / 2);
  }
  return points.map((point) => point.order - middle.get(point.day)!);
}

/*
 * What is random beyond the pull itself (days' offsets and drifts, cells) is carried as further unknowns u with their
 * own precision C⁻¹, so that each part of the mixture factors a matrix as large as there are days, cells and groups,
 * and not as there are pulls. With W = [U X] and D = diag(σ² + e²),
 *
 *   M = WᵀD⁻¹W + C⁻¹,   |V|·|XᵀV⁻¹X| = |D|·|C|·|M|,   (z−Xμ̂)ᵀV⁻¹(z−Xμ̂) = zᵀD⁻¹z − (WᵀD⁻¹z)ᵀM⁻¹(WᵀD⁻¹z),
 *
 * and the last block of M's Cholesky factor is that of XᵀV⁻¹X. (C. R. Henderson's mixed-model equations, from memory.)
 */
interface Design {
  readonly unknowns: number;
  readonly groups: number;
  /** Columns of each point and what stands in them. */
  readonly columns: readonly (readonly (readonly [column: number, value: number])[])[];
  /** Variance of each random column, given ρ and η. */
  readonly variances: readonly ('day' | 'drift' | number)[];
  /** Log mean powers less their mean, so that nothing large cancels. */
  readonly z: Float64Array;
  readonly origin: number;
  readonly zSd: readonly number[];
}

function designOf(
  points: readonly MeanPoint[],
  groups: number,
  cellSds: readonly number[],
): Design {
  const variances: ('day' | 'drift' | number)[] = [];
  const known = new Map<string, number>();
  const columnOf = (key: string, variance: 'day' | 'drift' | number) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    known.set(key, variances.length);
    return variances.push(variance) - 1;
  };
  const taus = centredOrders(points);
  const random = points.map(({ day, cell }, i) => {
    const own: [number, number][] = [[columnOf(`day ${day}`, 'day'), 1]];
    if (taus[i] !== 0) own.push([columnOf(`drift ${day}`, 'drift'), taus[i]!]);
    const cellSd = cellSds[cell]!;
    if (cellSd > 0) own.push([columnOf(`cell ${cell}`, cellSd ** 2), 1]);
    return own;
  });
  const origin = points.reduce((sum, { z }) => sum + z, 0) / points.length;
  return {
    unknowns: variances.length + groups,
    groups,
    columns: random.map((own, i) => [...own, [variances.length + points[i]!.group, 1] as const]),
    variances,
    z: Float64Array.from(points, ({ z }) => z - origin),
    origin,
    zSd: points.map(({ zSd }) => zSd),
  };
}

/** All that a pull-to-pull sd settles: WᵀD⁻¹W, WᵀD⁻¹z, zᵀD⁻¹z and log|D|. */
function given({ unknowns, columns, z, zSd }: Design, sigma: number) {
  const gram = new Float64Array(unknowns * unknowns);
  const right = new Float64Array(unknowns);
  let [square, logDetD] = [0, 0];
  columns.forEach((own, i) => {
    const variance = sigma * sigma + zSd[i]! ** 2;
    logDetD += Math.log(variance);
    square += z[i]! ** 2 / variance;
    for (const [one, value] of own) {
      right[one]! += (value * z[i]!) / variance;
      for (const [other, also] of own) gram[one * unknowns + other]! += (value * also) / variance;
    }
  });
  return { gram, right, square, logDetD };
}

function fitGiven(
  { unknowns, groups, variances, origin }: Design,
  { gram, right, square, logDetD }: ReturnType<typeof given>,
  rho: number,
  eta: number,
) {
  const m = Float64Array.from(gram);
  let logDetC = 0;
  variances.forEach((kind, k) => {
    const variance = kind === 'day' ? rho * rho : kind === 'drift' ? eta * eta : kind;
    logDetC += Math.log(variance);
    m[k * unknowns + k]! += 1 / variance;
  });
  const logDetM = factorInPlace(m, unknowns);
  const solved = solveFactored(m, unknowns, right);
  let explained = 0;
  for (let k = 0; k < unknowns; k++) explained += solved[k]! * right[k]!;
  const first = unknowns - groups;
  const block = new Float64Array(groups * groups);
  for (let g = 0; g < groups; g++)
    for (let h = 0; h <= g; h++) block[g * groups + h] = m[(first + g) * unknowns + first + h]!;
  const covariance = new Float64Array(groups * groups);
  inverseFromFactor(block, groups, covariance);
  for (let g = 0; g < groups; g++)
    for (let h = 0; h < g; h++) covariance[h * groups + g] = covariance[g * groups + h]!;
  const factor = Float64Array.from(covariance);
  factorInPlace(factor, groups);
  return {
    log: -0.5 * (logDetD + logDetC + logDetM + square - explained),
    mean: solved.subarray(first).map((value) => value + origin),
    covariance,
    factor,
  };
}

/** The contrast that is one group's mean alone. */
export const only = (group: number, parts: readonly Part[]): number[] =>
  Array.from({ length: parts[0]!.mean.length }, (_, g) => (g === group ? 1 : 0));

/** The contrast of one group's mean less another's. */
export const lessOf = (group: number, other: number, parts: readonly Part[]): number[] =>
  only(group, parts).map((value, g) => (g === other ? value - 1 : value));

/** Mean and sd of a contrast c·μ in one part. */
function contrastIn(part: Part, contrast: readonly number[]): { mean: number; sd: number } {
  const groups = contrast.length;
  let mean = 0;
  let variance = 0;
  for (let g = 0; g < groups; g++) {
    mean += contrast[g]! * part.mean[g]!;
    for (let h = 0; h < groups; h++)
      variance += contrast[g]! * contrast[h]! * part.covariance[g * groups + h]!;
  }
  return { mean, sd: Math.sqrt(Math.max(variance, 1e-300)) };
}

/** Chance that a contrast of the groups' means lies below x. */
export function chanceBelow(
  parts: readonly Part[],
  contrast: readonly number[],
  x: number,
): number {
  return parts.reduce((sum, part) => {
    const { mean, sd } = contrastIn(part, contrast);
    return sum + part.weight * normalCdf((x - mean) / sd, 0, 1);
  }, 0);
}

/** What a 95 % interval leaves out on each side. */
export const TAIL = 0.025;

/** Within this of the wanted chance a quantile is found: far below what any figure shows. */
const CHANCE_TOLERANCE = 1e-9;

/** Quantile of a contrast of the groups' means, by false position that halves whenever one end stays (Illinois). */
export function contrastQuantile(
  parts: readonly Part[],
  contrast: readonly number[],
  p: number,
): number {
  const places = parts.map((part) => ({ ...contrastIn(part, contrast), weight: part.weight }));
  const off = (x: number) => {
    let chance = 0;
    for (const { mean, sd, weight } of places) chance += weight * normalCdf((x - mean) / sd, 0, 1);
    return chance - p;
  };
  let low = Math.min(...places.map(({ mean, sd }) => mean - 9 * sd));
  let high = Math.max(...places.map(({ mean, sd }) => mean + 9 * sd));
  let [atLow, atHigh] = [-p, 1 - p];
  let stayed = 0;
  for (let i = 0; i < 100 && high - low > 1e-12; i++) {
    // The first steps halve: far out the function is flat and false position creeps.
    const middle = i < 6 ? (low + high) / 2 : low + (atLow / (atLow - atHigh)) * (high - low);
    const at = off(middle);
    if (Math.abs(at) < CHANCE_TOLERANCE) return middle;
    if (at < 0) {
      low = middle;
      atLow = at;
      if (stayed === -1) atHigh /= 2;
      stayed = -1;
    } else {
      high = middle;
      atHigh = at;
      if (stayed === 1) atLow /= 2;
      stayed = 1;
    }
  }
  return (low + high) / 2;
}

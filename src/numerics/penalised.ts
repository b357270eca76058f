import { InputError } from '../errors.ts';
import { factorInPlace, inverseFromFactor, solveFactored } from './cholesky.ts';
import { type PenaltyOrder, penaltyMatrix } from './penalty.ts';
import { coefficientCount, type KnotGrid, parabolaCoefficients, type SplineFit } from './spline.ts';
import { type CrossProducts, designOf, type Noise, type Series, whiten } from './wander.ts';

/**
 * What the fit may assume of smoothness and noise; each value is one point of a grid that is integrated over.
 */
export interface FitPriors {
  /**
   * Penalty per variance of all noise, with the penalty measured in knot intervals; each value equally
   * likely.
   */
  readonly smoothness: readonly number[];
  /** Wander variance per white variance. */
  readonly share: readonly number[];
  /** Prior weight of each share. */
  readonly shareWeight: readonly number[];
  /** Memory of the wander, in the unit of time. */
  readonly memory: readonly number[];
  /** Prior weight of each memory. */
  readonly memoryWeight: readonly number[];
  /** What is known of the curve's roughness; left out: nothing. */
  readonly roughness?: RoughnessPrior;
}

/**
 * Log-normal prior of the curve's roughness: the standard deviation of its m-th derivative (m: the penalty's
 * order), with the abscissa counted in half spans and the ordinate in `level`.
 */
interface RoughnessPrior {
  readonly level: number;
  readonly median: number;
  readonly logSd: number;
}

export interface PenalisedFit {
  readonly spline: SplineFit;
  /** Posterior means. */
  readonly whiteSd: number;
  readonly wanderSd: number;
  readonly memory: number;
  /** Number of freely moving parameters that the smooth curve amounts to. */
  readonly effectiveDof: number;
  /** Points that counted. */
  readonly count: number;
}

/** Log-spaced values from low to high, both included. */
export function logSpaced(low: number, high: number, count: number): number[] {
  const ratio = count > 1 ? Math.log(high / low) / (count - 1) : 0;
  return Array.from({ length: count }, (_, i) => low * Math.exp(ratio * i));
}

const MEMORY_LOG_SD = 0.8;
/** Prior chance that a recording has no wander at all. */
const NO_WANDER = 1 / 3;

/**
 * Priors for a recorded signal. Smoothness: log-uniform over seven decades and more, from a curve that
 * follows every knot to its parabola. Share: log-uniform from almost none to a wander that rules; none at all
 * in a third of recordings. Memory: log-normal about `typicalMemory`, log sd 0.8, never below the sampling
 * interval; the lean is needed because a wander that remembers as long as the curve takes to bend cannot be
 * told from the curve.
 */
export function defaultPriors(typicalMemory: number, samplingInterval: number): FitPriors {
  const from = Math.max(samplingInterval, typicalMemory / 10);
  const memory = logSpaced(from, Math.max(2 * from, typicalMemory * 4), 6);
  const share = logSpaced(0.06, 1000, 8);
  return {
    smoothness: logSpaced(1e-3, 1e8, 23),
    share: [0, ...share],
    shareWeight: [NO_WANDER, ...share.map(() => (1 - NO_WANDER) / share.length)],
    memory,
    memoryWeight: memory.map((m) =>
      Math.exp(-0.5 * (Math.log(m / typicalMemory) / MEMORY_LOG_SD) ** 2),
    ),
  };
}

interface Candidate {
  readonly logWeight: number;
  readonly noise: Noise;
  readonly smoothness: number;
  readonly products: CrossProducts;
}

/**
 * Penalised spline through a recorded series whose noise is white plus wander.
 *
 * Given smoothness λ and noise, the coefficients have the flat-null-space Gaussian prior λ·aᵀPa, so their
 * posterior is N((BᵀR⁻¹B + λP)⁻¹BᵀR⁻¹y, σ²(BᵀR⁻¹B + λP)⁻¹). The restricted likelihood (REML, σ² profiled out)
 * of (λ, noise) is
 *   −2ℓ = (n−m)·ln(yᵀR⁻¹y − rᵀa) + ln|R| + ln|BᵀR⁻¹B + λP| − (K−m)·ln λ + constant, m the penalty's order.
 * It is evaluated on the priors' grid and the posterior is the mixture over the grid: mean of means, and
 * covariance within plus between. So a smoothness or a wander that the points leave open widens the band
 * instead of being guessed, and nothing iterates that could fail to settle.
 *
 * @source S. N. Wood, Generalized Additive Models, ch. 6 (REML of penalised splines), G. Wahba's Bayesian
 *   view of the smoothing spline [from memory]; closed forms and smooth.spline in reference/spline.test.ts;
 *   coverage of the band by simulation in penalised.test.ts
 * @throws InputError when there are fewer points than the penalty's polynomial needs, or a value is not finite
 */
export function fitPenalisedSpline(
  grid: KnotGrid,
  series: Series,
  order: PenaltyOrder,
  priors: FitPriors,
): PenalisedFit {
  checkSeries(series, order);
  const size = coefficientCount(grid);
  const design = designOf(grid, series.x);
  const penalty = penaltyMatrix(grid, order);
  const { remainder, parabola } = withoutParabola(grid, series, order);
  const flat = { ...series, y: remainder };
  const candidates: Candidate[] = [];
  const work = new Float64Array(size * size);
  let start = priors.smoothness.length >> 1;
  priors.share.forEach((share, shareAt) => {
    const memories = share === 0 ? [priors.memory[0]!] : priors.memory;
    const totalWeight = memories.reduce((sum, _, i) => sum + priors.memoryWeight[i]!, 0);
    memories.forEach((memory, at) => {
      const noise = { share, memory };
      const products = whiten(grid, design, flat, noise);
      const prior = Math.log(
        (priors.shareWeight[shareAt]! * priors.memoryWeight[at]!) / totalWeight,
      );
      const weigh = (index: number): number => {
        const smoothness = priors.smoothness[index]! / (1 + share);
        const { logLikelihood, variance } = restricted(
          products,
          penalty,
          size,
          order,
          smoothness,
          work,
        );
        const rough = roughnessOf(variance, smoothness, grid, order, priors.roughness);
        const logWeight = prior + logLikelihood + rough;
        candidates.push({ logWeight, noise, smoothness, products });
        return logWeight;
      };
      start = walk(priors.smoothness.length, start, weigh);
    });
  });
  return mixture(grid, likely(candidates), penalty, order, parabola);
}

/** So far below the best of its walk a hypothesis and all beyond it are not worth weighing. */
const HOPELESS = 9;

/**
 * Weighs the smoothnesses of one noise from a likely one outwards, either way until nothing more can come;
 * the best's index. Along smoothness the posterior rises to a summit and falls, save for dimples much smaller
 * than HOPELESS.
 */
function walk(count: number, start: number, weigh: (index: number) => number): number {
  let [best, at] = [weigh(start), start];
  for (const direction of [1, -1]) {
    for (let i = start + direction; i >= 0 && i < count; i += direction) {
      const value = weigh(i);
      if (value > best) [best, at] = [value, i];
      if (value < best - HOPELESS) break;
    }
  }
  return at;
}

/** The hypotheses that carry all but a two-hundredth of the posterior, the likeliest first. */
function likely(candidates: readonly Candidate[]): Candidate[] {
  const sorted = [...candidates].sort((one, other) => other.logWeight - one.logWeight);
  const best = sorted[0]!.logWeight;
  const weights = sorted.map(({ logWeight }) => Math.exp(logWeight - best));
  let left = 0.995 * weights.reduce((sum, weight) => sum + weight, 0);
  const enough = weights.findIndex((weight) => {
    left -= weight;
    return left <= 0;
  });
  return sorted.slice(0, enough + 1);
}

/**
 * The series less its least-squares polynomial of the degree that the penalty leaves free. The fit is the
 * same (that polynomial is added back to the coefficients), but a stiff penalty no longer has to reproduce a
 * large level to all its digits.
 */
export function withoutParabola(grid: KnotGrid, { x, y, weight }: Series, order: PenaltyOrder) {
  const normal = new Float64Array(order * order);
  const right = new Float64Array(order);
  const u = (at: number) => (2 * (at - grid.low)) / (grid.high - grid.low) - 1;
  for (let i = 0; i < y.length; i++) {
    if (!(weight[i]! > 0)) continue;
    const at = u(x[i]!);
    for (let j = 0, one = 1; j < order; j++, one *= at) {
      right[j]! += one * y[i]!;
      for (let k = 0, both = one; k < order; k++, both *= at) normal[j * order + k]! += both;
    }
  }
  // Points at one or two places leave it open; the level alone then does what is needed.
  const spread = normal[order + 1]! - (normal[1]! * normal[1]!) / normal[0]!;
  let c: ArrayLike<number> = [right[0]! / normal[0]!, 0, 0];
  if (spread > 1e-6 * normal[0]!) {
    for (let j = 0; j < order; j++) normal[j * order + j]! *= 1 + 1e-12;
    factorInPlace(normal, order);
    c = solveFactored(normal, order, right);
  }
  const [c0, c1, c2] = [c[0]!, c[1]!, order === 3 ? c[2]! : 0];
  const remainder = new Float64Array(y.length);
  for (let i = 0; i < y.length; i++) {
    const at = u(x[i]!);
    remainder[i] = y[i]! - c0 - c1 * at - c2 * at * at;
  }
  return { remainder, parabola: parabolaCoefficients(grid, [c0, c1, c2]) };
}

export function checkSeries({ time, x, y, weight }: Series, order: PenaltyOrder): void {
  let counted = 0;
  for (let i = 0; i < y.length; i++) {
    if (!(weight[i]! > 0)) continue;
    counted++;
    if (!Number.isFinite(y[i]!) || !Number.isFinite(x[i]!) || !Number.isFinite(time[i]!)) {
      throw new InputError(`Point ${i + 1} of the series is not a number.`);
    }
  }
  if (counted < order + 3) {
    throw new InputError(`Only ${counted} points are left, too few for a curve.`, {
      found: `${counted} points`,
      expected: `at least ${order + 3}`,
    });
  }
}

/** The lower half of BᵀR⁻¹B + λP within its band: all that the factor reads. */
export function penalised(
  { gram, band }: CrossProducts,
  penalty: Float64Array,
  size: number,
  smoothness: number,
  out: Float64Array,
): Float64Array {
  for (let i = 0; i < size; i++) {
    for (let at = i * size + Math.max(0, i - band); at <= i * size + i; at++) {
      out[at] = gram[at]! + smoothness * penalty[at]!;
    }
  }
  return out;
}

function roughnessOf(
  variance: number,
  smoothness: number,
  grid: KnotGrid,
  order: PenaltyOrder,
  prior: RoughnessPrior | undefined,
): number {
  if (prior === undefined) return 0;
  const perKnot = Math.sqrt(variance / smoothness) / prior.level;
  const roughness = perKnot * (grid.segments / 2) ** order;
  return -0.5 * (Math.log(roughness / prior.median) / prior.logSd) ** 2;
}

function restricted(
  products: CrossProducts,
  penalty: Float64Array,
  size: number,
  order: PenaltyOrder,
  smoothness: number,
  work: Float64Array,
): { logLikelihood: number; variance: number } {
  const { band } = products;
  const logDeterminant = factorInPlace(
    penalised(products, penalty, size, smoothness, work),
    size,
    band,
  );
  const half = products.right.slice();
  let explained = 0;
  for (let i = 0; i < size; i++) {
    let sum = half[i]!;
    for (let k = Math.max(0, i - band); k < i; k++) sum -= work[i * size + k]! * half[k]!;
    half[i] = sum / work[i * size + i]!;
    explained += half[i]! * half[i]!;
  }
  const residual = Math.max(products.square - explained, 1e-12 * products.square, 1e-300);
  const degrees = Math.max(1, products.count - order);
  const deviance =
    degrees * Math.log(residual) +
    products.logDeterminant +
    logDeterminant -
    (size - order) * Math.log(smoothness);
  return { logLikelihood: -0.5 * deviance, variance: residual / degrees };
}

/** `Array.from` asks an iterator for each of them. */
function plain(values: Float64Array): number[] {
  const out: number[] = [];
  for (let i = 0; i < values.length; i++) out.push(values[i]!);
  return out;
}

function mixture(
  grid: KnotGrid,
  kept: readonly Candidate[],
  penalty: Float64Array,
  order: PenaltyOrder,
  parabola: Float64Array,
): PenalisedFit {
  const size = coefficientCount(grid);
  const work = new Float64Array(size * size);
  const best = kept[0]!.logWeight;
  const weights = kept.map(({ logWeight }) => Math.exp(logWeight - best));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = new Float64Array(size);
  const covariance = new Float64Array(size * size);
  const inverse = new Float64Array(size * size);
  let [white, wander, logMemory, wandering, effectiveDof] = [0, 0, 0, 0, 0];
  kept.forEach(({ products, noise, smoothness }, at) => {
    const weight = weights[at]! / total;
    const { band, gram, right } = products;
    factorInPlace(penalised(products, penalty, size, smoothness, work), size, band);
    const coefficients = solveFactored(work, size, right, band);
    inverseFromFactor(work, size, inverse, band);
    let explained = 0;
    for (let i = 0; i < size; i++) explained += right[i]! * coefficients[i]!;
    const degrees = Math.max(1, products.count - order);
    const variance = Math.max(products.square - explained, 0) / degrees;
    const within = weight * variance;
    let trace = 0;
    for (let i = 0; i < size; i++) {
      const own = coefficients[i]!;
      mean[i]! += weight * own;
      for (let j = 0, place = i * size; j < i; j++, place++) {
        covariance[place]! += within * inverse[place]! + weight * own * coefficients[j]!;
        trace += 2 * inverse[place]! * gram[place]!;
      }
      covariance[i * size + i]! += within * inverse[i * size + i]! + weight * own * own;
      trace += inverse[i * size + i]! * gram[i * size + i]!;
    }
    white += within;
    wander += within * noise.share;
    if (noise.share > 0) {
      logMemory += weight * Math.log(noise.memory);
      wandering += weight;
    }
    effectiveDof += weight * trace;
  });
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      covariance[i * size + j]! -= mean[i]! * mean[j]!;
      covariance[j * size + i] = covariance[i * size + j]!;
    }
  }
  return {
    spline: {
      low: grid.low,
      high: grid.high,
      segments: grid.segments,
      coefficients: Array.from(mean, (value, i) => value + parabola[i]!),
      covariance: plain(covariance),
    },
    whiteSd: Math.sqrt(white),
    wanderSd: Math.sqrt(wander),
    memory: wandering > 0 ? Math.exp(logMemory / wandering) : 0,
    effectiveDof,
    count: kept[0]!.products.count,
  };
}

import { factorInPlace } from '../numerics/cholesky.ts';
import { functionalValue, type SplineFit, valueFunctional } from '../numerics/spline.ts';
import { DAY_SHAPE_PART, WANDER_LOG_SD, WANDER_MEDIAN } from './priors.ts';

/*
 * How the groups' curves differ from their own mean power, speed by speed.
 *
 *   r_p(s) = log T_p(s) − z_p,   r_p = r_g + Σ_j w_pj φ_j + Σ_j d_dj φ_j + e_p(s)
 *
 * φ_j the Legendre polynomials over the common speeds less their mean over the band, so that a wander says nothing of
 * the mean power. w_pj ~ N(0, (ω/j)²) is the pull's own wander, d_dj ~ N(0, (κρ/j)²) the day's, e_p the curve's
 * sampling error. The curve of a group, r_g, is free: what a cam does need not look like a polynomial. It is estimated
 * by the mean over the group's pulls; ω is summed over a grid by the pulls' scatter within their groups.
 */

const COMPONENTS = 5;
/** Speeds at which curves are compared; enough for a peak to be placed within a fraction of a per cent. */
export const GRID = 61;

export interface ShapePull {
  readonly group: number;
  readonly day: number;
  readonly fit: SplineFit;
  /** Log mean power over the band. */
  readonly z: number;
}

export interface Shapes {
  readonly speedRpm: readonly number[];
  /** Mean over the group's pulls of log T − z at each speed; by group. */
  readonly mean: readonly Float64Array[];
  /** Components on the speeds. */
  readonly phi: readonly Float64Array[];
  /** Lower Cholesky factor of the sampling covariance of the group's mean curve; by group, row-major. */
  readonly sampling: readonly Float64Array[];
  /** Equally likely sds of the wander's first component. */
  readonly wanderSds: readonly number[];
  /** Pulls of each group, and the part of them made on each day; by group and day. */
  readonly count: readonly number[];
  readonly share: readonly (readonly number[])[];
}

function legendreAt(x: number): number[] {
  const values = [1, x];
  for (let j = 1; j < COMPONENTS; j++)
    values.push(((2 * j + 1) * x * values[j]! - j * values[j - 1]!) / (j + 1));
  return values.slice(1, COMPONENTS + 1);
}

/**
 * @param groups  how many groups there are
 * @param days  how many days there are
 * @param bandRpm  the band over which z was taken
 */
export function shapesOf(
  pulls: readonly ShapePull[],
  groups: number,
  days: number,
  bandRpm: readonly [number, number],
  draws: number,
): Shapes {
  const from = Math.max(...pulls.map(({ fit }) => fit.low));
  const to = Math.min(...pulls.map(({ fit }) => fit.high));
  const speedRpm = Array.from({ length: GRID }, (_, m) =>
    m === GRID - 1 ? to : from + ((to - from) * m) / (GRID - 1),
  );
  const rows = pulls.map(({ fit }) => speedRpm.map((speed) => valueFunctional(fit, speed)));
  const logTorque = pulls.map(({ fit }, p) =>
    Float64Array.from(rows[p]!, (row) => Math.log(Math.max(functionalValue(fit, row), 1e-6))),
  );
  const rest = pulls.map(({ z }, p) => logTorque[p]!.map((value) => value - z));
  const count = Array.from(
    { length: groups },
    (_, g) => pulls.filter((pull) => pull.group === g).length,
  );
  const mean = count.map((n, g) => {
    const sum = new Float64Array(GRID);
    pulls.forEach((pull, p) => {
      if (pull.group === g) for (let m = 0; m < GRID; m++) sum[m]! += rest[p]![m]! / n;
    });
    return sum;
  });
  const phi = componentsOn(speedRpm, bandRpm, logTorque);
  const relative = pulls.map(({ fit }, p) => samplingOf(fit, rows[p]!, logTorque[p]!));
  const sampling = count.map((n, g) => {
    const sum = new Float64Array(GRID * GRID);
    pulls.forEach((pull, p) => {
      if (pull.group === g)
        for (let i = 0; i < sum.length; i++) sum[i]! += relative[p]![i]! / (n * n);
    });
    return factorSafely(sum);
  });
  return {
    speedRpm,
    mean,
    phi,
    sampling,
    wanderSds: wanderSds(pulls, rest, mean, phi, relative, draws),
    count,
    share: count.map((n, g) =>
      Array.from(
        { length: days },
        (_, d) => pulls.filter((pull) => pull.group === g && pull.day === d).length / n,
      ),
    ),
  };
}

/** Legendre polynomials on the speeds, less their power-weighted mean over the band. */
function componentsOn(
  speedRpm: readonly number[],
  bandRpm: readonly [number, number],
  logTorque: readonly Float64Array[],
): Float64Array[] {
  const weight = speedRpm.map((speed, m) =>
    speed >= bandRpm[0] - 1e-9 && speed <= bandRpm[1] + 1e-9
      ? speed * Math.exp(logTorque.reduce((sum, curve) => sum + curve[m]!, 0) / logTorque.length)
      : 0,
  );
  const total = weight.reduce((sum, value) => sum + value, 0);
  const phi = Array.from({ length: COMPONENTS }, () => new Float64Array(GRID));
  for (let m = 0; m < GRID; m++)
    legendreAt((2 * m) / (GRID - 1) - 1).forEach((value, j) => {
      phi[j]![m] = value;
    });
  if (total > 0)
    for (const shape of phi) {
      const middle = shape.reduce((sum, value, m) => sum + (weight[m]! / total) * value, 0);
      for (let m = 0; m < GRID; m++) shape[m]! -= middle;
    }
  return phi;
}

/** Covariance of log torque on the speeds from the curve's own fit: J V Jᵀ with J = rows / T. */
function samplingOf(
  fit: SplineFit,
  rows: readonly Float64Array[],
  logTorque: Float64Array,
): Float64Array {
  const size = fit.coefficients.length;
  const out = new Float64Array(GRID * GRID);
  const torque = logTorque.map(Math.exp);
  // Of a cubic spline's row only four stand; the product with V is made once a row.
  const spans = rows.map((row) => {
    const first = row.findIndex((value) => value !== 0);
    return Math.max(first, 0);
  });
  for (let i = 0; i < GRID; i++) {
    const product = new Float64Array(size);
    for (let k = spans[i]!; k < Math.min(size, spans[i]! + 4); k++) {
      const weight = rows[i]![k]!;
      if (weight !== 0)
        for (let l = 0; l < size; l++) product[l]! += weight * fit.covariance[k * size + l]!;
    }
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let l = spans[j]!; l < Math.min(size, spans[j]! + 4); l++)
        sum += product[l]! * rows[j]![l]!;
      out[i * GRID + j] = sum / (torque[i]! * torque[j]!);
      out[j * GRID + i] = out[i * GRID + j]!;
    }
  }
  return out;
}

/** Cholesky factor of a covariance that may be singular to rounding. */
function factorSafely(covariance: Float64Array): Float64Array {
  let trace = 0;
  for (let i = 0; i < GRID; i++) trace += covariance[i * GRID + i]!;
  const factor = Float64Array.from(covariance);
  for (let i = 0; i < GRID; i++) factor[i * GRID + i]! += 1e-6 * (trace / GRID) + 1e-16;
  factorInPlace(factor, GRID);
  return factor;
}

const WANDERS = 13;

/** Equally likely sds of the pulls' wander, given their scatter about their groups' means. */
function wanderSds(
  pulls: readonly ShapePull[],
  rest: readonly Float64Array[],
  mean: readonly Float64Array[],
  phi: readonly Float64Array[],
  relative: readonly Float64Array[],
  draws: number,
): number[] {
  // Least squares on the components; the few off-diagonal terms of their Gram matrix are left out.
  const norms = phi.map((shape) => shape.reduce((sum, value) => sum + value * value, 0));
  const project = (curve: Float64Array, j: number) =>
    curve.reduce((sum, value, m) => sum + value * phi[j]![m]!, 0) / norms[j]!;
  const variance = (covariance: Float64Array, j: number) => {
    let sum = 0;
    for (let i = 0; i < GRID; i++)
      for (let k = 0; k < GRID; k++) sum += phi[j]![i]! * covariance[i * GRID + k]! * phi[j]![k]!;
    return sum / norms[j]! ** 2;
  };
  const deviations: { group: number; j: number; c: number; v: number }[] = [];
  pulls.forEach((pull, p) => {
    const off = rest[p]!.map((value, m) => value - mean[pull.group]![m]!);
    for (let j = 0; j < COMPONENTS; j++)
      deviations.push({ group: pull.group, j, c: project(off, j), v: variance(relative[p]!, j) });
  });
  const groups = mean.length;
  const grid = Array.from({ length: WANDERS }, (_, i) => {
    const at = 2.6 * ((2 * i) / (WANDERS - 1) - 1);
    const sd = WANDER_MEDIAN * Math.exp(at * WANDER_LOG_SD);
    let log = -0.5 * at * at;
    for (let g = 0; g < groups; g++)
      for (let j = 0; j < COMPONENTS; j++) {
        // c_p ~ N(m, s_p²) with m flat: the restricted likelihood of one mean.
        let precision = 0;
        let weighted = 0;
        let square = 0;
        for (const one of deviations) {
          if (one.group !== g || one.j !== j) continue;
          const s2 = (sd / (j + 1)) ** 2 + one.v + 1e-14;
          precision += 1 / s2;
          weighted += one.c / s2;
          square += (one.c * one.c) / s2;
          log -= 0.5 * Math.log(s2);
        }
        if (precision > 0)
          log -= 0.5 * (Math.log(precision) + square - (weighted * weighted) / precision);
      }
    return { sd, log };
  });
  const top = Math.max(...grid.map(({ log }) => log));
  const weights = grid.map(({ log }) => Math.exp(log - top));
  const total = weights.reduce((sum, value) => sum + value, 0);
  let at = 0;
  let before = 0;
  return Array.from({ length: draws }, (_, i) => {
    const target = ((i + 0.5) / draws) * total;
    while (at < WANDERS - 1 && before + weights[at]! < target) before += weights[at++]!;
    return grid[at]!.sd;
  });
}

/** Random numbers that one draw of the shapes takes. */
export const shapeColumns = (groups: number, days: number): number =>
  groups * (COMPONENTS + GRID) + days * COMPONENTS;

/**
 * One draw of every group's log torque less its log mean power.
 * @param normals  standard normals, `shapeColumns` of them from `start` on
 */
export function drawShapes(
  shapes: Shapes,
  draw: number,
  daySd: number,
  normals: Float64Array,
  start: number,
): Float64Array[] {
  const { phi, wanderSds: sds, count, share, sampling, mean } = shapes;
  const groups = mean.length;
  const days = share[0]!.length;
  const wander = sds[draw]!;
  const dayStart = start + groups * (COMPONENTS + GRID);
  return mean.map((curve, g) => {
    const out = Float64Array.from(curve);
    const at = start + g * (COMPONENTS + GRID);
    for (let j = 0; j < COMPONENTS; j++) {
      let amount = (wander / (j + 1) / Math.sqrt(count[g]!)) * normals[at + j]!;
      for (let d = 0; d < days; d++)
        amount +=
          ((DAY_SHAPE_PART * daySd) / (j + 1)) *
          share[g]![d]! *
          normals[dayStart + d * COMPONENTS + j]!;
      for (let m = 0; m < GRID; m++) out[m]! += amount * phi[j]![m]!;
    }
    const factor = sampling[g]!;
    for (let i = 0; i < GRID; i++) {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += factor[i * GRID + k]! * normals[at + COMPONENTS + k]!;
      out[i]! += sum;
    }
    return out;
  });
}

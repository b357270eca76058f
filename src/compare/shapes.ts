import { pivotedFactor } from '../numerics/pivoted.ts';
import { basisAt, type SplineFit } from '../numerics/spline.ts';
import { DAY_SHAPE_PART, WANDER_LOG_SD, WANDER_MEDIAN } from './priors.ts';

/*
 * How the groups' curves run over speed, each up to a level.
 *
 *   log T_p(s) = c_p + r_g(s) + Σ_j w_pj φ_j(s) + Σ_j d_dj φ_j(s) + e_p(s)
 *
 * φ_j polynomials over the common speeds, orthogonal to a constant and to one another, so that what follows asks for no
 * band. w_pj ~ N(0, (ω/j)²) is the pull's own wander, d_dj ~ N(0, (κρ/j)²) the day's, e_p the curve's sampling error.
 * The curve of a group, r_g, is free: what a cam does need not look like a polynomial. It is estimated by the mean over
 * the group's pulls; ω is summed over a grid by the scatter of pulls of one group and one day. The level is none of
 * this: `curves.ts` gives each draw the mean power that the law of the means has for it.
 */

export const COMPONENTS = 5;
/** Speeds at which curves are compared; enough for a peak to be placed within a fraction of a per cent. */
export const GRID = 61;
/** Part of the sampling variance that its factor may leave out. */
const SAMPLING_LEFT = 1e-3;

export interface ShapePull {
  readonly group: number;
  readonly day: number;
  readonly fit: SplineFit;
}

export interface Shapes {
  readonly speedRpm: readonly number[];
  /** Mean over the group's pulls of log T at each speed; by group. */
  readonly mean: readonly Float64Array[];
  /**
   * By group: the wander's components, then the columns of a factor of the sampling covariance of the group's mean
   * curve; row by row of speeds, each row filled with zeros to `width`, a multiple of four.
   */
  readonly loads: readonly {
    readonly columns: number;
    readonly width: number;
    readonly values: Float64Array;
  }[];
  /** Likely sds of the wander's first component, rising, with their weights (sum 1). */
  readonly wander: readonly { readonly sd: number; readonly weight: number }[];
  /** Pulls of each group, and the part of them made on each day; by group and day. */
  readonly count: readonly number[];
  readonly share: readonly (readonly number[])[];
}

/** A curve on the grid of speeds with the few coefficients that each of its values stands on. */
interface GridCurve {
  readonly logTorque: Float64Array;
  /** Four B-splines a speed over the torque there, so that they give log torque, and the index of the first. */
  readonly rows: Float64Array;
  readonly first: Int32Array;
}

function onGrid(fit: SplineFit, speedRpm: readonly number[]): GridCurve {
  const logTorque = new Float64Array(GRID);
  const rows = new Float64Array(4 * GRID);
  const first = new Int32Array(GRID);
  const four = new Float64Array(4);
  for (let m = 0; m < GRID; m++) {
    const start = basisAt(fit, speedRpm[m]!, four);
    let torque = 0;
    for (let k = 0; k < 4; k++) torque += four[k]! * fit.coefficients[start + k]!;
    torque = Math.max(torque, 1e-6);
    for (let k = 0; k < 4; k++) rows[4 * m + k] = four[k]! / torque;
    first[m] = start;
    logTorque[m] = Math.log(torque);
  }
  return { logTorque, rows, first };
}

/**
 * @param groups  how many groups there are
 * @param days  how many days there are
 * @param speeds  the lowest and the highest speed that all pulls cover
 */
export function shapesOf(
  pulls: readonly ShapePull[],
  groups: number,
  days: number,
  [from, to]: readonly [number, number],
): Shapes {
  const speedRpm = Array.from({ length: GRID }, (_, m) =>
    m === GRID - 1 ? to : from + ((to - from) * m) / (GRID - 1),
  );
  const curves = pulls.map(({ fit }) => onGrid(fit, speedRpm));
  const count = Array.from(
    { length: groups },
    (_, g) => pulls.filter((pull) => pull.group === g).length,
  );
  const mean = count.map((n, g) => {
    const sum = new Float64Array(GRID);
    pulls.forEach((pull, p) => {
      if (pull.group === g) for (let m = 0; m < GRID; m++) sum[m]! += curves[p]!.logTorque[m]! / n;
    });
    return sum;
  });
  const phi = components();
  const loads = count.map((n, g) => {
    const sum = new Float64Array(GRID * GRID);
    pulls.forEach((pull, p) => {
      if (pull.group === g) addSampling(pull.fit, curves[p]!, 1 / (n * n), sum);
    });
    const columns = [...phi, ...pivotedFactor(sum, GRID, SAMPLING_LEFT)];
    const width = 4 * Math.ceil(columns.length / 4);
    const values = new Float64Array(GRID * width);
    columns.forEach((column, c) => {
      for (let m = 0; m < GRID; m++) values[m * width + c] = column[m]!;
    });
    return { columns: columns.length, width, values };
  });
  return {
    speedRpm,
    mean,
    loads,
    wander: wanderOf(pulls, curves, phi),
    count,
    share: count.map((n, g) =>
      Array.from(
        { length: days },
        (_, d) => pulls.filter((pull) => pull.group === g && pull.day === d).length / n,
      ),
    ),
  };
}

/** Powers of speed made orthogonal to a constant and to one another (Gram–Schmidt), 1 at the upper end as Legendre's are. */
function components(): Float64Array[] {
  const dot = (a: Float64Array, b: Float64Array) => {
    let sum = 0;
    for (let m = 0; m < GRID; m++) sum += a[m]! * b[m]!;
    return sum;
  };
  const x = Float64Array.from({ length: GRID }, (_, m) => (2 * m) / (GRID - 1) - 1);
  const found = [new Float64Array(GRID).fill(1)];
  for (let j = 1; j <= COMPONENTS; j++) {
    const next = found[j - 1]!.map((value, m) => value * x[m]!);
    for (const before of found) {
      const amount = dot(next, before) / dot(before, before);
      for (let m = 0; m < GRID; m++) next[m]! -= amount * before[m]!;
    }
    const end = next[GRID - 1]!;
    found.push(next.map((value) => value / end));
  }
  return found.slice(1);
}

/** Adds a part of the covariance of log torque on the speeds, J V Jᵀ with J the rows; lower half. */
function addSampling(fit: SplineFit, curve: GridCurve, part: number, out: Float64Array): void {
  const size = fit.coefficients.length;
  const { rows, first } = curve;
  const product = new Float64Array(size);
  for (let i = 0; i < GRID; i++) {
    product.fill(0);
    // Of a cubic spline's row only four stand.
    for (let k = 0; k < 4; k++) {
      const weight = part * rows[4 * i + k]!;
      const start = (first[i]! + k) * size;
      for (let l = 0; l < size; l++) product[l]! += weight * fit.covariance[start + l]!;
    }
    for (let j = 0; j <= i; j++) {
      const start = first[j]!;
      out[i * GRID + j]! +=
        product[start]! * rows[4 * j]! +
        product[start + 1]! * rows[4 * j + 1]! +
        product[start + 2]! * rows[4 * j + 2]! +
        product[start + 3]! * rows[4 * j + 3]!;
    }
  }
}

const WANDERS = 13;

/** The wander's sd, given the scatter of pulls about the mean of their group and day. */
function wanderOf(
  pulls: readonly ShapePull[],
  curves: readonly GridCurve[],
  phi: readonly Float64Array[],
): Shapes['wander'] {
  const norms = phi.map((shape) => shape.reduce((sum, value) => sum + value * value, 0));
  /** By group and day, and by component: amount and its sampling variance of each pull. */
  const cells = new Map<string, { c: number; v: number }[][]>();
  pulls.forEach(({ fit, group, day }, p) => {
    const { logTorque, rows, first } = curves[p]!;
    const key = `${group} ${day}`;
    const cell = cells.get(key) ?? phi.map(() => []);
    cells.set(key, cell);
    const size = fit.coefficients.length;
    phi.forEach((shape, j) => {
      const functional = new Float64Array(size);
      let c = 0;
      for (let m = 0; m < GRID; m++) {
        const weight = shape[m]! / norms[j]!;
        c += weight * logTorque[m]!;
        for (let k = 0; k < 4; k++) functional[first[m]! + k]! += weight * rows[4 * m + k]!;
      }
      let v = 0;
      for (let k = 0; k < size; k++) {
        let inner = 0;
        for (let l = 0; l < size; l++) inner += fit.covariance[k * size + l]! * functional[l]!;
        v += functional[k]! * inner;
      }
      cell[j]!.push({ c, v: Math.max(v, 0) });
    });
  });
  const grid = Array.from({ length: WANDERS }, (_, i) => {
    const at = 2.6 * ((2 * i) / (WANDERS - 1) - 1);
    const sd = WANDER_MEDIAN * Math.exp(at * WANDER_LOG_SD);
    let log = -0.5 * at * at;
    for (const cell of cells.values())
      cell.forEach((amounts, j) => {
        log += restricted(amounts, (sd / (j + 1)) ** 2);
      });
    return { sd, log };
  });
  const top = Math.max(...grid.map(({ log }) => log));
  const total = grid.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  return grid.map(({ sd, log }) => ({ sd, weight: Math.exp(log - top) / total }));
}

/** Restricted log likelihood of amounts c_p ~ N(m, variance + v_p) with m flat. */
function restricted(amounts: readonly { c: number; v: number }[], variance: number): number {
  let [log, precision, weighted] = [0, 0, 0];
  const origin = amounts[0]!.c;
  let square = 0;
  for (const { c, v } of amounts) {
    const s2 = variance + v + 1e-14;
    precision += 1 / s2;
    weighted += (c - origin) / s2;
    square += (c - origin) ** 2 / s2;
    log -= 0.5 * Math.log(s2);
  }
  return log - 0.5 * (Math.log(precision) + square - (weighted * weighted) / precision);
}

/** Random numbers that one draw of the shapes takes. */
export const shapeColumns = ({ loads, share }: Shapes): number =>
  loads.reduce((sum, { columns }) => sum + columns, 0) + share[0]!.length * COMPONENTS;

/**
 * One draw of every group's log torque up to its level, written to `out` (by group) from `at` on.
 * @param normals  standard normals, `shapeColumns` of them from `start` on
 */
export function drawShapes(
  { count, share, loads, mean }: Shapes,
  sds: { readonly wander: number; readonly day: number },
  normals: Float64Array,
  start: number,
  out: readonly Float64Array[],
  at: number,
): void {
  const days = share[0]!.length;
  let first = start + days * COMPONENTS;
  for (let g = 0; g < mean.length; g++) {
    const { columns, width, values } = loads[g]!;
    const amounts = new Float64Array(width);
    for (let c = 0; c < columns; c++) amounts[c] = normals[first + c]!;
    first += columns;
    for (let j = 0; j < COMPONENTS; j++) {
      let amount = (sds.wander / (j + 1) / Math.sqrt(count[g]!)) * amounts[j]!;
      for (let d = 0; d < days; d++)
        amount +=
          ((DAY_SHAPE_PART * sds.day) / (j + 1)) *
          share[g]![d]! *
          normals[start + d * COMPONENTS + j]!;
      amounts[j] = amount;
    }
    const curve = mean[g]!;
    const target = out[g]!;
    // Four sums at once: none has to wait for the one before.
    for (let m = 0; m < GRID; m++) {
      let one = curve[m]!;
      let two = 0;
      let three = 0;
      let four = 0;
      const row = m * width;
      for (let c = 0; c < width; c += 4) {
        one += values[row + c]! * amounts[c]!;
        two += values[row + c + 1]! * amounts[c + 1]!;
        three += values[row + c + 2]! * amounts[c + 2]!;
        four += values[row + c + 3]! * amounts[c + 3]!;
      }
      target[at + m] = one + two + three + four;
    }
  }
}

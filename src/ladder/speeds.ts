import { functionalCovariance, valueFunctional } from '../numerics/spline.ts';
import type { BandReading } from './band.ts';
import { type Component, fitComponents, sumsOf } from './component.ts';
import { normalFraction } from './evenly.ts';
import type { ResponseDraws } from './posterior.ts';

/*
 * The response at each speed.
 *
 * With y_p(s) = T_p(s)/T̄(s), T̄ the mean of the pulls' curves, a pull is written as
 *   y_p(s) = z_p + Σ_j c_pj φ_j(s),   φ_j the j-th Legendre polynomial over the common speeds less its mean over the
 * band, weighted by power. So z_p is exactly the mean power over the band (relative), whose response to the setting is
 * integrated in posterior.ts, and the φ_j say only how speeds differ. Each c_pj answers the setting by a small
 * regression of its own, c_pj = a_j + β_j v + q_j v² + noise: β_j moves the best with speed, q_j lets the curvature
 * differ; both have Gaussian priors that shrink with the square of j (the best moves smoothly), and the noise is the
 * pull's own wander over speed (component.ts). The priors of β and q are in proportion to the band's curvature, which
 * is not known either: the draws are parted by their curvature and each part is fitted with its own. Given all that the
 * rest is closed form, so 12 pulls cost a few milliseconds.
 */

export const COMPONENTS = 5;
const GRID = 31;
export const SPEED_DRAWS = 192;
/** Parts of the draws, by their curvature, that are fitted each with its own. */
const STRATA = 4;
/**
 * How far the best may lie from its mean over the band at the end of the sweep [rungs], prior sd of the first component:
 * 2.5 degrees, as the published regression (Crossley and Cook 1991) moves its best 0.9 degrees per 1000 rev/min, some
 * 2 degrees at the end of a sweep, and engines differ.
 */
export const SHIFT_RUNGS = 1.25;
/** By what part the curvature may differ over speed, prior sd of the first component. */
export const CURVATURE_PART = 0.25;
/**
 * Wander of a pull over speed beyond what its curve's own band knows of it: median sd of the first component [1] (ours,
 * no source).
 */
const WANDER_MEDIAN = 0.002;

export interface SpeedModel {
  readonly speedRpm: readonly number[];
  /** Mean torque of the pulls on the speeds [N·m]. */
  readonly meanTorqueNm: Float64Array;
  /** Weight of each speed in the mean power over the band; zero outside it. */
  readonly bandWeight: Float64Array;
  /**
   * Equally likely responses: what a speed adds to the band's response, as slope, curvature and offset of relative
   * torque; at [draw × speeds + speed].
   */
  readonly draws: number;
  readonly slope: Float64Array;
  readonly bend: Float64Array;
  readonly offset: Float64Array;
}

function legendre(count: number, x: number): number[] {
  const values = [1, x];
  for (let j = 1; j < count; j++) {
    values.push(((2 * j + 1) * x * values[j]! - j * values[j - 1]!) / (j + 1));
  }
  return values.slice(1, count + 1);
}

/** Solves the small symmetric positive system in place by Cholesky; returns its inverse. */
function inverseOf(a: readonly (readonly number[])[]): number[][] {
  const n = a.length;
  const l = a.map((row) => [...row]);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = l[i]![j]!;
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      l[i]![j] = i === j ? Math.sqrt(Math.max(sum, 1e-300)) : sum / l[j]![j]!;
    }
  }
  const out = a.map(() => new Array<number>(n).fill(0));
  for (let c = 0; c < n; c++) {
    const y = new Array<number>(n).fill(0);
    for (let i = 0; i < n; i++) {
      let sum = i === c ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= l[i]![k]! * y[k]!;
      y[i] = sum / l[i]![i]!;
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i]!;
      for (let k = i + 1; k < n; k++) sum -= l[k]![i]! * out[k]![c]!;
      out[i]![c] = sum / l[i]![i]!;
    }
  }
  return out;
}

/**
 * The response at each speed, or null where the pulls are typed peaks or cover no speeds in common.
 *
 * @param rung  usual distance between rungs, in the setting's unit
 */
export function modelSpeeds(
  reading: BandReading,
  response: ResponseDraws,
  middle: number,
  rung: number,
): SpeedModel | null {
  const parts = speedParts(reading);
  if (parts === null) return null;
  const { speedRpm, meanTorqueNm, bandWeight, components, onSpeeds } = parts;
  const sums = sumsOf(
    reading.counted.map(({ u }) => u - middle),
    components,
  );
  const draws = SPEED_DRAWS;
  const a = new Float64Array(draws * COMPONENTS);
  const beta = new Float64Array(draws * COMPONENTS);
  const bend = new Float64Array(draws * COMPONENTS);
  for (const { k, members } of strataOf(response)) {
    const priorSds = components.map(
      (_, j) =>
        [
          0.05,
          (2 * k * SHIFT_RUNGS * rung) / (j + 1) ** 2,
          (k * CURVATURE_PART) / (j + 1) ** 2,
        ] as const,
    );
    fitComponents(sums, priorSds).forEach(({ mean, factor }, j) => {
      for (const d of members) {
        // Each component walks the same even points in an order of its own.
        const at = ((d + 1) * STRIDES[j]!) % 509;
        const [z1, z2, z3] = [normalFraction(at, 5), normalFraction(at, 6), normalFraction(at, 7)];
        a[d * COMPONENTS + j] = mean[0] + factor[0] * z1;
        beta[d * COMPONENTS + j] = mean[1] + factor[1] * z1 + factor[2] * z2;
        bend[d * COMPONENTS + j] = mean[2] + factor[3] * z1 + factor[4] * z2 + factor[5] * z3;
      }
    });
  }
  return {
    speedRpm,
    meanTorqueNm,
    bandWeight,
    draws,
    slope: onSpeeds(beta),
    bend: onSpeeds(bend),
    offset: onSpeeds(a),
  };
}

/** What the pulls' curves say beside their mean power: the coefficients of each on the shapes over speed. */
export interface SpeedParts {
  readonly speedRpm: readonly number[];
  readonly meanTorqueNm: Float64Array;
  readonly bandWeight: Float64Array;
  readonly components: readonly Component[];
  /** A table of coefficients [draw × component] as values over the speeds [draw × speed]. */
  readonly onSpeeds: (table: Float64Array) => Float64Array;
}

/** Null where the pulls are typed peaks or cover no speeds in common. */
export function speedParts({ counted, bandRpm }: BandReading): SpeedParts | null {
  if (bandRpm === null || counted.length === 0) return null;
  const from = Math.max(...counted.map(({ pull }) => pull.torque!.low));
  const to = Math.min(...counted.map(({ pull }) => pull.torque!.high));
  if (!(to > from)) return null;
  const speedRpm = Array.from({ length: GRID }, (_, m) => from + ((to - from) * m) / (GRID - 1));
  const rows = counted.map(({ pull }) =>
    speedRpm.map((speed) => valueFunctional(pull.torque!, Math.min(speed, to))),
  );
  const torque = counted.map(({ pull }, p) =>
    rows[p]!.map((row) => {
      let sum = 0;
      for (let i = 0; i < row.length; i++) sum += row[i]! * pull.torque!.coefficients[i]!;
      return sum;
    }),
  );
  const meanTorqueNm = Float64Array.from({ length: GRID }, (_, m) =>
    torque.reduce((sum, curve) => sum + curve[m]! / counted.length, 0),
  );
  const meanPower = counted.reduce((sum, one) => sum + one.power, 0) / counted.length;
  const bandWeight = Float64Array.from(speedRpm, (speed, m) =>
    speed >= bandRpm[0] - 1e-9 && speed <= bandRpm[1] + 1e-9 ? speed * meanTorqueNm[m]! : 0,
  );
  const weightSum = bandWeight.reduce((sum, value) => sum + value, 0);
  for (let m = 0; m < GRID; m++) bandWeight[m]! /= weightSum;
  const shapes = Array.from({ length: COMPONENTS }, () => new Float64Array(GRID));
  for (let m = 0; m < GRID; m++) {
    legendre(COMPONENTS, (2 * m) / (GRID - 1) - 1).forEach((value, j) => {
      shapes[j]![m] = value;
    });
  }
  for (const shape of shapes) {
    let mean = 0;
    for (let m = 0; m < GRID; m++) mean += bandWeight[m]! * shape[m]!;
    for (let m = 0; m < GRID; m++) shape[m]! -= mean;
  }
  // Least squares of y − z on the shapes: rows of (ΦΦᵀ)⁻¹Φ.
  const gram = shapes.map((one) =>
    shapes.map((other) => one.reduce((sum, value, m) => sum + value * other[m]!, 0)),
  );
  const inverse = inverseOf(gram);
  const project = shapes.map((_, j) =>
    Float64Array.from({ length: GRID }, (_unused, m) =>
      shapes.reduce((sum, shape, i) => sum + inverse[j]![i]! * shape[m]!, 0),
    ),
  );
  const components = shapes.map((_, j) => {
    const row = project[j]!;
    const c: number[] = [];
    const variance: number[] = [];
    counted.forEach(({ pull, power }, p) => {
      const fit = pull.torque!;
      let value = 0;
      const functional = new Float64Array(fit.coefficients.length);
      for (let m = 0; m < GRID; m++) {
        value += row[m]! * (torque[p]![m]! / meanTorqueNm[m]! - power / meanPower);
        const weight = row[m]! / meanTorqueNm[m]!;
        const place = rows[p]![m]!;
        for (let i = 0; i < place.length; i++) functional[i]! += weight * place[i]!;
      }
      c.push(value);
      variance.push(Math.max(0, functionalCovariance(fit, functional)));
    });
    return { c, variance, wanderMedian: WANDER_MEDIAN / (j + 1) };
  });
  const onSpeeds = (table: Float64Array) => {
    const draws = table.length / COMPONENTS;
    const out = new Float64Array(draws * GRID);
    for (let d = 0; d < draws; d++) {
      for (let j = 0; j < COMPONENTS; j++) {
        const weight = table[d * COMPONENTS + j]!;
        const shape = shapes[j]!;
        for (let m = 0; m < GRID; m++) out[d * GRID + m]! += weight * shape[m]!;
      }
    }
    return out;
  };
  return { speedRpm, meanTorqueNm, bandWeight, components, onSpeeds };
}

/** Draws of like curvature, and the curvature that stands for them. */
function strataOf(response: ResponseDraws): { k: number; members: number[] }[] {
  const curvatureOf = (draw: number) => response.curvature[responseDraw(draw, response)]!;
  const order = Array.from({ length: SPEED_DRAWS }, (_, d) => d).sort(
    (d, e) => curvatureOf(d) - curvatureOf(e),
  );
  const size = SPEED_DRAWS / STRATA;
  return Array.from({ length: STRATA }, (_, i) => {
    const members = order.slice(i * size, (i + 1) * size);
    const logs = members.reduce((sum, d) => sum + Math.log(curvatureOf(d)), 0);
    return { k: Math.exp(logs / size), members };
  });
}
const STRIDES = [101, 197, 307, 401, 467];

/** Index into the response's draws that goes with a draw of the speeds. */
export const responseDraw = (draw: number, response: ResponseDraws): number =>
  Math.floor(((draw + 0.5) * response.count) / SPEED_DRAWS) % response.count;

/** Mean power over the band at a setting, relative to the day's mean, for one draw of the response. */
export const bandPower = (u: number, response: ResponseDraws, draw: number): number =>
  response.level[draw]! -
  response.shape.loss(u - response.best[draw]!, response.curvature[draw]!, response.lean[draw]!);

/** What a speed adds to it at v above the middle; `place` is draw × speeds + speed. */
export const addedPower = (v: number, { offset, slope, bend }: SpeedModel, place: number): number =>
  offset[place]! + v * (slope[place]! + v * bend[place]!);

/** Relative power at a setting: the band's response and what each speed adds to it; at [draw × speeds + speed]. */
export function relativePower(
  u: number,
  response: ResponseDraws,
  speeds: SpeedModel,
  middle: number,
): Float64Array {
  const grid = speeds.speedRpm.length;
  const v = u - middle;
  const out = new Float64Array(speeds.draws * grid);
  for (let d = 0; d < speeds.draws; d++) {
    const band = bandPower(u, response, responseDraw(d, response));
    for (let i = d * grid; i < (d + 1) * grid; i++) out[i] = band + addedPower(v, speeds, i);
  }
  return out;
}

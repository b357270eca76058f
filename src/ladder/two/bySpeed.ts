import { factorInPlace, solveFactored } from '../../numerics/cholesky.ts';
import { gaussianTable } from '../../numerics/draws.ts';
import type { BandReading } from '../band.ts';
import type { Component } from '../component.ts';
import { COMPONENTS, CURVATURE_PART, SHIFT_RUNGS, speedParts } from '../speeds.ts';
import { RIDGE_PRIOR, type SurfaceDraws, surfaceLoss } from './surface.ts';

/*
 * The surface at each speed: the band's (surface.ts) and what a speed adds to it. As for one setting (speeds.ts) a
 * pull's curve is its mean power and five coefficients on shapes over speed; here each coefficient answers both settings,
 *
 *   c = a + βL·x + βλ·z + qL·x² + qLλ·x·z + qλ·z² + noise,     x = L − middle, z = λ − middle,
 *
 * with Gaussian priors in proportion to the band's curvatures, and the noise the curve's own and the pull's wander over
 * speed, whose scale is summed over a grid. Given that scale it is a linear regression in closed form.
 */

const TERMS = 6;
const LOGS = [-1.6, -1.2, -0.8, -0.4, 0, 0.4, 0.8, 1.2, 1.6];
/** Sd of the logarithm of the wander's scale, as for one setting. */
const LOG_SD = 0.9;
export const SPEED_SURFACES = 192;

export interface TwoSpeeds {
  readonly speedRpm: readonly number[];
  readonly bandWeight: Float64Array;
  readonly draws: number;
  /** The six terms at [draw × speed], one table a term: a, βL, βλ, qL, qLλ, qλ. */
  readonly terms: readonly Float64Array[];
  readonly middle: readonly [leadDeg: number, lambda: number];
}

/** The surface over speed, or null where the pulls are typed peaks or cover no speeds in common. */
export function twoSpeeds(
  reading: BandReading,
  places: readonly { readonly leadDeg: number; readonly lambda: number }[],
  draws: SurfaceDraws,
  rungs: readonly [leadDeg: number, lambda: number],
): TwoSpeeds | null {
  const parts = speedParts(reading);
  if (parts === null) return null;
  const middleOf = (values: readonly number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  const middle = [
    middleOf(places.map(({ leadDeg }) => leadDeg)),
    middleOf(places.map(({ lambda }) => lambda)),
  ] as const;
  const rows = places.map(({ leadDeg, lambda }) => {
    const [x, z] = [leadDeg - middle[0], lambda - middle[1]];
    return Float64Array.of(1, x, z, x * x, x * z, z * z);
  });
  const middleLog = (column: Float64Array) =>
    Math.exp(column.reduce((sum, value) => sum + Math.log(value), 0) / draws.count);
  const [kl, km] = [middleLog(draws.leadCurvature), middleLog(draws.lambdaCurvature)];
  const tables = Array.from({ length: TERMS }, () => new Float64Array(SPEED_SURFACES * COMPONENTS));
  const z = gaussianTable(SPEED_SURFACES, TERMS * COMPONENTS, 0x2357);
  parts.components.forEach((component, j) => {
    const part = 1 / (j + 1) ** 2;
    const sds = [
      0.05,
      2 * kl * SHIFT_RUNGS * rungs[0] * part,
      2 * km * SHIFT_RUNGS * rungs[1] * part,
      kl * CURVATURE_PART * part,
      2 * kl * RIDGE_PRIOR[1] * part,
      km * CURVATURE_PART * part,
    ];
    const { mean, factor } = regression(rows, component, sds);
    for (let d = 0; d < SPEED_SURFACES; d++) {
      for (let t = 0; t < TERMS; t++) {
        let value = mean[t]!;
        for (let s = 0; s <= t; s++) value += factor[t * TERMS + s]! * z[d]![j * TERMS + s]!;
        tables[t]![d * COMPONENTS + j] = value;
      }
    }
  });
  return {
    speedRpm: parts.speedRpm,
    bandWeight: parts.bandWeight,
    draws: SPEED_SURFACES,
    terms: tables.map(parts.onSpeeds),
    middle,
  };
}

/** Posterior mean and lower factor of the covariance of the terms, mixed over the wander's scale. */
export function regression(
  rows: readonly Float64Array[],
  { c, variance, wanderMedian }: Component,
  priorSds: readonly number[],
): { mean: Float64Array; factor: Float64Array } {
  const parts = LOGS.map((log) => {
    const own = (wanderMedian * Math.exp(log)) ** 2;
    const precision = new Float64Array(TERMS * TERMS);
    priorSds.forEach((sd, t) => {
      precision[t * TERMS + t] = 1 / sd ** 2;
    });
    const rhs = new Float64Array(TERMS);
    let evidence = -0.5 * (log / LOG_SD) ** 2;
    rows.forEach((row, p) => {
      const whole = own + variance[p]!;
      evidence -= 0.5 * (Math.log(whole) + c[p]! ** 2 / whole);
      for (let t = 0; t < TERMS; t++) {
        rhs[t]! += (row[t]! * c[p]!) / whole;
        for (let s = 0; s < TERMS; s++) precision[t * TERMS + s]! += (row[t]! * row[s]!) / whole;
      }
    });
    const logDet = factorInPlace(precision, TERMS);
    const mean = solveFactored(precision, TERMS, rhs);
    evidence += 0.5 * (rhs.reduce((sum, value, t) => sum + value * mean[t]!, 0) - logDet);
    const cov = Array.from({ length: TERMS }, (_, t) =>
      solveFactored(
        precision,
        TERMS,
        Float64Array.from({ length: TERMS }, (_u, s) => +(s === t)),
      ),
    );
    return { evidence, mean, cov };
  });
  const top = Math.max(...parts.map(({ evidence }) => evidence));
  const weights = parts.map(({ evidence }) => Math.exp(evidence - top));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = new Float64Array(TERMS);
  const cov = new Float64Array(TERMS * TERMS);
  parts.forEach((part, g) => {
    for (let t = 0; t < TERMS; t++) mean[t]! += (weights[g]! / whole) * part.mean[t]!;
  });
  parts.forEach((part, g) => {
    for (let t = 0; t < TERMS; t++)
      for (let s = 0; s < TERMS; s++)
        cov[t * TERMS + s]! +=
          (weights[g]! / whole) *
          (part.cov[t]![s]! + (part.mean[t]! - mean[t]!) * (part.mean[s]! - mean[s]!));
  });
  factorInPlace(cov, TERMS);
  return { mean, factor: cov };
}

/** The draw of the band's surface that goes with one over speed. */
export const bandDraw = (d: number, draws: SurfaceDraws): number =>
  Math.floor(((d + 0.5) * draws.count) / SPEED_SURFACES) % draws.count;

/** Loss at a speed, up to a constant of the draw. */
function lossAtSpeed(
  { terms, middle, speedRpm }: TwoSpeeds,
  draws: SurfaceDraws,
  d: number,
  m: number,
  leadDeg: number,
  lambda: number,
): number {
  const i = d * speedRpm.length + m;
  const [x, z] = [leadDeg - middle[0], lambda - middle[1]];
  return (
    surfaceLoss(draws, bandDraw(d, draws), leadDeg, lambda) -
    x * (terms[1]![i]! + terms[3]![i]! * x + terms[4]![i]! * z) -
    z * (terms[2]![i]! + terms[5]![i]! * z)
  );
}

/** Steps of the search for a speed's own best, and the least of them [rungs]. */
const SEARCH_STEPS = 40;
const LEAST_STEP = 0.03;

/**
 * Best lead and mixture at a speed for one draw, within `reach` rungs of the band's own: found by steps along the two
 * settings and along the ridge that halve when none helps.
 */
export function bestAtSpeed(
  speeds: TwoSpeeds,
  draws: SurfaceDraws,
  d: number,
  m: number,
  rungs: readonly [number, number],
  reach: number,
): readonly [leadDeg: number, lambda: number] {
  const at = bandDraw(d, draws);
  const [b0, l0, ridge] = [draws.bestLead[at]!, draws.bestLambda[at]!, draws.ridge[at]!];
  let [lead, lambda] = [b0, l0];
  let here = lossAtSpeed(speeds, draws, d, m, lead, lambda);
  let step = 1;
  for (let i = 0; i < SEARCH_STEPS && step > LEAST_STEP; i++) {
    let moved = false;
    for (const [x, z] of [
      [step * rungs[0], 0],
      [-step * rungs[0], 0],
      [step * rungs[1] * ridge, step * rungs[1]],
      [-step * rungs[1] * ridge, -step * rungs[1]],
    ] as const) {
      const [newLead, newLambda] = [lead + x, lambda + z];
      if (
        Math.abs(newLambda - l0) > reach * rungs[1] ||
        Math.abs(newLead - b0) > reach * rungs[0] + Math.abs(ridge * (newLambda - l0))
      )
        continue;
      const there = lossAtSpeed(speeds, draws, d, m, newLead, newLambda);
      if (there < here) {
        [lead, lambda, here] = [newLead, newLambda, there];
        moved = true;
        break;
      }
    }
    if (!moved) step /= 2;
  }
  return [lead, lambda];
}

/** Best lead at a speed for a given mixture, for one draw: one-dimensional, by the slope of the sum. */
export function bestLeadAtSpeed(
  speeds: TwoSpeeds,
  draws: SurfaceDraws,
  d: number,
  m: number,
  lambda: number,
  rung: number,
  reach: number,
): number {
  const at = bandDraw(d, draws);
  const middle = draws.bestLead[at]! + draws.ridge[at]! * (lambda - draws.bestLambda[at]!);
  let [low, high] = [middle - reach * rung, middle + reach * rung];
  const loss = (lead: number) => lossAtSpeed(speeds, draws, d, m, lead, lambda);
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [atA, atB] = [loss(a), loss(b)];
  while (high - low > LEAST_STEP * rung) {
    if (atA < atB) {
      [high, b, atB] = [b, a, atA];
      a = high - golden * (high - low);
      atA = loss(a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + golden * (high - low);
      atB = loss(b);
    }
  }
  return (low + high) / 2;
}

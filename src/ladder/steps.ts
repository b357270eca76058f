import normalCdfOf from '@stdlib/stats-base-dists-normal-cdf';
import { evaluateSpline, functionalCovariance, valueFunctional } from '../numerics/spline.ts';
import type { Counted } from './band.ts';
import type { ResponseDraws } from './posterior.ts';
import type { SpeedModel } from './speeds.ts';
import type { StepAnswer, StepWord } from './types.ts';

/*
 * What each step gained: the pulls of one rung against those of the rung below, drift taken out as far as repeats
 * have told it. No shape of response is assumed here, so a step says what these pulls say and nothing else. The
 * spread is that of pull to pull at its middle estimate: where pulls happen to scatter more it is also estimated larger,
 * so the tails of its own uncertainty on top would make the intervals hold 98 % instead of 95 (test/truth).
 */

const STEP_SPEEDS = 49;

export interface Rung {
  readonly u: number;
  readonly pulls: readonly Counted[];
}

export function rungsOf(counted: readonly Counted[]): Rung[] {
  const rungs = new Map<number, Counted[]>();
  for (const one of counted) {
    const key = [...rungs.keys()].find((u) => Math.abs(u - one.u) < 1e-6) ?? one.u;
    rungs.set(key, [...(rungs.get(key) ?? []), one]);
  }
  return [...rungs.entries()].sort((a, b) => a[0] - b[0]).map(([u, pulls]) => ({ u, pulls }));
}

const Z95 = 1.959963984540054;

function spreadOf(values: Float64Array): number {
  const mean = meanOf([...values]);
  return Math.sqrt(meanOf([...values].map((value) => (value - mean) ** 2)));
}

const meanOf = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function wordFor(gain: number, low: number, high: number, worth: number): StepWord {
  if (high < 0) return 'loss';
  if (low > 0) return gain >= worth ? 'real' : 'small';
  return 'cannot be told from chance';
}

function besides(one: Rung, other: Rung): string | null {
  const texts = (rung: Rung) =>
    new Set(
      rung.pulls.flatMap(({ pull }) => (pull.configuration === null ? [] : [pull.configuration])),
    );
  const [a, b] = [texts(one), texts(other)];
  const differing = [...new Set([...a, ...b])].filter((text) => a.has(text) !== b.has(text));
  return differing.length === 0 ? null : differing.join('; ');
}

export function stepsOf(
  rungs: readonly Rung[],
  response: ResponseDraws,
  speeds: SpeedModel | null,
  worthPercent: number,
  mirror: number,
): StepAnswer[] {
  const repeatSd = Float64Array.from(response.repeatSd).sort()[response.count >> 1]!;
  return rungs.slice(1).map((to, i) => {
    const from = rungs[i]!;
    const powerOf = (rung: Rung) => meanOf(rung.pulls.map((one) => one.power));
    const orderOf = (rung: Rung) => meanOf(rung.pulls.map((one) => one.pull.order));
    const raw = powerOf(to) / powerOf(from) - 1;
    const later = orderOf(to) - orderOf(from);
    const share = 1 / from.pulls.length + 1 / to.pulls.length;
    const sampling = [from, to].reduce(
      (sum, rung) =>
        sum +
        rung.pulls.reduce((part, one) => part + (one.powerSd / one.power) ** 2, 0) /
          rung.pulls.length ** 2,
      0,
    );
    const drift = meanOf([...response.drift]) * later;
    const driftSd = spreadOf(response.drift) * later;
    const sd = Math.sqrt(repeatSd * repeatSd * share + sampling + driftSd * driftSd);
    const gainPercent = 100 * (raw - drift);
    const lowPercent = gainPercent - 100 * Z95 * sd;
    const highPercent = gainPercent + 100 * Z95 * sd;
    return {
      from: mirror * from.u,
      to: mirror * to.u,
      gainPercent,
      lowPercent,
      highPercent,
      word: wordFor(gainPercent, lowPercent, highPercent, worthPercent),
      besides: besides(from, to),
      bySpeed: bySpeed(from, to, repeatSd, speeds, drift, driftSd),
    };
  });
}

const EMPTY: StepAnswer['bySpeed'] = {
  speedRpm: [],
  gainPercent: [],
  lowPercent: [],
  highPercent: [],
  chancePercent: [],
  toldFromChance: [],
};

/**
 * The step speed by speed with a band that holds at all speeds at once.
 *
 * The multiplier c of the pointwise sd solves 2(1 − Φ(c)) + (κ/π)·exp(−c²/2) = 0.05, κ the length of the path that the
 * normalised difference runs over the speeds (the tube formula: Hotelling 1939, Naiman 1986), here the sum of
 * arccos of the correlation between neighbouring speeds.
 */
function bySpeed(
  from: Rung,
  to: Rung,
  repeatSd: number,
  speeds: SpeedModel | null,
  drift: number,
  driftSd: number,
): StepAnswer['bySpeed'] {
  const curves = [...from.pulls, ...to.pulls].flatMap(({ pull }) =>
    pull.torque === null ? [] : [pull.torque],
  );
  if (speeds === null || curves.length < from.pulls.length + to.pulls.length) return EMPTY;
  const low = Math.max(...curves.map((fit) => fit.low));
  const high = Math.min(...curves.map((fit) => fit.high));
  if (!(high > low)) return EMPTY;
  const speedRpm = Array.from(
    { length: STEP_SPEEDS },
    (_, i) => low + ((high - low) * i) / (STEP_SPEEDS - 1),
  );
  const meanAt = (rung: Rung, speed: number) =>
    meanOf(rung.pulls.map(({ pull }) => evaluateSpline(pull.torque!, speed)));
  const share = 1 / from.pulls.length + 1 / to.pulls.length;
  const wander = wanderOf(speeds);
  const common = (s: number, t: number) =>
    share * (repeatSd * repeatSd + wander(s, t)) + driftSd * driftSd;
  const functionals = [from, to].map((rung) =>
    rung.pulls.map(({ pull }) => ({
      fit: pull.torque!,
      rows: speedRpm.map((speed) => valueFunctional(pull.torque!, speed)),
      weight: 1 / rung.pulls.length,
    })),
  );
  const means = [from, to].map((rung) => speedRpm.map((speed) => meanAt(rung, speed)));
  const sampled = (i: number, j: number) => {
    let sum = 0;
    functionals.forEach((group, g) => {
      for (const { fit, rows, weight } of group) {
        sum +=
          (weight * weight * functionalCovariance(fit, rows[i]!, rows[j]!)) /
          (means[g]![i]! * means[g]![j]!);
      }
    });
    return sum;
  };
  const variance = speedRpm.map((speed, i) => common(speed, speed) + sampled(i, i));
  let path = 0;
  for (let i = 1; i < STEP_SPEEDS; i++) {
    const covariance = common(speedRpm[i - 1]!, speedRpm[i]!) + sampled(i - 1, i);
    path += Math.acos(
      Math.min(1, Math.max(-1, covariance / Math.sqrt(variance[i - 1]! * variance[i]!))),
    );
  }
  const c = tubeMultiplier(path);
  const gainPercent = speedRpm.map((_, i) => 100 * (means[1]![i]! / means[0]![i]! - 1 - drift));
  const half = variance.map((value) => 100 * c * Math.sqrt(value));
  return {
    speedRpm,
    gainPercent,
    lowPercent: gainPercent.map((gain, i) => gain - half[i]!),
    highPercent: gainPercent.map((gain, i) => gain + half[i]!),
    chancePercent: half,
    toldFromChance: gainPercent.map((gain, i) => Math.abs(gain) > half[i]!),
  };
}

/** Covariance of a pull's wander between two speeds, relative. */
function wanderOf({ speedRpm, shapes, wanderSd }: SpeedModel): (s: number, t: number) => number {
  const first = speedRpm[0]!;
  const step = speedRpm[1]! - first;
  const at = (shape: Float64Array, speed: number) => {
    const place = Math.min(shape.length - 1, Math.max(0, (speed - first) / step));
    const i = Math.min(shape.length - 2, Math.floor(place));
    return shape[i]! + (place - i) * (shape[i + 1]! - shape[i]!);
  };
  return (s, t) =>
    shapes.reduce((sum, shape, j) => sum + wanderSd[j]! ** 2 * at(shape, s) * at(shape, t), 0);
}

/** Multiplier of the sd for a band that holds at all speeds at once with 95 %, for a path of the given length. */
export function tubeMultiplier(path: number): number {
  let [low, high] = [1.5, 6];
  for (let i = 0; i < 50; i++) {
    const c = (low + high) / 2;
    const tail = 2 * (1 - normalCdfOf(c, 0, 1)) + (path / Math.PI) * Math.exp((-c * c) / 2);
    if (tail > 0.05) low = c;
    else high = c;
  }
  return (low + high) / 2;
}

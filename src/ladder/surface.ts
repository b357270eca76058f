import type { Banded } from '../pull/types.ts';
import { normalFraction } from './evenly.ts';
import type { ResponseDraws } from './posterior.ts';
import { quantileOf } from './quantiles.ts';
import { addedPower, bandPower, responseDraw, type SpeedModel } from './speeds.ts';
import type { LadderAnswer } from './types.ts';

/** Settings of the pictures: a quarter of a rung apart, from a rung below the ladder to a rung above it. Mirrored. */
export function pictureSettings(low: number, high: number, rung: number): number[] {
  const from = low - rung;
  const count = Math.min(80, Math.round((4 * (high + rung - from)) / rung));
  return Array.from({ length: count + 1 }, (_, i) => from + ((high + rung - from) * i) / count);
}

/** The picture's band needs fewer draws than the answers do. */
const PICTURE_PART = 2;

/** Mean power over the band against the setting [W] with its 95 % band. */
export function responseCurve(
  us: readonly number[],
  draws: ResponseDraws,
  meanPower: number,
  mirror: number,
): LadderAnswer['response'] {
  const meanPowerW: number[] = [];
  const lowW: number[] = [];
  const highW: number[] = [];
  const count = draws.count / PICTURE_PART;
  const column = new Float64Array(count);
  for (const u of us) {
    for (let i = 0; i < count; i++) {
      const d = PICTURE_PART * i;
      column[i] = meanPower * bandPower(u, draws, d);
    }
    column.sort();
    meanPowerW.push(quantileOf(column, 0.5));
    lowW.push(quantileOf(column, 0.025));
    highW.push(quantileOf(column, 0.975));
  }
  return inOrder({ setting: us.map((u) => mirror * u), meanPowerW, lowW, highW });
}

function inOrder(curve: LadderAnswer['response']): LadderAnswer['response'] {
  const { setting, meanPowerW, lowW, highW } = curve;
  if (setting.length < 2 || setting[0]! < setting[1]!) return curve;
  const turn = (values: readonly number[]) => [...values].reverse();
  return {
    setting: turn(setting),
    meanPowerW: turn(meanPowerW),
    lowW: turn(lowW),
    highW: turn(highW),
  };
}

/** Best setting at a speed for one draw: where the slope of the summed response is zero; infinite where it never is. */
function bestAt(
  response: ResponseDraws,
  at: number,
  slope: number,
  bend: number,
  middle: number,
): number {
  const b = response.best[at]!;
  const k = response.curvature[at]!;
  const c = response.lean[at]!;
  const e = b - middle;
  if (response.shape.name !== 'cubic') {
    const top = topOf((d) => slope + 2 * bend * (e + d) - response.shape.slope(d, k, c), k);
    return b + top;
  }
  // −2kd − 3kcd² + slope + 2·bend·(e + d) = 0, d from the band's best.
  const linear = 2 * k - 2 * bend;
  const constant = slope + 2 * bend * e;
  const square = 3 * k * c;
  const inside = linear * linear + 4 * square * constant;
  if (!(linear > 0) || inside < 0)
    return constant > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  return b + (2 * constant) / (linear + Math.sqrt(inside));
}

/**
 * Where a slope that falls with d comes to zero, or infinite where it does not within reach of the best; the bracket
 * opens from the parabola's own answer and is halved to a ten thousandth of it.
 */
function topOf(slopeAt: (d: number) => number, curvature: number): number {
  const atBest = slopeAt(0);
  if (atBest === 0) return 0;
  const toward = Math.sign(atBest);
  let far = Math.max(Math.abs(atBest) / (2 * curvature), 1e-9);
  for (let i = 0; i < 6 && slopeAt(toward * far) * toward > 0; i++) far *= 2;
  if (slopeAt(toward * far) * toward > 0) return toward * Number.POSITIVE_INFINITY;
  let near = 0;
  for (let i = 0; i < 14; i++) {
    const half = (near + far) / 2;
    if (slopeAt(toward * half) * toward > 0) near = half;
    else far = half;
  }
  return (toward * (near + far)) / 2;
}

const TABLE_SPEEDS = 7;
/**
 * How flat the top may be [rungs], sd: within some such distance of the best a loss is smaller than the parabola's, as
 * published sweeps show flat tops and no pull resolves them (ours, from common practice, no source).
 */
const LEVEL_RUNGS = 0.4;

/**
 * The shortest interval that holds 95 % of draws that cannot be below zero, with their middle. Equal tails would end
 * above zero always, and never hold the truth of an engine whose best does not move with speed.
 */
function shortestOf(column: Float64Array): Banded {
  const sorted = Float64Array.from(column).sort();
  const out = Math.round(0.05 * sorted.length);
  const last = sorted.length - 1 - out;
  let [low, high] = [0, sorted[last]!];
  for (let i = 1; i <= out; i++) {
    if (sorted[last + i]! - sorted[i]! < high - low) {
      [low, high] = [sorted[i]!, sorted[last + i]!];
    }
  }
  return { value: quantileOf(sorted, 0.5), low, high };
}

export interface Surface {
  readonly map: NonNullable<LadderAnswer['map']>;
  readonly following: NonNullable<LadderAnswer['following']>;
}

/**
 * Loss from the best at each speed and setting, the best by speed, and what a setting that follows speed would gain
 * over the best fixed one.
 *
 * @param reach  settings beyond which nothing is said, mirrored: a best outside is open
 */
export function surfaceOf(
  us: readonly number[],
  reach: readonly [number, number],
  response: ResponseDraws,
  speeds: SpeedModel,
  middle: number,
  rung: number,
  mirror: number,
): Surface {
  const { draws, speedRpm, bandWeight, slope: slopes, bend: bends, offset: offsets } = speeds;
  const grid = speedRpm.length;
  const bests = Array.from({ length: grid }, () => new Float64Array(draws));
  const valueAt = (d: number, at: number, m: number, u: number) =>
    bandPower(u, response, at) + addedPower(u - middle, speeds, d * grid + m);
  const levelSd = LEVEL_RUNGS * rung;
  /** A draw whose curve at a speed has no top is told of as far from its best as the ladder is long. */
  const width = (reach[1] - reach[0]) / 2;
  const clamp = (u: number) => Math.min(reach[1], Math.max(reach[0], u));
  const gains = new Float64Array(draws);
  const fixedCosts = Array.from({ length: grid }, () => new Float64Array(draws));
  for (let d = 0; d < draws; d++) {
    const at = responseDraw(d, response);
    // Gains are told of each draw's own best, even where that lies beyond the ladder: cut off there, they would vanish.
    const fixed = response.best[at]!;
    const near = (u: number) => Math.min(fixed + width, Math.max(fixed - width, u));
    const level = levelSd * normalFraction(((d + 1) * 89) % 509, 4);
    let gain = 0;
    for (let m = 0; m < grid; m++) {
      const i = d * grid + m;
      const best = bestAt(response, at, slopes[i]!, bends[i]!, middle);
      bests[m]![d] = best;
      const own = near(best);
      const square = (own - fixed) ** 2;
      const told = square > 0 ? square / (square + level * level) : 0;
      const cost = told * Math.max(0, 1 - valueAt(d, at, m, fixed) / valueAt(d, at, m, own));
      fixedCosts[m]![d] = 100 * cost;
      gain += bandWeight[m]! * cost;
    }
    gains[d] = 100 * gain;
  }
  const sorted = bests.map((column) => Float64Array.from(column).sort());
  const open = (u: number) => (u < reach[0] || u > reach[1] ? null : mirror * u);
  const quantiles = sorted.map((column) => ({
    middle: mirror * clamp(quantileOf(column, 0.5)),
    low: open(quantileOf(column, 0.025)),
    high: open(quantileOf(column, 0.975)),
  }));
  const lossPercent: number[][] = us.map(() => []);
  if (response.shape.name !== 'cubic') {
    const ofBand = us.map((u) =>
      Float64Array.from({ length: draws }, (_, d) =>
        bandPower(u, response, responseDraw(d, response)),
      ),
    );
    for (let m = 0; m < grid; m++) {
      const tops = Float64Array.from({ length: draws }, (_, d) =>
        valueAt(d, responseDraw(d, response), m, clamp(bests[m]![d]!)),
      );
      us.forEach((u, row) => {
        let part = 0;
        for (let d = 0; d < draws; d++) {
          const power = ofBand[row]![d]! + addedPower(u - middle, speeds, d * grid + m);
          part += power / (draws * tops[d]!);
        }
        lossPercent[row]!.push(100 * Math.max(0, 1 - part));
      });
    }
  }
  // A cubic in the setting for each draw has as its mean over the draws the cubic of the mean coefficients: the whole
  // map costs one pass over the draws.
  for (let m = 0; m < grid && response.shape.name === 'cubic'; m++) {
    const mean = [0, 0, 0, 0];
    for (let d = 0; d < draws; d++) {
      const at = responseDraw(d, response);
      const i = d * grid + m;
      const top = draws * valueAt(d, at, m, clamp(bests[m]![d]!));
      const e = response.best[at]! - middle;
      const k = response.curvature[at]!;
      const kc = k * response.lean[at]!;
      mean[0]! += (response.level[at]! + offsets[i]! - k * e * e + kc * e * e * e) / top;
      mean[1]! += (slopes[i]! + 2 * k * e - 3 * kc * e * e) / top;
      mean[2]! += (bends[i]! - k + 3 * kc * e) / top;
      mean[3]! -= kc / top;
    }
    us.forEach((u, row) => {
      const v = u - middle;
      const part = mean[0]! + v * (mean[1]! + v * (mean[2]! + v * mean[3]!));
      lossPercent[row]!.push(100 * Math.max(0, 1 - part));
    });
  }
  const banded = (column: Float64Array) => {
    const order = Float64Array.from(column).sort();
    return {
      value: quantileOf(order, 0.5),
      low: quantileOf(order, 0.025),
      high: quantileOf(order, 0.975),
    };
  };
  const table = Array.from({ length: TABLE_SPEEDS }, (_, i) => {
    const m = Math.round((i * (grid - 1)) / (TABLE_SPEEDS - 1));
    const column = Float64Array.from(bests[m]!).sort();
    return {
      speedRpm: speedRpm[m]!,
      setting: mirror * clamp(quantileOf(column, 0.5)),
      fixedCostPercent: banded(fixedCosts[m]!),
    };
  });
  const settings = us.map((u) => mirror * u);
  const turned = settings.length > 1 && settings[0]! > settings[1]!;
  return {
    map: {
      speedRpm,
      setting: turned ? settings.reverse() : settings,
      lossPercent: turned ? lossPercent.reverse() : lossPercent,
      bestSetting: quantiles.map((q) => q.middle),
      bestLow: quantiles.map((q) => (mirror > 0 ? q.low : q.high)),
      bestHigh: quantiles.map((q) => (mirror > 0 ? q.high : q.low)),
    },
    following: { gainPercent: shortestOf(gains), table },
  };
}

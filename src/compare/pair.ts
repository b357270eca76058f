import { besidesOf } from './besides.ts';
import { DRAWS, type GroupCurves } from './curves.ts';
import { findingOf } from './finding.ts';
import { chanceBelow, contrastQuantile, lessOf, TAIL } from './means.ts';
import { bandedOf, type Figures, type Tops } from './measures.ts';
import { GRID } from './shapes.ts';
import type {
  CompareInput,
  ComparePull,
  GainWord,
  GroupMeasures,
  PairAnswer,
  Region,
} from './types.ts';

const percent = (log: number) => 100 * Math.expm1(log);

/** Levels that each shape is put together with. */
const LEVELS = 4;

/** Where the difference by speed stands outside of a simultaneous 95 % band. */
interface SpeedGain {
  readonly mean: Float64Array;
  readonly half: Float64Array;
  /** By draw and speed. */
  readonly draws: Float64Array;
  readonly told: readonly boolean[];
}

/**
 * Log difference by speed with a simultaneous band: half-widths in proportion to the pointwise sd, by the 95 % point
 * of the largest |difference from the mean| / sd over all speeds.
 */
function gainBySpeed(curves: GroupCurves, a: number, b: number): SpeedGain {
  const [first, second] = [curves.groups[a]!, curves.groups[b]!];
  const mean = second.middle.map((value, m) => value - first.middle[m]!);
  const draws = new Float64Array(DRAWS * GRID);
  const square = new Float64Array(GRID);
  for (let i = 0; i < DRAWS; i++) {
    const shift = second.shift[i]! - first.shift[i]!;
    for (let m = 0; m < GRID; m++) {
      const at = i * GRID + m;
      const value = second.shape.draws[at]! - first.shape.draws[at]! + shift;
      draws[at] = value;
      square[m]! += (value - mean[m]!) ** 2;
    }
  }
  const sd = square.map((sum) => Math.sqrt(sum / DRAWS));
  // Shapes and levels of one part of the law may be put together in any way: each shape is taken with some levels of
  // its neighbours in the law's order, which settles the far point better than the draws alone.
  const largest = new Float64Array(LEVELS * DRAWS);
  const perSd = sd.map((value) => 1 / value);
  const level = second.level.map((value, i) => value - first.level[i]!);
  const off = new Float64Array(GRID);
  for (let i = 0; i < DRAWS; i++) {
    for (let m = 0; m < GRID; m++) off[m] = (draws[i * GRID + m]! - mean[m]!) * perSd[m]!;
    for (let q = 0; q < LEVELS; q++) {
      const shift = level[(i + q) % DRAWS]! - level[i]!;
      let most = 0;
      for (let m = 0; m < GRID; m++) {
        const value = Math.abs(off[m]! + shift * perSd[m]!);
        if (value > most) most = value;
      }
      largest[LEVELS * i + q] = most;
    }
  }
  const multiplier = largest.sort()[Math.ceil(0.95 * largest.length) - 1]!;
  const half = sd.map((value) => multiplier * value);
  return { mean, half, draws, told: Array.from(mean, (value, m) => Math.abs(value) > half[m]!) };
}

/** Stretches of one sign this near to each other are one, and stretches this narrow are none: parts of the sweep. */
const SAME_STRETCH = 0.1;
const LEAST_STRETCH = 0.03;

/**
 * Stretches of speed in which one side is ahead and it can be told. A short gap in which the same side leads without
 * being told from chance does not break one: whoever reads "gains above 5200" wants no list of islands.
 */
function regionsOf(speedRpm: readonly number[], { mean, told }: SpeedGain): Region[] {
  const sweep = speedRpm.at(-1)! - speedRpm[0]!;
  const stretches: { first: number; last: number; sign: number }[] = [];
  for (let m = 0; m < mean.length; m++) {
    if (!told[m]) continue;
    const sign = Math.sign(mean[m]!);
    const before = stretches.at(-1);
    const joins =
      before !== undefined &&
      before.sign === sign &&
      speedRpm[m]! - speedRpm[before.last]! <= SAME_STRETCH * sweep &&
      mean.slice(before.last, m).every((value) => Math.sign(value) === sign);
    if (joins) before.last = m;
    else stretches.push({ first: m, last: m, sign });
  }
  return stretches
    .filter(({ first, last }) => speedRpm[last]! - speedRpm[first]! >= LEAST_STRETCH * sweep)
    .map(({ first, last, sign }) => {
      let most = first;
      for (let m = first; m <= last; m++) if (sign * mean[m]! > sign * mean[most]!) most = m;
      return {
        fromRpm: speedRpm[first]!,
        toRpm: speedRpm[last]!,
        word: sign > 0 ? 'gain' : 'loss',
        mostPercent: percent(mean[most]!),
        mostAtRpm: speedRpm[most]!,
      };
    });
}

/** Where a curve crosses zero in a sign, nearest to a place and between two speeds; null where it does not. */
function crossingNear(
  speedRpm: readonly number[],
  values: Float64Array,
  upwards: boolean,
  near: number,
  between: readonly [number, number],
): number | null {
  let best: number | null = null;
  for (let m = 0; m + 1 < GRID; m++) {
    const [left, right] = [values[m]!, values[m + 1]!];
    if (upwards ? !(left < 0 && right >= 0) : !(left > 0 && right <= 0)) continue;
    const at = speedRpm[m]! + (left / (left - right)) * (speedRpm[m + 1]! - speedRpm[m]!);
    if (at < between[0] || at > between[1]) continue;
    if (best === null || Math.abs(at - near) < Math.abs(best - near)) best = at;
  }
  return best;
}

/** A draw of one sign throughout crosses beyond an end of the sweep: as it stands above the crossing, or below it. */
function endBeyond(speedRpm: readonly number[], values: Float64Array, upwards: boolean): number {
  const isAbove = values[GRID >> 1]! > 0 === upwards;
  return isAbove ? speedRpm[0]! : speedRpm.at(-1)!;
}

function crossingsOf(
  { speedRpm }: GroupCurves,
  gain: SpeedGain,
  regions: readonly Region[],
): PairAnswer['crossings'] {
  const step = speedRpm[1]! - speedRpm[0]!;
  const sweep = [speedRpm[0]!, speedRpm.at(-1)!] as const;
  return regions.slice(1).flatMap((above, i) => {
    const below = regions[i]!;
    if (below.word === above.word) return [];
    const upwards = above.word === 'gain';
    // Between the two regions the difference must cross; each draw says where.
    const between = [below.toRpm - step, above.fromRpm + step] as const;
    const middle = (between[0] + between[1]) / 2;
    const at = crossingNear(speedRpm, gain.mean, upwards, middle, between);
    if (at === null) return [];
    const places = Float64Array.from({ length: DRAWS }, (_, d) => {
      const draw = gain.draws.subarray(d * GRID, (d + 1) * GRID);
      return crossingNear(speedRpm, draw, upwards, at, sweep) ?? endBeyond(speedRpm, draw, upwards);
    });
    const { low, high } = bandedOf(places, at);
    return [{ speedRpm: at, lowRpm: low, highRpm: high, aheadAbove: upwards ? 'b' : 'a' }];
  });
}

function wordOf(low: number, high: number, value: number, worth: number): GainWord {
  if (high < 0) return 'loss';
  if (low <= 0) return 'cannot be told from chance';
  return value >= worth ? 'real' : 'small';
}

/** Group b against group a. */
export function pairOf(
  input: Omit<CompareInput, 'bandRpm'>,
  counted: readonly (readonly ComparePull[])[],
  curves: GroupCurves,
  figures: readonly Figures[],
  measures: readonly GroupMeasures[],
  a: number,
  b: number,
): PairAnswer {
  const contrast = lessOf(b, a, curves.parts);
  const quantile = (p: number) => percent(contrastQuantile(curves.parts, contrast, p));
  const gain = { value: quantile(0.5), low: quantile(TAIL), high: quantile(1 - TAIL) };
  const bySpeed = gainBySpeed(curves, a, b);
  const regions = regionsOf(curves.speedRpm, bySpeed);
  const crossings = crossingsOf(curves, bySpeed, regions);
  const change = (read: (of: Figures) => Float64Array, middle: number) => {
    const [own, other] = [read(figures[a]!), read(figures[b]!)];
    return bandedOf(
      own.map((value, i) => other[i]! - value),
      middle,
    );
  };
  const moved = (read: (tops: Tops) => number) => {
    const [own, other] = [curves.groups[a]!.shape, curves.groups[b]!.shape];
    return bandedOf(
      own.drawTops.map((tops, i) => read(other.drawTops[i]!) - read(tops)),
      read(other.middleTops) - read(own.middleTops),
    );
  };
  const [first, second] = [measures[a]!, measures[b]!];
  const answer: Omit<PairAnswer, 'finding'> = {
    a: first.name,
    b: second.name,
    gain,
    word: wordOf(gain.low, gain.high, gain.value, input.worthPercent),
    chanceAhead: 1 - chanceBelow(curves.parts, contrast, 0),
    bySpeed: {
      speedRpm: curves.speedRpm,
      torqueANm: Array.from(curves.groups[a]!.middle, Math.exp),
      torqueBNm: Array.from(curves.groups[b]!.middle, Math.exp),
      gainPercent: Array.from(bySpeed.mean, percent),
      lowPercent: Array.from(bySpeed.mean, (value, m) => percent(value - bySpeed.half[m]!)),
      highPercent: Array.from(bySpeed.mean, (value, m) => percent(value + bySpeed.half[m]!)),
      chancePercent: Array.from(bySpeed.half, percent),
      toldFromChance: bySpeed.told,
    },
    regions,
    crossings,
    peakPowerChangeW: change(
      ({ power }) => power,
      second.peakPowerW.value.value - first.peakPowerW.value.value,
    ),
    peakTorqueChangeNm: change(
      ({ torque }) => torque,
      second.peakTorqueNm.value.value - first.peakTorqueNm.value.value,
    ),
    peakPowerMovedRpm: moved(({ power }) => power.speed),
    peakTorqueMovedRpm: moved(({ torque }) => torque.speed),
    meanTorqueChangeNm: change(
      ({ meanTorque }) => meanTorque,
      second.meanTorqueNm.value - first.meanTorqueNm.value,
    ),
    torqueWidthChangeRpm:
      first.torqueWidthRpm && second.torqueWidthRpm && moved(({ torqueWidth }) => torqueWidth),
    powerWidthChangeRpm:
      first.powerWidthRpm && second.powerWidthRpm && moved(({ powerWidth }) => powerWidth),
    flatnessChange: change(
      ({ flatness }) => flatness,
      second.flatness.value - first.flatness.value,
    ),
    powerPerTorqueChangeRadPerS: moved(({ power, torque }) => power.value / torque.value),
    besides: besidesOf(counted[a]!, counted[b]!, input.groups[b]!.builtOtherwise ?? null),
  };
  return { ...answer, finding: findingOf(answer, measures[a]!, measures[b]!, curves.bandRpm) };
}

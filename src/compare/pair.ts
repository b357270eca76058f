import { besidesOf } from './besides.ts';
import type { GroupCurves } from './curves.ts';
import { findingOf } from './finding.ts';
import { chanceBelow, contrastQuantile, TAIL } from './means.ts';
import { bandedOf, type Figures } from './measures.ts';
import type {
  CompareInput,
  ComparePull,
  GainWord,
  GroupMeasures,
  PairAnswer,
  Region,
} from './types.ts';

const percent = (log: number) => 100 * Math.expm1(log);

/** Where the difference by speed stands outside of a simultaneous 95 % band. */
interface SpeedGain {
  readonly mean: Float64Array;
  readonly half: Float64Array;
  readonly told: readonly boolean[];
}

/**
 * Log difference by speed with a simultaneous band: half-widths in proportion to the pointwise sd, by the 95 % point
 * of the largest |difference from the mean| / sd over all speeds.
 */
function gainBySpeed(curves: GroupCurves, a: number, b: number): SpeedGain {
  const grid = curves.speedRpm.length;
  const mean = Float64Array.from(
    curves.speedRpm,
    (_, m) => curves.middle[b]![m]! - curves.middle[a]![m]!,
  );
  const off = curves.draws.map((draw) =>
    mean.map((value, m) => draw[b]![m]! - draw[a]![m]! - value),
  );
  const sd = mean.map((_, m) =>
    Math.sqrt(off.reduce((sum, draw) => sum + draw[m]! ** 2, 0) / off.length),
  );
  const largest = Float64Array.from(off, (draw) => {
    let most = 0;
    for (let m = 0; m < grid; m++) most = Math.max(most, Math.abs(draw[m]!) / sd[m]!);
    return most;
  }).sort();
  const multiplier = largest[Math.ceil(0.95 * largest.length) - 1]!;
  const half = sd.map((value) => multiplier * value);
  return { mean, half, told: Array.from(mean, (value, m) => Math.abs(value) > half[m]!) };
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

/** Where a curve crosses zero between two speeds, in a sign (+1: upwards), nearest to a place; null where never. */
function crossingNear(
  speedRpm: readonly number[],
  value: (m: number) => number,
  upwards: boolean,
  near: number,
  between: readonly [number, number],
): number | null {
  let best: number | null = null;
  for (let m = 0; m + 1 < speedRpm.length; m++) {
    const [left, right] = [value(m), value(m + 1)];
    if (upwards ? !(left < 0 && right >= 0) : !(left > 0 && right <= 0)) continue;
    const at = speedRpm[m]! + (left / (left - right)) * (speedRpm[m + 1]! - speedRpm[m]!);
    if (at < between[0] || at > between[1]) continue;
    if (best === null || Math.abs(at - near) < Math.abs(best - near)) best = at;
  }
  return best;
}

function crossingsOf(
  curves: GroupCurves,
  a: number,
  b: number,
  gain: SpeedGain,
  regions: readonly Region[],
): PairAnswer['crossings'] {
  const { speedRpm } = curves;
  const out: { speedRpm: number; lowRpm: number; highRpm: number; aheadAbove: 'a' | 'b' }[] = [];
  for (let i = 0; i + 1 < regions.length; i++) {
    const [below, above] = [regions[i]!, regions[i + 1]!];
    if (below.word === above.word) continue;
    const upwards = above.word === 'gain';
    // Between the two regions the difference must cross; each draw says where.
    const between = [
      below.toRpm - (speedRpm[1]! - speedRpm[0]!),
      above.fromRpm + (speedRpm[1]! - speedRpm[0]!),
    ] as const;
    const middle = (between[0] + between[1]) / 2;
    const at = crossingNear(speedRpm, (m) => gain.mean[m]!, upwards, middle, between);
    if (at === null) continue;
    const places = curves.draws.flatMap((draw) => {
      const place = crossingNear(speedRpm, (m) => draw[b]![m]! - draw[a]![m]!, upwards, at, [
        speedRpm[0]!,
        speedRpm.at(-1)!,
      ]);
      return place === null ? [] : [place];
    });
    const { low, high } = bandedOf(places, at);
    out.push({ speedRpm: at, lowRpm: low, highRpm: high, aheadAbove: upwards ? 'b' : 'a' });
  }
  return out;
}

function wordOf(low: number, high: number, value: number, worth: number): GainWord {
  if (high < 0) return 'loss';
  if (low <= 0) return 'cannot be told from chance';
  return value >= worth ? 'real' : 'small';
}

/** Group b against group a. */
export function pairOf(
  input: CompareInput,
  counted: readonly (readonly ComparePull[])[],
  curves: GroupCurves,
  figures: Figures,
  measures: readonly GroupMeasures[],
  a: number,
  b: number,
): PairAnswer {
  const groups = curves.parts[0]!.mean.length;
  const contrast = Array.from({ length: groups }, (_, g) => (g === b ? 1 : g === a ? -1 : 0));
  const quantile = (p: number) => percent(contrastQuantile(curves.parts, contrast, p));
  const gain = { value: quantile(0.5), low: quantile(TAIL), high: quantile(1 - TAIL) };
  const bySpeed = gainBySpeed(curves, a, b);
  const regions = regionsOf(curves.speedRpm, bySpeed);
  const crossings = crossingsOf(curves, a, b, bySpeed, regions);
  const change = (read: (figure: Figures[number][number]) => number, middle: number) =>
    bandedOf(
      figures[b]!.map((figure, i) => read(figure) - read(figures[a]![i]!)),
      middle,
    );
  const [first, second] = [measures[a]!, measures[b]!];
  type Width = GroupMeasures['torqueWidthRpm'];
  const widthChange = (
    read: (figure: Figures[number][number]) => number,
    before: Width,
    after: Width,
  ) => (before === null || after === null ? null : change(read, after.value - before.value));
  const answer: Omit<PairAnswer, 'finding'> = {
    a: first.name,
    b: second.name,
    gain,
    word: wordOf(gain.low, gain.high, gain.value, input.worthPercent),
    chanceAhead: 1 - chanceBelow(curves.parts, contrast, 0),
    bySpeed: {
      speedRpm: curves.speedRpm,
      torqueANm: Array.from(curves.middle[a]!, Math.exp),
      torqueBNm: Array.from(curves.middle[b]!, Math.exp),
      gainPercent: Array.from(bySpeed.mean, percent),
      lowPercent: Array.from(bySpeed.mean, (value, m) => percent(value - bySpeed.half[m]!)),
      highPercent: Array.from(bySpeed.mean, (value, m) => percent(value + bySpeed.half[m]!)),
      chancePercent: Array.from(bySpeed.half, percent),
      toldFromChance: bySpeed.told,
    },
    regions,
    crossings,
    peakPowerChangeW: change(
      (figure) => figure.peakPower.value,
      second.peakPowerW.value.value - first.peakPowerW.value.value,
    ),
    peakTorqueChangeNm: change(
      (figure) => figure.peakTorque.value,
      second.peakTorqueNm.value.value - first.peakTorqueNm.value.value,
    ),
    peakPowerMovedRpm: change(
      (figure) => figure.peakPower.speed,
      second.peakPowerW.speedRpm.value - first.peakPowerW.speedRpm.value,
    ),
    peakTorqueMovedRpm: change(
      (figure) => figure.peakTorque.speed,
      second.peakTorqueNm.speedRpm.value - first.peakTorqueNm.speedRpm.value,
    ),
    meanTorqueChangeNm: change(
      (figure) => figure.meanTorque,
      second.meanTorqueNm.value - first.meanTorqueNm.value,
    ),
    torqueWidthChangeRpm: widthChange(
      (figure) => figure.torqueWidth,
      first.torqueWidthRpm,
      second.torqueWidthRpm,
    ),
    powerWidthChangeRpm: widthChange(
      (figure) => figure.powerWidth,
      first.powerWidthRpm,
      second.powerWidthRpm,
    ),
    flatnessChange: change(
      (figure) => figure.flatness,
      second.flatness.value - first.flatness.value,
    ),
    powerPerTorqueChangeRadPerS: change(
      (figure) => figure.peakPower.value / figure.peakTorque.value,
      second.powerPerTorqueRadPerS.value - first.powerPerTorqueRadPerS.value,
    ),
    besides: besidesOf(counted[a]!, counted[b]!, input.groups[b]!.builtOtherwise ?? null),
  };
  return { ...answer, finding: findingOf(answer, measures[a]!, measures[b]!, curves) };
}

import { InputError } from '../../errors.ts';
import type { Banded } from '../../pull/types.ts';
import { RAD_PER_S_PER_RPM } from '../../trade/power.ts';
import { type DrawnCurve, type DrawnCurves, placeOn } from '../drawn.ts';
import { bandedOf } from '../measures.ts';
import type { GainWord } from '../types.ts';
import { findingUnderUse } from './sentences.ts';
import { normalised } from './shapes.ts';
import type { Use, UsePoint } from './types.ts';

/*
 * Builds under a use. The figure is mean power at full throttle over the speeds that the use visits, each weighed by
 * its time and by the load asked there:  P = Σ w_i P(n_i) / Σ w_i,  w_i = share_i · load_i.  A speed at which little is
 * asked counts little, for there no build is short of power.
 */

/** Of a use of which less than this part lies inside the measured speeds nothing is said. */
const LEAST_COVERAGE = 0.5;
/** Least gain worth having [%], as of a comparison. */
const WORTH_PERCENT = 0.75;
const SHARES = 21;

export interface UsePair {
  readonly a: string;
  readonly b: string;
  readonly gainPercent: Banded;
  readonly word: GainWord;
  /** Chance that b has more of it. */
  readonly chanceAhead: number;
  readonly sensitivity: UseSensitivity | null;
  readonly finding: string;
}

/** The gain as the use is dragged: its share of time above one speed, all else in proportion. */
export interface UseSensitivity {
  readonly aboveRpm: number;
  readonly shareNow: number;
  readonly points: readonly ({ readonly shareAbove: number } & Banded)[];
  /** Share of time at which neither is ahead; null: one is, whatever the share. */
  readonly evenShare: Banded | null;
}

export interface UseAnswer {
  readonly use: Use;
  /** Part of the use's weight inside the speeds that all builds were measured at. */
  readonly coverage: number;
  readonly builds: readonly { readonly name: string; readonly meanPowerW: Banded }[];
  /** Each later build against the first. */
  readonly pairs: readonly UsePair[];
  readonly warnings: readonly string[];
}

/**
 * Builds compared under a use, with 95 % intervals; what they have in common leaves their difference.
 * @param aboveRpm  speed about which the use is dragged; where not given, where the curves cross most, else the middle
 *   of the use
 * @throws InputError  less than half of the use lies inside the speeds that all builds were measured at
 */
export function answerUse(
  { curves, commonRpm }: DrawnCurves,
  use: Use,
  options: { readonly aboveRpm?: number } = {},
): UseAnswer {
  const isInside = ({ speedRpm }: UsePoint) =>
    speedRpm >= commonRpm[0] - 1e-6 && speedRpm <= commonRpm[1] + 1e-6;
  const weight = (points: readonly UsePoint[]) =>
    points.reduce((sum, { share, load }) => sum + share * load, 0);
  const coverage = weight(use.points.filter(isInside)) / weight(use.points);
  if (!(coverage >= LEAST_COVERAGE))
    throw new InputError(
      `Only ${Math.round(100 * coverage)} % of the use "${use.name}" lies inside the measured speeds (${Math.round(commonRpm[0])} to ${Math.round(commonRpm[1])} rev/min): these pulls cannot answer for it.`,
    );
  const inside = measuredPart(use, commonRpm).points;
  const builds = curves.map((curve) => ({
    name: curve.name,
    ...powerUnder(curve, inside),
  }));
  const warnings = [
    ...use.notes,
    ...(coverage < 0.95
      ? [
          `${Math.round(100 * (1 - coverage))} % of "${use.name}" lies outside the measured speeds and is left out.`,
        ]
      : []),
  ];
  return {
    use,
    coverage,
    builds: builds.map(({ name, middle, draws }) => ({
      name,
      meanPowerW: bandedOf(draws, middle),
    })),
    pairs: curves
      .slice(1)
      .map((curve, i) =>
        pairOf(curves[0]!, curve, builds[0]!, builds[i + 1]!, inside, use, options),
      ),
    warnings,
  };
}

/** A use with another share of its time above a speed, all else in proportion; itself where the speed parts nothing. */
export function draggedUse(use: Use, aboveRpm: number, shareAbove: number): Use {
  const now = shareAboveOf(use, aboveRpm);
  if (now <= 0 || now >= 1) return use;
  return {
    ...use,
    points: use.points.map((point) => ({
      ...point,
      share:
        point.speedRpm > aboveRpm
          ? (point.share * shareAbove) / now
          : (point.share * (1 - shareAbove)) / (1 - now),
    })),
  };
}

/** Part of a use's time above a speed. */
export function shareAboveOf({ points }: Use, aboveRpm: number): number {
  const time = (of: readonly UsePoint[]) => of.reduce((sum, { share }) => sum + share, 0);
  return time(points.filter(({ speedRpm }) => speedRpm > aboveRpm)) / time(points);
}

/** The part of a use that lies inside the measured speeds: what is answered for, and what is dragged. */
export const measuredPart = (use: Use, [from, to]: readonly [number, number]): Use => ({
  ...use,
  points: normalised(
    use.points.filter(({ speedRpm }) => speedRpm >= from - 1e-6 && speedRpm <= to + 1e-6),
  ),
});

/** Mean power [W] under points, as shown and by draw. */
function powerUnder(
  curve: DrawnCurve,
  points: readonly UsePoint[],
): { readonly middle: number; readonly draws: Float64Array } {
  const total = points.reduce((sum, { share, load }) => sum + share * load, 0);
  // By place on the curve's own grid, so that a draw costs one pass.
  const byPlace = new Float64Array(curve.speedRpm.length);
  for (const { speedRpm, share, load } of points) {
    const { i, part } = placeOn(curve.speedRpm, speedRpm);
    const weight = (share * load * speedRpm * RAD_PER_S_PER_RPM) / total;
    byPlace[i]! += (1 - part) * weight;
    byPlace[i + 1]! += part * weight;
  }
  const sumOf = (off: Float64Array | null) => {
    let sum = 0;
    for (let m = 0; m < byPlace.length; m++) {
      if (byPlace[m] === 0) continue;
      sum += byPlace[m]! * curve.torqueNm[m]! * (off === null ? 1 : Math.exp(off[m]!));
    }
    return sum;
  };
  return { middle: sumOf(null), draws: Float64Array.from(curve.logOff, sumOf) };
}

interface Powered {
  readonly name: string;
  readonly middle: number;
  readonly draws: Float64Array;
}

function pairOf(
  curveA: DrawnCurve,
  curveB: DrawnCurve,
  a: Powered,
  b: Powered,
  points: readonly UsePoint[],
  use: Use,
  options: { readonly aboveRpm?: number },
): UsePair {
  const percent = (after: number, before: number) => 100 * (after / before - 1);
  const gains = a.draws.map((value, i) => percent(b.draws[i]!, value));
  const gainPercent = bandedOf(gains, percent(b.middle, a.middle));
  const ahead = gains.reduce((count, gain) => count + (gain > 0 ? 1 : gain === 0 ? 0.5 : 0), 0);
  const pair = {
    a: a.name,
    b: b.name,
    gainPercent,
    word: wordOf(gainPercent),
    chanceAhead: ahead / gains.length,
    sensitivity: sensitivityOf(
      curveA,
      curveB,
      points,
      options.aboveRpm ?? 50 * Math.round(turningSpeed(curveA, curveB, points) / 50),
    ),
  };
  return { ...pair, finding: findingUnderUse(use, pair, a.middle, b.middle) };
}

function wordOf({ value, low, high }: Banded): GainWord {
  if (high < 0) return 'loss';
  if (low <= 0) return 'cannot be told from chance';
  return value >= WORTH_PERCENT ? 'real' : 'small';
}

/** Where the curves cross inside the use, else the middle of its time [rev/min]. */
function turningSpeed(a: DrawnCurve, b: DrawnCurve, points: readonly UsePoint[]): number {
  const difference = ({ speedRpm }: UsePoint) => torqueAt(b, speedRpm) - torqueAt(a, speedRpm);
  const signs = points.map((point) => Math.sign(difference(point)));
  // The crossing that parts the use best: most time on its smaller side.
  let best: { speedRpm: number; least: number } | null = null;
  let below = 0;
  for (let i = 1; i < points.length; i++) {
    below += points[i - 1]!.share;
    if (signs[i] === signs[i - 1] || signs[i] === 0) continue;
    const least = Math.min(below, 1 - below);
    if (best === null || least > best.least)
      best = { speedRpm: (points[i]!.speedRpm + points[i - 1]!.speedRpm) / 2, least };
  }
  if (best !== null) return best.speedRpm;
  const half = points.reduce((sum, { share }) => sum + share, 0) / 2;
  let time = 0;
  for (const { speedRpm, share } of points) {
    time += share;
    if (time >= half) return speedRpm;
  }
  return points.at(-1)!.speedRpm;
}

function torqueAt(curve: DrawnCurve, speedRpm: number): number {
  const { i, part } = placeOn(curve.speedRpm, speedRpm);
  return curve.torqueNm[i]! + part * (curve.torqueNm[i + 1]! - curve.torqueNm[i]!);
}

/** Null: the speed parts nothing, as of a use all on one side of it. */
function sensitivityOf(
  a: DrawnCurve,
  b: DrawnCurve,
  points: readonly UsePoint[],
  aboveRpm: number,
): UseSensitivity | null {
  const sides = [false, true].map((isAbove) =>
    points.filter(({ speedRpm }) => speedRpm > aboveRpm === isAbove),
  );
  if (sides.some((side) => side.length === 0)) return null;
  const time = (side: readonly UsePoint[]) => side.reduce((sum, { share }) => sum + share, 0);
  const asked = (side: readonly UsePoint[]) =>
    side.reduce((sum, { share, load }) => sum + share * load, 0);
  const [below, above] = sides.map((side) => ({
    // Weight that a unit of time on this side carries.
    loadOfTime: asked(side) / time(side),
    a: powerUnder(a, side),
    b: powerUnder(b, side),
  })) as [SideOfUse, SideOfUse];
  const gainAt = (share: number, read: (power: ReturnType<typeof powerUnder>) => number) => {
    const [high, low] = [share * above.loadOfTime, (1 - share) * below.loadOfTime];
    const mean = (side: 'a' | 'b') => high * read(above[side]) + low * read(below[side]);
    return 100 * (mean('b') / mean('a') - 1);
  };
  const draws = a.logOff.length;
  const shares = Array.from({ length: SHARES }, (_, i) => i / (SHARES - 1));
  const even = (read: (power: ReturnType<typeof powerUnder>) => number) => {
    const high = above.loadOfTime * (read(above.b) - read(above.a));
    const low = below.loadOfTime * (read(below.b) - read(below.a));
    return high * low < 0 ? low / (low - high) : null;
  };
  const evenNow = even(({ middle }) => middle);
  return {
    aboveRpm,
    shareNow: time(sides[1]!) / time(points),
    points: shares.map((shareAbove) => ({
      shareAbove,
      ...bandedOf(
        Float64Array.from({ length: draws }, (_, i) => gainAt(shareAbove, (one) => one.draws[i]!)),
        gainAt(shareAbove, ({ middle }) => middle),
      ),
    })),
    evenShare: evenNow === null ? null : evenBand(draws, evenNow, even),
  };
}

interface SideOfUse {
  readonly loadOfTime: number;
  readonly a: ReturnType<typeof powerUnder>;
  readonly b: ReturnType<typeof powerUnder>;
}

/** Draws in which one is ahead whatever the share stand at the end where the other was nearest. */
function evenBand(
  draws: number,
  middle: number,
  even: (read: (power: ReturnType<typeof powerUnder>) => number) => number | null,
): Banded {
  const places = Float64Array.from({ length: draws }, (_, i) => {
    const place = even((one) => one.draws[i]!);
    return place ?? (middle < 0.5 ? 0 : 1);
  });
  return bandedOf(places, middle);
}

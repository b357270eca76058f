import type { Banded } from '../pull/types.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import type { DrawnGroup, GroupCurves } from './curves.ts';
import { contrastQuantile, only, TAIL } from './means.ts';
import { GRID } from './shapes.ts';
import { type Top, topReader } from './top.ts';
import type { GroupCurve, GroupMeasures, GroupPeak } from './types.ts';

/** The useful width is where at least this part of the peak is there (the trade's own figure, common practice). */
const USEFUL = 0.9;

/** Value and central 95 % of equally likely numbers. */
export function bandedOf(values: ArrayLike<number>, value?: number): Banded {
  const sorted = Float64Array.from(values).sort();
  const at = (p: number) => {
    const place = (sorted.length - 1) * p;
    const i = Math.floor(place);
    const next = sorted[Math.min(sorted.length - 1, i + 1)]!;
    return sorted[i]! + (place - i) * (next - sorted[i]!);
  };
  return { value: value ?? at(0.5), low: at(TAIL), high: at(1 - TAIL) };
}

/** What is read off a curve whatever its level: speeds [rev/min], and peaks as parts of the level [N·m, W]. */
export interface Tops {
  readonly torque: Top;
  readonly power: Top;
  readonly torqueWidth: number;
  readonly powerWidth: number;
}

/**
 * Reads curves of one group, one after the other.
 * @param middle  the group's most likely torque by speed: where its tops are looked for
 * @returns  a reader of torque by speed; a level in it goes on into the peaks
 */
export function topsOf(
  speedRpm: readonly number[],
  middle: Float64Array,
): (torque: Float64Array) => Tops {
  const toPower = Float64Array.from(speedRpm, (speed) => speed * RAD_PER_S_PER_RPM);
  const power = middle.map((value, m) => value * toPower[m]!);
  const torqueTop = topReader(speedRpm, middle);
  const powerTop = topReader(speedRpm, power);
  return (torque) => {
    for (let m = 0; m < GRID; m++) power[m] = torque[m]! * toPower[m]!;
    return {
      torque: torqueTop(torque),
      power: powerTop(power),
      torqueWidth: widthOf(speedRpm, torque),
      powerWidth: widthOf(speedRpm, power),
    };
  };
}

function highest(y: Float64Array): number {
  let top = 0;
  for (let m = 1; m < y.length; m++) if (y[m]! > y[top]!) top = m;
  return top;
}

/** Span about the top where the curve holds USEFUL of it, edges by straight lines. */
function widthOf(x: readonly number[], y: Float64Array): number {
  const top = highest(y);
  const least = USEFUL * y[top]!;
  const edge = (step: -1 | 1) => {
    let m = top;
    while (m + step >= 0 && m + step < y.length && y[m + step]! >= least) m += step;
    const next = m + step;
    if (next < 0 || next >= y.length) return x[m]!;
    return x[m]! + ((y[m]! - least) / (y[m]! - y[next]!)) * (x[next]! - x[m]!);
  };
  return edge(1) - edge(-1);
}

/** The width reaches the end of the sweep: the true one may be larger. */
function isCut(y: Float64Array): boolean {
  const least = USEFUL * y[highest(y)]!;
  return y[0]! >= least || y.at(-1)! >= least;
}

/** Mean and flatness of torque over the band, at the level of the shape. */
function overBand({ bandWeight }: GroupCurves, torque: Float64Array, at: number) {
  let mean = 0;
  let least = Infinity;
  let most = 0;
  for (let m = 0; m < GRID; m++) {
    const weight = bandWeight[m]!;
    if (weight === 0) continue;
    const value = torque[at + m]!;
    mean += weight * value;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { mean, flatness: least / most };
}

/** What stands on a draw's level or on the band, by draw. */
export interface Figures {
  readonly power: Float64Array;
  readonly torque: Float64Array;
  readonly meanTorque: Float64Array;
  readonly flatness: Float64Array;
}

export function figuresOf(curves: GroupCurves, { shape, shift }: DrawnGroup): Figures {
  const scale = shift.map(Math.exp);
  const drawn = shape.drawTops.map((_, i) => overBand(curves, shape.torque, i * GRID));
  return {
    power: scale.map((value, i) => value * shape.drawTops[i]!.power.value),
    torque: scale.map((value, i) => value * shape.drawTops[i]!.torque.value),
    meanTorque: scale.map((value, i) => value * drawn[i]!.mean),
    flatness: Float64Array.from(drawn, ({ flatness }) => flatness),
  };
}

/** What one group's mean curve is like, with its intervals. */
export function measuresOf(
  name: string,
  counts: { readonly pulls: number; readonly days: number },
  curve: GroupCurve,
  curves: GroupCurves,
  group: number,
  figures: Figures,
): GroupMeasures {
  const { shape, middle, middleShift } = curves.groups[group]!;
  const { middleTops, drawTops } = shape;
  const scale = Math.exp(middleShift);
  const torque = middle.map(Math.exp);
  const power = torque.map((value, m) => value * curves.speedRpm[m]!);
  const own = overBand(curves, torque, 0);
  const banded = (read: (tops: Tops) => number) => bandedOf(drawTops.map(read), read(middleTops));
  const peak = (values: Float64Array, read: (tops: Tops) => Top): GroupPeak => {
    const { value, speed } = read(middleTops);
    return {
      value: bandedOf(values, scale * value),
      speedRpm: banded((tops) => read(tops).speed),
      atEdge: speed <= curves.speedRpm[0]! || speed >= curves.speedRpm.at(-1)!,
    };
  };
  const contrast = only(group, curves.parts);
  const meanPower = (p: number) => Math.exp(contrastQuantile(curves.parts, contrast, p));
  return {
    name,
    ...counts,
    meanPowerW: { value: meanPower(0.5), low: meanPower(TAIL), high: meanPower(1 - TAIL) },
    meanTorqueNm: bandedOf(figures.meanTorque, own.mean),
    peakTorqueNm: peak(figures.torque, (tops) => tops.torque),
    peakPowerW: peak(figures.power, (tops) => tops.power),
    torqueWidthRpm: isCut(torque) ? null : banded((tops) => tops.torqueWidth),
    powerWidthRpm: isCut(power) ? null : banded((tops) => tops.powerWidth),
    flatness: bandedOf(figures.flatness, own.flatness),
    powerPerTorqueRadPerS: banded((tops) => tops.power.value / tops.torque.value),
    curve,
  };
}

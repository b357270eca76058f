import type { Banded } from '../pull/types.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import type { GroupCurves } from './curves.ts';
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
  return { value: value ?? at(0.5), low: at(0.025), high: at(0.975) };
}

/** What is read off one curve; speeds in rev/min, torque in N·m, power in W. */
interface CurveFigures {
  readonly meanPower: number;
  readonly meanTorque: number;
  readonly peakTorque: { readonly value: number; readonly speed: number };
  readonly peakPower: { readonly value: number; readonly speed: number };
  readonly torqueWidth: number;
  readonly powerWidth: number;
  readonly flatness: number;
}

/** Top of a sampled curve, between samples by the parabola through the three highest. */
function topOf(x: readonly number[], y: Float64Array): { value: number; speed: number } {
  let i = 0;
  for (let m = 1; m < y.length; m++) if (y[m]! > y[i]!) i = m;
  if (i === 0 || i === y.length - 1) return { value: y[i]!, speed: x[i]! };
  const [a, b, c] = [y[i - 1]!, y[i]!, y[i + 1]!];
  const bend = a - 2 * b + c;
  const shift = bend < 0 ? (0.5 * (a - c)) / bend : 0;
  return { value: b - 0.25 * (a - c) * shift, speed: x[i]! + shift * (x[1]! - x[0]!) };
}

/** Span about the top where the curve holds USEFUL of it, edges by straight lines. */
function widthOf(x: readonly number[], y: Float64Array): number {
  let top = 0;
  for (let m = 1; m < y.length; m++) if (y[m]! > y[top]!) top = m;
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
  const top = y.reduce((most, value) => Math.max(most, value), 0);
  return y[0]! >= USEFUL * top || y.at(-1)! >= USEFUL * top;
}

function figuresOf(
  speedRpm: readonly number[],
  bandRpm: readonly [number, number],
  logTorque: Float64Array,
): CurveFigures {
  const torque = logTorque.map(Math.exp);
  const power = torque.map((value, m) => value * speedRpm[m]! * RAD_PER_S_PER_RPM);
  let [sumPower, sumTorque, sumWeight, least, most] = [0, 0, 0, Infinity, 0];
  for (let m = 0; m < torque.length; m++) {
    const speed = speedRpm[m]!;
    if (speed < bandRpm[0] - 1e-9 || speed > bandRpm[1] + 1e-9) continue;
    const edge = m === 0 || m === torque.length - 1 ? 0.5 : 1;
    sumPower += edge * power[m]!;
    sumTorque += edge * torque[m]!;
    sumWeight += edge;
    least = Math.min(least, torque[m]!);
    most = Math.max(most, torque[m]!);
  }
  return {
    meanPower: sumPower / sumWeight,
    meanTorque: sumTorque / sumWeight,
    peakTorque: topOf(speedRpm, torque),
    peakPower: topOf(speedRpm, power),
    torqueWidth: widthOf(speedRpm, torque),
    powerWidth: widthOf(speedRpm, power),
    flatness: least / most,
  };
}

/** Figures of each group in each draw, by group and draw. */
export function figuresByDraw(curves: GroupCurves): CurveFigures[][] {
  return curves.middle.map((_, g) =>
    curves.draws.map((draw) => figuresOf(curves.speedRpm, curves.bandRpm, draw[g]!)),
  );
}

export type Figures = ReturnType<typeof figuresByDraw>;

/** What one group's mean curve is like, with its intervals. */
export function measuresOf(
  name: string,
  counts: { readonly pulls: number; readonly days: number },
  curve: GroupCurve,
  curves: GroupCurves,
  group: number,
  figures: Figures,
): GroupMeasures {
  const own = figures[group]!;
  const middle = figuresOf(curves.speedRpm, curves.bandRpm, curves.middle[group]!);
  const torque = curves.middle[group]!.map(Math.exp);
  const power = torque.map((value, m) => value * curves.speedRpm[m]!);
  const banded = (read: (figure: CurveFigures) => number) => bandedOf(own.map(read), read(middle));
  const peak = (read: (figure: CurveFigures) => { value: number; speed: number }): GroupPeak => {
    const { speed } = read(middle);
    return {
      value: banded((figure) => read(figure).value),
      speedRpm: banded((figure) => read(figure).speed),
      atEdge: speed <= curves.speedRpm[0]! || speed >= curves.speedRpm.at(-1)!,
    };
  };
  return {
    name,
    ...counts,
    curve,
    meanPowerW: banded((figure) => figure.meanPower),
    meanTorqueNm: banded((figure) => figure.meanTorque),
    peakTorqueNm: peak((figure) => figure.peakTorque),
    peakPowerW: peak((figure) => figure.peakPower),
    torqueWidthRpm: isCut(torque) ? null : banded((figure) => figure.torqueWidth),
    powerWidthRpm: isCut(power) ? null : banded((figure) => figure.powerWidth),
    flatness: banded((figure) => figure.flatness),
    powerPerTorqueRadPerS: banded((figure) => figure.peakPower.value / figure.peakTorque.value),
  };
}

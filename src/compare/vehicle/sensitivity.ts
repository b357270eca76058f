import type { DrawnCurve } from '../drawn.ts';
import { engineOf } from './engine.ts';
import { type FiguredRun, figuredRun } from './figures.ts';
import { timeAtDistance } from './marks.ts';
import type { Vehicle } from './types.ts';

/*
 * How the figures of a run follow the curve. With hats h_k over the speeds, each figure is to first order
 *
 *   f(T e^u) = f(T) + Σ_k g_k u_k,   u(s) = Σ_k u_k h_k(s),
 *
 * g_k by one run each with the curve lifted by a hat. The draws of the curve are then draws of every figure, and what
 * two builds have in common in a draw leaves their difference. Shift speeds stay where the curve as shown puts them: at
 * the best ones the first order does not feel them.
 */

/** Hats over the measured speeds. */
const HATS = 12;
/** By how much a hat lifts the torque. */
const LIFT = 0.01;

/** A run with each figure's draws; null: not reached. */
export interface DrawnRun extends FiguredRun {
  readonly draws: readonly (Float64Array | null)[];
  /** Time [s] at a distance from the start with its draws; null: not reached. */
  readonly timeAt: (
    distanceM: number,
  ) => { readonly value: number; readonly draws: Float64Array } | null;
}

export const engineOfCurve = ({ speedRpm, torqueNm }: DrawnCurve) =>
  engineOf({ fromRpm: speedRpm[0]!, toRpm: speedRpm.at(-1)!, torqueNm });

/** @throws InputError  the vehicle cannot move */
export function drawnRun(vehicle: Vehicle, curve: DrawnCurve): DrawnRun {
  const base = figuredRun(vehicle, engineOfCurve(curve));
  const { shifts } = base.run;
  const points = curve.speedRpm.length;
  const hats = Array.from({ length: HATS }, (_, k) =>
    Float64Array.from({ length: points }, (_, m) =>
      Math.max(0, 1 - Math.abs((m * (HATS - 1)) / (points - 1) - k)),
    ),
  );
  const lifted = hats.map((hat) => {
    const torqueNm = curve.torqueNm.map((torque, m) => torque * (1 + LIFT * hat[m]!));
    return figuredRun(vehicle, engineOfCurve({ ...curve, torqueNm }), { shifts });
  });
  // What a draw is off by under each hat, on the mean.
  const weights = hats.map((hat) => {
    const sum = hat.reduce((total, value) => total + value, 0);
    return hat.map((value) => value / sum);
  });
  const offs = curve.logOff.map((draw) =>
    weights.map((weight) => weight.reduce((sum, value, m) => sum + value * draw[m]!, 0)),
  );
  const drawsOf = (value: number, read: (run: FiguredRun) => number | null) => {
    const slopes = lifted.map((run) => ((read(run) ?? value) - value) / LIFT);
    return Float64Array.from(offs, (off) =>
      off.reduce((sum, one, k) => sum + one * slopes[k]!, value),
    );
  };
  return {
    ...base,
    draws: base.values.map((value, f) =>
      value === null ? null : drawsOf(value, ({ values }) => values[f]!),
    ),
    timeAt: (distanceM) => {
      const value = timeAtDistance(base.run, distanceM);
      if (value === null) return null;
      return { value, draws: drawsOf(value, ({ run }) => timeAtDistance(run, distanceM)) };
    },
  };
}

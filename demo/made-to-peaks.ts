import { trueTorqueNm } from './engine.ts';
import { type DayOptions, knobsOf } from './knobs.ts';

interface PeakRung {
  readonly leadDeg: number;
  readonly peakPowerW: number;
}

/**
 * Options of a day whose pulls have these peaks of power in standard air: the best lead and curvature come
 * from a least-squares parabola through the logs, and what is left becomes each pull's own offset. Both
 * simulations take them; the cell's wander and noise stay as drawn, its calibration is right.
 *
 * At least three rungs, and peaks that bend down. The peaks fix the best lead at the speed of peak power only:
 * give `engine.bestLeadSlopeDegPerKrpm: 0` where the whole band is to have that best.
 */
export function dayMadeToPeaks(rungs: readonly PeakRung[], options: DayOptions): DayOptions {
  const wanted = parabolaOfLogs(rungs);
  let shaped: DayOptions = options;
  let knobs = knobsOf(options);
  let peaksW: number[] = [];
  let { bestDeg, curvature } = wanted;
  // The parabola through the engine's own peaks is moved onto the wanted one; it settles in two or three rounds.
  for (let round = 0; round < 4; round++) {
    shaped = {
      ...options,
      calibrationPercent: 0,
      leadsDeg: rungs.map((rung) => rung.leadDeg),
      engine: { ...options.engine, bestLeadDeg: bestDeg, curvature },
    };
    knobs = knobsOf(shaped);
    peaksW = rungs.map((rung) => peakPowerW(knobs, rung.leadDeg));
    const got = parabolaOfLogs(
      rungs.map((rung, i) => ({ leadDeg: rung.leadDeg, peakPowerW: peaksW[i]! })),
    );
    bestDeg += wanted.bestDeg - got.bestDeg;
    curvature *= wanted.curvature / got.curvature;
  }
  const logs = rungs.map((rung, i) => Math.log(rung.peakPowerW / peaksW[i]!));
  const scale = Math.exp(logs.reduce((a, b) => a + b, 0) / logs.length);
  return {
    ...shaped,
    engine: { ...knobs.engine, peakBmepPa: knobs.engine.peakBmepPa * scale },
    offsetsPercent: rungs.map((rung, i) => 100 * (rung.peakPowerW / (peaksW[i]! * scale) - 1)),
  };
}

function peakPowerW(knobs: ReturnType<typeof knobsOf>, leadDeg: number): number {
  let peak = 0;
  for (let rpm = knobs.fromRpm; rpm <= knobs.toRpm; rpm += 5) {
    peak = Math.max(peak, (trueTorqueNm(knobs.engine, rpm, leadDeg) * rpm * Math.PI) / 30);
  }
  return peak;
}

/** Least squares for log P = a + b·x + c·x² about the mean lead; c must come out below zero. */
function parabolaOfLogs(rungs: readonly PeakRung[]): { bestDeg: number; curvature: number } {
  const mean = rungs.reduce((sum, rung) => sum + rung.leadDeg, 0) / rungs.length;
  const s = [0, 0, 0, 0, 0];
  const t = [0, 0, 0];
  for (const rung of rungs) {
    const x = rung.leadDeg - mean;
    const y = Math.log(rung.peakPowerW);
    for (let p = 0; p <= 4; p++) s[p]! += x ** p;
    for (let p = 0; p <= 2; p++) t[p]! += y * x ** p;
  }
  const det3 = (m: readonly (readonly number[])[]) => {
    const [[a, b, c], [d, e, f], [g, h, i]] = m as [number[], number[], number[]];
    return a! * (e! * i! - f! * h!) - b! * (d! * i! - f! * g!) + c! * (d! * h! - e! * g!);
  };
  const rows = [
    [s[0]!, s[1]!, s[2]!],
    [s[1]!, s[2]!, s[3]!],
    [s[2]!, s[3]!, s[4]!],
  ];
  const det = det3(rows);
  const solve = (k: number) =>
    det3(rows.map((row, r) => row.map((value, c) => (c === k ? t[r]! : value)))) / det;
  const [b, c] = [solve(1), solve(2)];
  return { bestDeg: mean - b / (2 * c), curvature: -c };
}

import type { Run, RunPiece } from './run.ts';
import { rootOf, type Step } from './solve.ts';

const FT_M = 0.3048;
const MPH_M_PER_S = (5280 * FT_M) / 3600;
const KMH_M_PER_S = 1 / 3.6;

/** The common distances; the names are what they are called. */
export const DISTANCES = [
  { id: '60ft', name: '60 ft', distanceM: 60 * FT_M },
  { id: '330ft', name: '330 ft', distanceM: 330 * FT_M },
  { id: 'eighthMile', name: '1/8 mile', distanceM: 660 * FT_M },
  { id: '1000ft', name: '1000 ft', distanceM: 1000 * FT_M },
  { id: 'quarterMile', name: '1/4 mile', distanceM: 1320 * FT_M },
  { id: '1km', name: '1 km', distanceM: 1000 },
] as const;
export type DistanceId = (typeof DISTANCES)[number]['id'];

/** The common stretches of speed. */
export const SPEED_STRETCHES = [
  { id: '0-60mph', name: '0 to 60 mph', from: 0, to: 60 * MPH_M_PER_S },
  { id: '0-100kmh', name: '0 to 100 km/h', from: 0, to: 100 * KMH_M_PER_S },
  { id: '0-100mph', name: '0 to 100 mph', from: 0, to: 100 * MPH_M_PER_S },
  { id: '0-200kmh', name: '0 to 200 km/h', from: 0, to: 200 * KMH_M_PER_S },
  { id: '60-130mph', name: '60 to 130 mph', from: 60 * MPH_M_PER_S, to: 130 * MPH_M_PER_S },
  { id: '100-200kmh', name: '100 to 200 km/h', from: 100 * KMH_M_PER_S, to: 200 * KMH_M_PER_S },
] as const;
export type StretchId = (typeof SPEED_STRETCHES)[number]['id'];

/** Trap speed is the mean over this last part of a strip (common practice, no source). */
export const TRAP_M = 66 * FT_M;

/** Reads times off a run. Null: not reached in it. */
export interface Marks {
  readonly distance: Readonly<
    Record<
      DistanceId,
      {
        /** From the end of the rollout. */
        readonly timeS: number | null;
        /** At the line. */
        readonly speedMPerS: number | null;
        /** Mean over the last 66 ft; null where the distance is shorter than an eighth of a mile. */
        readonly trapMPerS: number | null;
      }
    >
  >;
  readonly stretch: Readonly<Record<StretchId, number | null>>;
}

/** Distance times, trap speeds and acceleration times of a run. */
export function marksOf(run: Run): Marks {
  const { rolloutM } = run.vehicle;
  const started = rolloutM > 0 ? (timeAtDistance(run, rolloutM) ?? 0) : 0;
  const distance = DISTANCES.map(({ id, distanceM }) => {
    const timeS = timeAtDistance(run, distanceM + rolloutM);
    if (timeS === null) return [id, { timeS, speedMPerS: null, trapMPerS: null }] as const;
    const trap = distanceM > 200 ? timeAtDistance(run, distanceM + rolloutM - TRAP_M) : null;
    return [
      id,
      {
        timeS: timeS - started,
        speedMPerS: run.at(timeS).speedMPerS,
        trapMPerS: trap === null ? null : TRAP_M / (timeS - trap),
      },
    ] as const;
  });
  const stretch = SPEED_STRETCHES.map(({ id, from, to }) => {
    const begin = from === 0 ? 0 : timeAtSpeed(run, from);
    const end = timeAtSpeed(run, to);
    return [id, begin === null || end === null ? null : end - begin] as const;
  });
  return {
    distance: Object.fromEntries(distance) as unknown as Marks['distance'],
    stretch: Object.fromEntries(stretch) as unknown as Marks['stretch'],
  };
}

export const timeAtDistance = (run: Run, distanceM: number): number | null =>
  firstTime(run, 1, distanceM);
export const timeAtSpeed = (run: Run, speedMPerS: number): number | null =>
  firstTime(run, 0, speedMPerS);

/** First time at which a part of the state reaches a value, found on the dense output. */
function firstTime(run: Run, which: 0 | 1, value: number): number | null {
  if (value <= 0) return 0;
  for (const { steps } of run.pieces)
    for (const step of steps) {
      const end = step.end[which]! - value;
      // The end of a run stands on its last distance to rounding.
      if (end < -1e-7) continue;
      if (end <= 0) return step.toS;
      const off = (timeS: number) => step.at(timeS)[which]! - value;
      const begin = off(step.fromS);
      return begin >= 0 ? step.fromS : rootOf(off, step.fromS, step.toS, begin, end);
    }
  return null;
}

const PER_STEP = 6;

/** Places of a step and how long each stands for: midpoints, so that the sum is the step's time. */
function places(step: Step): { timeS: number; forS: number }[] {
  const forS = (step.toS - step.fromS) / PER_STEP;
  return Array.from({ length: PER_STEP }, (_, i) => ({
    timeS: step.fromS + (i + 0.5) * forS,
    forS,
  }));
}

/** Time that a run stands in each stretch of engine speeds while the engine drives, by share of the whole. */
export interface TimeAtSpeed {
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly share: number;
}

export interface TimeShare {
  readonly bins: readonly TimeAtSpeed[];
  /** Share of the time in which a shift breaks the drive. */
  readonly shiftingShare: number;
  /** Share of the time below the lowest measured speed, where the curve is held level. */
  readonly belowMeasuredShare: number;
}

/** Time share by engine speed up to a distance, in bins of a width. */
export function timeShare(run: Run, untilM: number, widthRpm = 250): TimeShare {
  const until = timeAtDistance(run, untilM) ?? run.timeS;
  const time = new Map<number, number>();
  let [whole, shifting, below] = [0, 0, 0];
  eachPlace(run, (piece, timeS, forS) => {
    if (timeS > until) return;
    whole += forS;
    if (piece.phase === 'shifting') {
      shifting += forS;
      return;
    }
    const { engineRpm } = run.at(timeS);
    if (engineRpm < run.engine.fromRpm - 1) below += forS;
    const bin = Math.floor(engineRpm / widthRpm);
    time.set(bin, (time.get(bin) ?? 0) + forS);
  });
  return {
    bins: [...time.entries()]
      .sort(([a], [b]) => a - b)
      .map(([bin, forS]) => ({
        fromRpm: bin * widthRpm,
        toRpm: (bin + 1) * widthRpm,
        share: forS / whole,
      })),
    shiftingShare: shifting / whole,
    belowMeasuredShare: below / whole,
  };
}

function eachPlace(run: Run, act: (piece: RunPiece, timeS: number, forS: number) => void): void {
  for (const piece of run.pieces)
    for (const step of piece.steps)
      for (const { timeS, forS } of places(step)) act(piece, timeS, forS);
}

/** A run at even times, for a chart. */
export function traceOf(
  run: Run,
  points = 160,
): readonly (ReturnType<Run['at']> & { timeS: number })[] {
  return Array.from({ length: points }, (_, i) => {
    const timeS = (run.timeS * i) / (points - 1);
    return { timeS, ...run.at(timeS) };
  });
}

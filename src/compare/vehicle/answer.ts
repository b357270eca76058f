import type { Banded } from '../../pull/types.ts';
import type { DrawnCurve, DrawnCurves } from '../drawn.ts';
import { bandedOf } from '../measures.ts';
import { FIGURES, type FigureKind, type GoalId } from './figures.ts';
import { DISTANCES, type TimeShare, timeShare } from './marks.ts';
import { type DrawnRun, drawnRun } from './sensitivity.ts';
import { ROAD_CAUTION, runFinding, runSentence, runWarnings } from './sentences.ts';
import type { ShiftPoint, TopSpeed } from './shifts.ts';
import { topSpeed } from './shifts.ts';
import type { Vehicle } from './types.ts';

export interface RunFigure extends FigureKind {
  /** Null: not reached within a kilometre. */
  readonly value: Banded | null;
}

/** One build in the vehicle. */
export interface BuildRun {
  readonly name: string;
  readonly drawn: DrawnRun;
  readonly figures: readonly RunFigure[];
  readonly topSpeed: TopSpeed | null;
  readonly shifts: readonly ShiftPoint[];
  /** Up to a quarter of a mile. */
  readonly timeShare: TimeShare;
}

/** How b differs from a: b − a. */
export interface RunDifference extends FigureKind {
  readonly value: Banded;
  /** Chance that b is quicker, or faster. */
  readonly chanceBetter: number;
}

export interface RunPair {
  readonly a: string;
  readonly b: string;
  readonly differences: readonly (RunDifference | (FigureKind & { readonly value: null }))[];
  readonly finding: string;
}

export interface VehicleAnswer {
  readonly vehicle: Vehicle;
  readonly builds: readonly BuildRun[];
  /** Each later build against the first. */
  readonly pairs: readonly RunPair[];
  /** What is to be told: of each pair, or of the only build. */
  readonly finding: string;
  readonly warnings: readonly string[];
}

const QUARTER_M = DISTANCES.find(({ id }) => id === 'quarterMile')!.distanceM;

/**
 * What a vehicle does with each build, and how they differ, with 95 % intervals from the curves' own uncertainty. What
 * is not known of the vehicle is in no interval; it is alike for all builds and nearly leaves their differences.
 * @param goal  the time that findings speak of
 * @throws InputError  the vehicle cannot move away with one of the curves
 */
export function answerVehicle(
  vehicle: Vehicle,
  { curves }: Pick<DrawnCurves, 'curves'>,
  goal: GoalId = 'quarterMile',
): VehicleAnswer {
  const builds = curves.map((curve) => buildRun(vehicle, curve));
  const pairs = builds.slice(1).map((build) => pairOf(vehicle, builds[0]!, build, goal));
  const said =
    pairs.length === 0
      ? [runSentence(vehicle, builds[0]!, goal)]
      : pairs.map(({ finding }) => finding);
  return {
    vehicle,
    builds,
    pairs,
    // The caution is said once, at the end.
    finding: `${said.map((one) => one.replace(` ${ROAD_CAUTION}`, '')).join(' ')} ${ROAD_CAUTION}`,
    warnings: runWarnings(vehicle, builds),
  };
}

function buildRun(vehicle: Vehicle, curve: DrawnCurve): BuildRun {
  const drawn = drawnRun(vehicle, curve);
  return {
    name: curve.name,
    drawn,
    figures: FIGURES.map((figure, f) => ({
      ...figure,
      value: drawn.values[f] === null ? null : bandedOf(drawn.draws[f]!, drawn.values[f]!),
    })),
    topSpeed: topSpeed(vehicle, drawn.run.engine),
    shifts: drawn.run.shifts,
    timeShare: timeShare(drawn.run, QUARTER_M),
  };
}

function pairOf(vehicle: Vehicle, a: BuildRun, b: BuildRun, goal: GoalId): RunPair {
  const differences = FIGURES.map((figure, f) => {
    const [first, second] = [a.drawn.draws[f], b.drawn.draws[f]];
    return first == null || second == null
      ? { ...figure, value: null }
      : {
          ...figure,
          ...differenceOf(first, second, b.drawn.values[f]! - a.drawn.values[f]!, figure.kind),
        };
  });
  const pair = { a: a.name, b: b.name, differences };
  return { ...pair, finding: runFinding(vehicle, a, b, pair, goal) };
}

/** b − a with its 95 % interval and the chance that b is better: less time, or more speed. */
export function differenceOf(
  a: Float64Array,
  b: Float64Array,
  middle: number,
  kind: FigureKind['kind'],
): { readonly value: Banded; readonly chanceBetter: number } {
  const off = a.map((value, i) => b[i]! - value);
  const better = off.reduce((count, value) => {
    if (value === 0) return count + 0.5;
    return count + (value < 0 === (kind === 'time') ? 1 : 0);
  }, 0);
  return { value: bandedOf(off, middle), chanceBetter: better / off.length };
}

/** By how much b is behind a [s] at distances from the start, with its 95 % interval; null: not reached by both. */
export function behindAt(
  a: DrawnRun,
  b: DrawnRun,
  distancesM: readonly number[],
): readonly (Banded | null)[] {
  return distancesM.map((distanceM) => {
    const [first, second] = [a.timeAt(distanceM), b.timeAt(distanceM)];
    if (first === null || second === null) return null;
    return differenceOf(first.draws, second.draws, second.value - first.value, 'time').value;
  });
}

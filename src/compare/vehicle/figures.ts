import type { Engine } from './engine.ts';
import { DISTANCES, type DistanceId, marksOf, SPEED_STRETCHES, type StretchId } from './marks.ts';
import { type Run, type RunOptions, runVehicle } from './run.ts';
import { topSpeed } from './shifts.ts';
import type { Vehicle } from './types.ts';

/** One figure of a run: a time [s] or a speed [m/s]. */
export interface FigureKind {
  readonly id: string;
  readonly name: string;
  readonly kind: 'time' | 'speed';
}

const withTrap = DISTANCES.filter(({ distanceM }) => distanceM > 200);

/** All that is read off a run, in the order in which it is shown. */
export const FIGURES: readonly FigureKind[] = [
  ...SPEED_STRETCHES.map(({ id, name }) => ({ id, name, kind: 'time' as const })),
  ...DISTANCES.map(({ id, name }) => ({ id, name, kind: 'time' as const })),
  ...withTrap.map(({ id, name }) => ({
    id: `${id}Trap`,
    name: `trap speed, ${name}`,
    kind: 'speed' as const,
  })),
  { id: 'topSpeed', name: 'top speed', kind: 'speed' },
];

export type GoalId = DistanceId | StretchId;
export const isGoal = (id: string): id is GoalId =>
  FIGURES.some((figure) => figure.id === id && figure.kind === 'time');

/** A run and its figures in the order of FIGURES; null: not reached. */
export interface FiguredRun {
  readonly run: Run;
  readonly values: readonly (number | null)[];
}

/** @throws InputError  the vehicle cannot move */
export function figuredRun(vehicle: Vehicle, engine: Engine, options: RunOptions = {}): FiguredRun {
  const run = runVehicle(vehicle, engine, options);
  const marks = marksOf(run);
  return {
    run,
    values: [
      ...SPEED_STRETCHES.map(({ id }) => marks.stretch[id]),
      ...DISTANCES.map(({ id }) => marks.distance[id].timeS),
      ...withTrap.map(({ id }) => marks.distance[id].trapMPerS),
      topSpeed(vehicle, engine)?.speedMPerS ?? null,
    ],
  };
}

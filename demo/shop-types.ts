import type {
  NewBuild,
  NewCell,
  NewDay,
  NewDecision,
  NewEngine,
  NewLadder,
  NewPartTest,
  NewPull,
} from '../src/record/repository.ts';
import type { Shop } from '../src/record/types.ts';
import type { DemoCalibration } from './calibrations.ts';
import type { DayKnobs, DayTruth } from './cell.ts';

/** What the operator set and saw at one pull, and the file it was recorded in. */
export interface DemoPull extends Omit<NewPull, 'dayId' | 'recordingSha256' | 'span' | 'fileName'> {
  readonly file: string;
}

export interface DemoDay {
  readonly day: Omit<NewDay, 'buildId' | 'cellId'>;
  /** Key of one of the shop's cells. */
  readonly cell: string;
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** In the order in which they were made. */
  readonly pulls: readonly DemoPull[];
  readonly ladder: Omit<NewLadder, 'dayId'> | null;
  readonly decisions: readonly Omit<NewDecision, 'ladderId'>[];
  /** A part that was tried on this day, as it was planned before its pulls. */
  readonly partTest?: Omit<NewPartTest, 'dayId'>;
  /** What the simulated cell knows and nobody in the shop does. For tests. */
  readonly truth: DayTruth;
  readonly knobs: DayKnobs;
}

export interface DemoEngine {
  readonly engine: NewEngine;
  readonly builds: readonly {
    readonly build: Omit<NewBuild, 'engineId'>;
    readonly days: readonly DemoDay[];
  }[];
}

export interface DemoShop {
  readonly shop: Partial<Shop>;
  readonly cells: Readonly<Record<string, NewCell>>;
  readonly calibrations: readonly DemoCalibration[];
  readonly engines: readonly DemoEngine[];
}

import type { DisplayKind } from '../../units/display.ts';

/** Rises with any change of what a plan says. */
export const PLAN_VERSION = 3;

/** A stretch of a sentence: words, or a quantity in inside units that each unit system prints its own way. */
export type PlanPart =
  | { readonly text: string }
  | {
      readonly quantity: {
        readonly value: number;
        readonly shown: DisplayKind;
        readonly decimals?: number;
        readonly isDifference?: true;
      };
    };

export const PLAN_GROUPS = [
  ['safety', 'What keeps people safe'],
  ['preRun', 'Before the first start'],
  ['limits', 'When to shut down'],
  ['warmUp', 'Warming up'],
  ['runIn', 'Run-in'],
  ['afterRunIn', 'After run-in'],
  ['firstSettings', 'First settings'],
  ['sweeps', 'Pulls'],
  ['ladder', 'The ladder to expect'],
  ['consumables', 'To have at hand'],
] as const;
export type PlanGroup = (typeof PLAN_GROUPS)[number][0];

/** One thing to do, to know or to have, in one sentence. */
export interface PlanItem {
  /** Stays the same from plan to plan, so that ticks keep to it. */
  readonly id: string;
  readonly group: PlanGroup;
  readonly parts: readonly PlanPart[];
  readonly source: string;
  readonly weight: 'must' | 'should';
  /** To be ticked before the engine is started for the first time. */
  readonly beforeFirstStart: boolean;
  /** Nobody can take it out of the plan. */
  readonly isSafety: boolean;
  /** Paths of the sheet to fill in first; the sentence then says what of. */
  readonly measure: readonly string[];
  /** Name of the window that it prints, which the shop edits; null: none. */
  readonly window: string | null;
  /** Values against speed, where one figure would not do. */
  readonly table: PlanTable | null;
}

export interface PlanTable {
  readonly columns: readonly { readonly label: string; readonly shown: DisplayKind }[];
  /** Inside units. */
  readonly rows: readonly (readonly number[])[];
}

export interface PlanSection {
  readonly group: PlanGroup;
  readonly title: string;
  readonly items: readonly PlanItem[];
}

export interface Plan {
  readonly version: number;
  readonly sections: readonly PlanSection[];
  /** What was changed for the day, kept beside what was made; left out: nothing. */
  readonly edits?: PlanEdits;
  /** Items of the last plan whose changed number was left behind, since the sheet now says another one. */
  readonly notCarried?: readonly string[];
}

interface Edited {
  readonly by: string;
  /** ISO 8601. */
  readonly at: string;
}

/** A line of somebody's own. */
export interface OwnItem extends Edited {
  readonly id: string;
  readonly group: PlanGroup;
  readonly sentence: string;
  readonly weight: 'must' | 'should';
  readonly beforeFirstStart: boolean;
}

/** What was struck from the plan of a day, changed in it and added to it. */
export interface PlanEdits {
  readonly strikes: readonly (Edited & { readonly itemId: string; readonly reason: string })[];
  readonly numbers: readonly (Edited & {
    readonly itemId: string;
    readonly part: number;
    /** Both in inside units. */
    readonly value: number;
    readonly was: number;
    readonly reason: string;
  })[];
  readonly own: readonly OwnItem[];
}
export const NO_EDITS: PlanEdits = { strikes: [], numbers: [], own: [] };

/** Somebody did, or read, an item. */
export interface PlanTick {
  readonly itemId: string;
  readonly by: string;
  /** ISO 8601. */
  readonly at: string;
  /** What the item said then (`contentOf`); left out, a change of it is not noticed. */
  readonly content?: string;
}

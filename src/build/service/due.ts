/** What falls due on an engine, from what its plan and its cells say. */
import type { UnitSystem } from '../../units/index.ts';
import type { Plan } from '../plan/index.ts';
import { planSentence } from '../plan/index.ts';
import type { RefreshDue } from './refresh.ts';

export type DueState = 'due' | 'not due' | 'done' | 'not known';
export interface DueItem {
  readonly what: 'lash' | 'head bolts' | 'refresh' | 'calibration';
  readonly state: DueState;
  readonly sentence: string;
  /** ISO day, where one is known. */
  readonly on: string | null;
}

/** The plan of a test day as it was ticked. */
export interface PlanOfDay {
  readonly date: string | null;
  readonly plan: Plan;
  readonly ticks: readonly { readonly itemId: string; readonly who: string; readonly at: string }[];
}
export interface CellDue {
  readonly cell: string;
  /** Null: no calibration with dead weights is in the record. */
  readonly doneOn: string | null;
  /** Null: it states no interval. */
  readonly dueIso: string | null;
  readonly isDue: boolean;
}

const AFTER_RUN_IN = [
  ['lash', 'afterRunIn.lash', 'Valve lash'],
  ['head bolts', 'afterRunIn.retorque', 'Fasteners after run-in'],
] as const;

/** @param units  of the sentences that have figures
 * @param plans  those of the newest build, oldest first */
export function dueOf(
  plans: readonly PlanOfDay[],
  cells: readonly CellDue[],
  refresh: RefreshDue,
  units: UnitSystem,
): DueItem[] {
  const items = AFTER_RUN_IN.flatMap(([what, id, title]): DueItem[] => {
    const asked = plans.filter(({ plan }) =>
      plan.sections.some(({ items }) => items.some((item) => item.id === id)),
    );
    const done = asked
      .flatMap(({ ticks }) => ticks.filter((tick) => tick.itemId === id))
      .sort((a, b) => a.at.localeCompare(b.at))
      .at(-1);
    const newest = asked.at(-1);
    if (newest === undefined) return [];
    if (done !== undefined) {
      const by = done.who === '' ? '' : ` by ${done.who}`;
      return [
        { what, state: 'done', on: done.at.slice(0, 10), sentence: `${title}: ticked${by}.` },
      ];
    }
    const item = newest.plan.sections.flatMap(({ items }) => items).find((one) => one.id === id)!;
    return [{ what, state: 'due', on: newest.date, sentence: planSentence(item, units) }];
  });
  if (plans.length === 0)
    items.push({
      what: 'lash',
      state: 'not known',
      on: null,
      sentence: 'What is due after run-in is not known: no test day of this build has a plan.',
    });
  return [
    ...items,
    {
      what: 'refresh',
      state: refresh.state,
      on: refresh.on,
      sentence: refresh.sentence,
    },
    ...cells.map(calibrationDueOf),
  ];
}

function calibrationDueOf({ cell, doneOn, dueIso, isDue }: CellDue): DueItem {
  if (doneOn === null)
    return {
      what: 'calibration',
      state: 'not known',
      on: null,
      sentence: `Calibration of ${cell}: none with dead weights is in the record.`,
    };
  if (dueIso === null)
    return {
      what: 'calibration',
      state: 'not known',
      on: null,
      sentence: `Calibration of ${cell}: its last states no interval.`,
    };
  return {
    what: 'calibration',
    state: isDue ? 'due' : 'not due',
    on: dueIso,
    sentence: `Calibration of ${cell}${isDue ? ' has fallen due' : ' falls due'}.`,
  };
}

import type { UseRule } from '../../ladder/index.ts';
import { Ask } from '../compute/ask.ts';
import type { SheetAnswer } from '../compute/types.ts';
import type { WindowRule } from '../compute/windows.ts';
import type { Sheet } from '../sheet/types.ts';
import { SHIPPED_WINDOWS } from '../windows/shipped.ts';
import { limitItems } from './limits.ts';
import {
  consumableItems,
  firstSettingItems,
  ladderItems,
  type PlannedDay,
  sweepItems,
} from './pulls.ts';
import { safetyItems } from './safety.ts';
import { afterRunInItems, preRunItems, runInItems, warmUpItems } from './steps.ts';
import { PLAN_GROUPS, PLAN_VERSION, type Plan } from './types.ts';

export interface PlannedCalibration {
  readonly isDue: boolean;
  /** Null: it does not fall due. */
  readonly dueIso: string | null;
  readonly doneOn?: string;
}

/** What a plan needs beside the sheet; any of it may be unknown. */
export interface PlanContext {
  /** The shop's own windows, which stand before the shipped ones. */
  readonly windows?: readonly WindowRule[];
  readonly use?: UseRule | null;
  /** When the cell's calibration falls due (`calibrationDue`); null: nobody knows. */
  readonly calibration?: PlannedCalibration | null;
  readonly day?: PlannedDay;
}

/**
 * The test plan that follows from a sheet and its answer. Pure. The cautions that keep people safe and the limits are
 * in every plan: the shop edits the limits' windows, but takes none of them out. What a day changes in it stands
 * beside it (`editPlan`).
 * @param answer  of the same sheet with the same windows (`answerSheet`)
 */
export function planFor(sheet: Sheet, answer: SheetAnswer, context: PlanContext = {}): Plan {
  const { windows = [], use = null, calibration = null, day = {} } = context;
  const ask = new Ask(sheet);
  const rules = [...SHIPPED_WINDOWS, ...windows];
  const items = [
    ...safetyItems(ask),
    ...preRunItems(ask, answer, calibration),
    ...limitItems(ask, rules),
    ...warmUpItems(ask, rules),
    ...runInItems(ask),
    ...afterRunInItems(ask),
    ...firstSettingItems(answer),
    ...sweepItems(ask, rules),
    ...ladderItems(answer, use),
    ...consumableItems(ask, answer, rules, day),
  ];
  return {
    version: PLAN_VERSION,
    sections: PLAN_GROUPS.map(([group, title]) => ({
      group,
      title,
      items: items.filter((item) => item.group === group),
    })),
  };
}

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
import { itemsOf } from './say.ts';
import { afterRunInItems, preRunItems, runInItems, warmUpItems } from './steps.ts';
import { PLAN_GROUPS, PLAN_VERSION, type Plan, type PlanEdits, type PlanItem } from './types.ts';

/** What a plan needs beside the sheet; any of it may be unknown. */
export interface PlanContext {
  /** The shop's own windows, which stand before the shipped ones. */
  readonly windows?: readonly WindowRule[];
  readonly use?: UseRule | null;
  /** When the cell's calibration falls due (`calibrationDue`); null: nobody knows. */
  readonly calibration?: { readonly isDue: boolean; readonly dueIso: string } | null;
  readonly day?: PlannedDay;
  readonly edits?: PlanEdits;
}

/**
 * The test plan that follows from a sheet and its answer. Pure. The cautions that keep people safe and the limits are
 * in every plan: the shop edits the limits' windows, but takes none of them out.
 * @param answer  of the same sheet with the same windows (`answerSheet`)
 */
export function planFor(sheet: Sheet, answer: SheetAnswer, context: PlanContext = {}): Plan {
  const { windows = [], use = null, calibration = null, day = {}, edits = {} } = context;
  const ask = new Ask(sheet);
  const rules = [...SHIPPED_WINDOWS, ...windows];
  const all = [
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
  const { items, refused } = edited(all, edits);
  return {
    version: PLAN_VERSION,
    sections: PLAN_GROUPS.map(([group, title]) => ({
      group,
      title,
      items: items.filter((item) => item.group === group),
    })),
    refused,
  };
}

/** The items as the shop wants them; what keeps people safe stays, whatever it wants. */
function edited(items: readonly PlanItem[], { without = [], own = [] }: PlanEdits) {
  const refused: { id: string; why: string }[] = [];
  const kept = items.filter((item) => {
    if (!without.includes(item.id)) return true;
    if (item.isSafety)
      refused.push({ id: item.id, why: 'it keeps people or the engine safe, and stays' });
    return item.isSafety;
  });
  const taken = new Set(items.map(({ id }) => id));
  const added: PlanItem[] = [];
  for (const { id, group, sentence, weight, beforeFirstStart = false } of own) {
    if (taken.has(id)) {
      refused.push({ id, why: 'an item of this name is in the plan already' });
      continue;
    }
    taken.add(id);
    added.push(
      itemsOf(group)(id, [{ text: sentence }], {
        weight,
        beforeFirstStart,
        source: 'the shop’s own',
      }),
    );
  }
  return { items: [...kept, ...added], refused };
}

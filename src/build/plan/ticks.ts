import { type EditedItem, editedSections } from './edits.ts';
import { contentOf } from './say.ts';
import type { Plan, PlanSection, PlanTick } from './types.ts';

export interface TickedItem extends EditedItem {
  /** Null: open. */
  readonly tick: PlanTick | null;
  /** It says something else than when it was ticked, and counts as open. */
  readonly hasChanged: boolean;
}

export interface TickedPlan extends Omit<Plan, 'sections'> {
  readonly sections: readonly (Omit<PlanSection, 'items'> & {
    readonly items: readonly TickedItem[];
  })[];
  /** All that is neither ticked nor struck, in the plan's order. */
  readonly open: readonly TickedItem[];
  /** What must be ticked before the engine is started for the first time, and is not. */
  readonly openBeforeFirstStart: readonly TickedItem[];
  /** Ticks of items that are no longer in the plan. */
  readonly stray: readonly PlanTick[];
}

/**
 * A plan with its ticks: who did what, when, and what is still open. Of several ticks of one item the latest counts.
 * An item that says something else since it was ticked is open again: where the tick knows what it said, or a number
 * of it was changed later. What was struck is neither open nor done.
 */
export function tickedPlan(plan: Plan, ticks: readonly PlanTick[]): TickedPlan {
  const latest = new Map<string, PlanTick>();
  for (const tick of ticks) {
    const before = latest.get(tick.itemId);
    if (before === undefined || Date.parse(tick.at) >= Date.parse(before.at))
      latest.set(tick.itemId, tick);
  }
  const sections = editedSections(plan).map((section) => ({
    ...section,
    items: section.items.map((item): TickedItem => {
      const tick = latest.get(item.id) ?? null;
      const hasChanged =
        tick !== null &&
        ((tick.content !== undefined && tick.content !== contentOf(item)) ||
          item.changed.some(({ at }) => Date.parse(at) > Date.parse(tick.at)));
      return { ...item, tick, hasChanged };
    }),
  }));
  const items = sections.flatMap((section) => section.items);
  const ids = new Set(items.map(({ id }) => id));
  const open = items.filter(
    ({ tick, hasChanged, struck }) => struck === null && (tick === null || hasChanged),
  );
  return {
    ...plan,
    sections,
    open,
    openBeforeFirstStart: open.filter((item) => item.weight === 'must' && item.beforeFirstStart),
    stray: ticks.filter(({ itemId }) => !ids.has(itemId)),
  };
}

import type { Plan } from '../../build/index.ts';
import type { Id, PullbookRecord } from '../../record/index.ts';

/**
 * Exhaust temperature at which the newest plan of a day says to shut down [K]: what is hotter has reached a limit. Null
 * where the day has no plan, or its plan no such figure: then the exhaust is not watched by temperature.
 */
export async function exhaustLimitOn(record: PullbookRecord, dayId: Id): Promise<number | null> {
  const plans = await record.plans.list({ dayId });
  const newest = [...plans].sort((a, b) => a.madeAt.localeCompare(b.madeAt)).at(-1);
  if (newest === undefined) return null;
  const { sections } = newest.plan as unknown as Plan;
  const item = sections.flatMap(({ items }) => items).find(({ id }) => id === 'limits.exhaust');
  for (const part of item?.parts ?? []) if ('quantity' in part) return part.quantity.value;
  return null;
}

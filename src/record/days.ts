/** What is particular to test days: what an engine's last day on the same cell has already said. */
import type { Draft, Fields } from './draft.ts';

/** The inertia said last of this engine on this cell, so that it is asked once; null where nobody said. */
export async function inertiaSaidBefore(draft: Draft, fresh: Fields): Promise<number | null> {
  const row = await draft.trx
    .selectFrom('test_day')
    .innerJoin('build', 'build.id', 'test_day.build_id')
    .innerJoin('build as own', 'own.engine_id', 'build.engine_id')
    .select('test_day.inertia_kg_m2')
    .where('own.id', '=', fresh.buildId as string)
    .where('test_day.cell_id', '=', fresh.cellId as string)
    .where('test_day.inertia_kg_m2', 'is not', null)
    .orderBy('test_day.id', 'desc')
    .executeTakeFirst();
  return (row?.inertia_kg_m2 as number | null | undefined) ?? null;
}

/** What is particular to pulls: their order in the day, and many changed in one step. */
import type { Draft, Fields } from './draft.ts';
import { inOneChange } from './draft.ts';
import type { PullbookRecord } from './repository.ts';
import { sentenceFor } from './sentences.ts';
import type { Connections } from './store.ts';
import type { Pull } from './types.ts';

/** The place after the day's last pull. */
export async function nextOrder(draft: Draft, dayId: string): Promise<number> {
  const row = await draft.trx
    .selectFrom('pull')
    .select(({ fn }) => fn.max<number | null>('pull_order').as('last'))
    .where('day_id', '=', dayId)
    .executeTakeFirst();
  return row === undefined || row.last === null ? 0 : row.last + 1;
}

export function makeUpdateMany(at: Connections): PullbookRecord['pulls']['updateMany'] {
  return (patches, change = {}) =>
    inOneChange(
      at,
      change,
      (draft) => sentenceFor(draft.touched),
      async (draft) => {
        const pulls: Pull[] = [];
        for (const { id, patch } of patches) {
          await draft.update('pull', id, patch as Fields);
          pulls.push(await draft.get('pull', id));
        }
        return pulls;
      },
    );
}

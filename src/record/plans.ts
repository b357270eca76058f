/** Plans of test days and who ticked what; a plan stays as it was made, ticks come and go. */
import { fromRow } from './codec.ts';
import { inOneChange } from './draft.ts';
import type { PullbookRecord } from './repository.ts';
import type { Connections } from './store.ts';

export function makeTicks(at: Connections): Pick<PullbookRecord['plans'], 'ticks' | 'tick'> {
  const ticks: PullbookRecord['plans']['ticks'] = async (planId) => {
    const rows = await at.reading
      .selectFrom('tick')
      .selectAll()
      .where('plan_id', '=', planId)
      .orderBy('ticked_at')
      .orderBy('id')
      .execute();
    return rows.map((row) => fromRow('tick', row));
  };
  return {
    ticks,
    async tick(planId, itemId, ticked, about = {}) {
      const id = `${planId}/${itemId}`;
      await inOneChange(
        at,
        about,
        () => `${ticked ? 'ticked' : 'unticked'} ${itemId}`,
        async (draft) => {
          await draft.get('plan', planId);
          const standing = await draft.find('tick', id);
          if (ticked === (standing !== null)) return;
          const tickedAt = at.now().toISOString();
          const who = about.who ?? '';
          if (ticked) await draft.insert('tick', id, { id, planId, itemId, who, tickedAt });
          else await draft.remove('tick', id);
        },
      );
      return ticks(planId);
    },
  };
}

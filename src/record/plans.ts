/** Plans of test days and who ticked what; a plan stays as it was made, ticks come and go. */
import { fromRow } from './codec.ts';
import { inOneChange } from './draft.ts';
import type { PullbookRecord } from './repository.ts';
import type { Connections } from './store.ts';

export function makeTicks(
  at: Connections,
): Pick<PullbookRecord['plans'], 'ticks' | 'tick' | 'tickAll' | 'revise'> {
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
          const tickedAt = about.at ?? at.now().toISOString();
          const who = about.who ?? '';
          if (ticked) await draft.insert('tick', id, { id, planId, itemId, who, tickedAt });
          else await draft.remove('tick', id);
        },
      );
      return ticks(planId);
    },
    async tickAll(planId, done, about = {}) {
      await inOneChange(
        at,
        about,
        () => `ticked ${done.length} items of the test plan`,
        async (draft) => {
          await draft.get('plan', planId);
          for (const { itemId, at: tickedAt } of done) {
            const id = `${planId}/${itemId}`;
            if ((await draft.find('tick', id)) !== null) continue;
            await draft.insert('tick', id, { id, planId, itemId, who: about.who ?? '', tickedAt });
          }
        },
      );
      return ticks(planId);
    },
    async revise(planId, make, about = {}) {
      return inOneChange(
        at,
        about,
        () => 'changed the test plan',
        async (draft) => {
          const plan = make(await draft.get('plan', planId));
          await draft.update('plan', planId, { plan });
          return draft.get('plan', planId);
        },
      );
    },
  };
}

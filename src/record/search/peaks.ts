/** The peak of each pull, to be found by: typed ones as they stand, recorded ones as they were last computed. */
import { sql } from 'kysely';
import type { Connections, Store } from '../store.ts';
import type { EntityName, Id, Touched } from '../types.ts';

/** Peaks of one pull in the air of its day; null where it has none. */
export interface PullPeak {
  readonly pullId: Id;
  readonly powerW: number | null;
  readonly torqueNm: number | null;
}

/** Whose change can move the peaks of which pulls. */
const PULLS_UNDER: Partial<Record<EntityName, string>> = {
  day: 'day.id',
  build: 'build.id',
  engine: 'build.engine_id',
  cell: 'day.cell_id',
};
const WORDS_ONLY =
  /^(name|notes?|owner|serial|fileName|watched|knockHeard|excludedBecause|group|order)$/;

/** Lets go of peaks that a change could have moved; they are found again once a curve is computed. */
export async function forgetPeaks(trx: Store, touched: readonly Touched[]): Promise<void> {
  const moved = touched.filter(
    ({ before, after }) =>
      before === null || after === null || Object.keys(after).some((f) => !WORDS_ONLY.test(f)),
  );
  // A calibration or mapping that is gone no longer says whose it was.
  if (moved.some(({ entity }) => ['calibration', 'mapping', 'shop'].includes(entity))) {
    await sql`DELETE FROM pull_peak WHERE pull_id IN
      (SELECT id FROM pull WHERE recording_sha256 IS NOT NULL)`.execute(trx);
  }
  for (const { entity, id } of moved) {
    const column = PULLS_UNDER[entity];
    if (entity === 'pull') await trx.deleteFrom('pull_peak').where('pull_id', '=', id).execute();
    else if (column !== undefined)
      await sql`DELETE FROM pull_peak WHERE pull_id IN (
        SELECT pull.id FROM pull JOIN test_day AS day ON day.id = pull.day_id
          JOIN build ON build.id = day.build_id
        WHERE ${sql.ref(column)} = ${id} AND pull.recording_sha256 IS NOT NULL)`.execute(trx);
  }
}

/** @param pullIds  null: all */
export async function keepTypedPeaks(trx: Store, pullIds: readonly Id[] | null): Promise<void> {
  const which = pullIds === null ? sql`1 = 1` : sql`id IN (${sql.join([...pullIds])})`;
  await sql`INSERT OR REPLACE INTO pull_peak
    SELECT id, peak_power_w, peak_torque_nm FROM pull
    WHERE ${which} AND recording_sha256 IS NULL`.execute(trx);
}

export function makePeaks(at: Connections) {
  return {
    /** Peaks as they were just computed; what stands alike already is not written. */
    async put(peaks: readonly PullPeak[]): Promise<void> {
      const fresh: PullPeak[] = [];
      for (const one of peaks) {
        const row = await at.reading
          .selectFrom('pull_peak')
          .selectAll()
          .where('pull_id', '=', one.pullId)
          .executeTakeFirst();
        if (row?.power_w !== one.powerW || row?.torque_nm !== one.torqueNm) fresh.push(one);
      }
      if (fresh.length === 0) return;
      await at.writing.transaction().execute(async (trx) => {
        for (const { pullId, powerW, torqueNm } of fresh)
          await sql`INSERT OR REPLACE INTO pull_peak
            SELECT ${pullId}, ${powerW}, ${torqueNm} WHERE EXISTS (SELECT 1 FROM pull WHERE id = ${pullId})`.execute(
            trx,
          );
      });
    },
    /** Days with recorded pulls whose peaks nobody has computed since they could have moved. */
    async daysWithout(): Promise<readonly Id[]> {
      const { rows } = await sql<{ day_id: Id }>`SELECT DISTINCT pull.day_id FROM pull
        WHERE NOT EXISTS (SELECT 1 FROM pull_peak WHERE pull_id = pull.id)`.execute(at.reading);
      return rows.map((row) => row.day_id);
    },
  };
}

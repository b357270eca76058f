/**
 * Results that can be computed again at any time, kept so that a screen need not wait for them. Kept in the
 * form of structured clone, because JSON would turn a NaN of a curve into null.
 */
import { promisify } from 'node:util';
import { deserialize, serialize } from 'node:v8';
import { brotliCompress, brotliDecompress, constants } from 'node:zlib';
import { sha256Of } from './pack.ts';
import type { DerivedKey, PullbookRecord } from './repository.ts';
import { type Connections, type Store, storeErrorOf } from './store.ts';

const compress = promisify(brotliCompress);
const decompress = promisify(brotliDecompress);
/** Results kept for one recording; at more, all but the newest are let go. */
const MOST_RESULTS = 40;
const digestOf = (key: DerivedKey) => sha256Of(Buffer.from(key.question));

export function makeDerived(at: Connections): PullbookRecord['derived'] {
  return {
    async find(key) {
      const row = await at.reading
        .selectFrom('derived')
        .select(['version', 'result'])
        .where('recording_sha256', '=', key.recordingSha256)
        .where('question_sha256', '=', digestOf(key))
        .executeTakeFirst();
      if (row === undefined || row.version !== key.version) return null;
      try {
        return deserialize(await decompress(row.result as Uint8Array)) as unknown;
      } catch {
        // Written by a Node whose form of structured clone this one cannot read: compute it again.
        return null;
      }
    },
    async put(...results) {
      const packed = await Promise.all(
        results.map(async ({ key, result }) => ({ key, result: await pack(result) })),
      );
      await at.writing
        .transaction()
        .execute(async (trx) => {
          for (const { key, result } of packed) await putOne(trx, key, result);
        })
        .catch((error: unknown) => {
          throw storeErrorOf(error, at.file);
        });
    },
  };
}

const pack = (result: unknown): Promise<Uint8Array> =>
  compress(serialize(result), { params: { [constants.BROTLI_PARAM_QUALITY]: 3 } });

async function putOne(trx: Store, key: DerivedKey, result: Uint8Array): Promise<void> {
  const { recordingSha256, version } = key;
  await trx
    .deleteFrom('derived')
    .where('recording_sha256', '=', recordingSha256)
    .where('version', '!=', version)
    .execute();
  const { kept } = await trx
    .selectFrom('derived')
    .select(({ fn }) => fn.countAll<number>().as('kept'))
    .where('recording_sha256', '=', recordingSha256)
    .executeTakeFirstOrThrow();
  // Every change of a setting asks a new question; the old ones would otherwise stay for ever.
  if (kept >= MOST_RESULTS)
    await trx.deleteFrom('derived').where('recording_sha256', '=', recordingSha256).execute();
  const values = { version, result };
  await trx
    .insertInto('derived')
    .values({
      recording_sha256: recordingSha256,
      question_sha256: digestOf(key),
      ...values,
    })
    .onConflict((conflict) =>
      conflict.columns(['recording_sha256', 'question_sha256']).doUpdateSet(values),
    )
    .execute();
}

/** Hand-overs as they were frozen. They are made and removed, never changed. */
import { TABLES } from './codec.ts';
import { inOneChange } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import { storeFile } from './files.ts';
import { piecesOf, whole } from './pieces.ts';
import type { PullbookRecord } from './repository.ts';
import { makeShelf } from './shelf.ts';
import { type Connections, storeErrorOf } from './store.ts';
import type { HandOverKept } from './types.ts';

export function makeHandOvers(at: Connections): PullbookRecord['handOvers'] {
  const shelf = makeShelf<'handOver', never, { buildId: string }>(at, 'handOver', { defaults: {} });
  const textOf = (sha256: string, fileName: string) =>
    whole(piecesOf(at, 'file_piece', { sha256, fileName }));
  return {
    list: shelf.list,
    get: shelf.get,
    find: shelf.find,
    remove: shelf.remove,
    async keep({ document, part, ...fresh }, change = {}) {
      const id = at.newId('handover');
      await inOneChange(
        at,
        change,
        () => 'new hand-over',
        async (draft) => {
          await draft.get('build', fresh.buildId);
          const json = { mediaType: 'application/json' };
          const kept: HandOverKept = {
            ...fresh,
            id,
            documentSha256: await storeFile(at, draft, {
              ...json,
              fileName: 'handover.json',
              bytes: document,
            }),
            partSha256: await storeFile(at, draft, {
              ...json,
              fileName: 'record.json',
              bytes: part,
            }),
          };
          await draft.insert('handOver', id, { ...kept });
        },
      );
      return shelf.get(id);
    },
    async texts(id) {
      const kept = await shelf.find(id);
      if (kept === null) throw new NotInRecordError(TABLES.handOver.one, id);
      return {
        document: await textOf(kept.documentSha256, 'handover.json'),
        part: await textOf(kept.partSha256, 'record.json'),
      };
    },
    async key(make) {
      try {
        return await at.writing.transaction().execute(async (trx) => {
          const standing = await trx.selectFrom('shop_key').select('pem').executeTakeFirst();
          if (standing !== undefined) return standing.pem as string;
          const pem = make();
          const made_at = at.now().toISOString();
          await trx.insertInto('shop_key').values({ id: 'shop', pem, made_at }).execute();
          return pem;
        });
      } catch (error) {
        throw storeErrorOf(error, at.file);
      }
    },
  };
}

/** Files as they came: stored with their pulls in one transaction, read back and checked against their digest. */
import { fromRow, type Row } from './codec.ts';
import { NEW_PULL } from './defaults.ts';
import { type Draft, inOneChange } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import { sha256Of } from './pack.ts';
import { piecesOf, whole, writePieces } from './pieces.ts';
import { nextOrder } from './pulls.ts';
import type { Change, Import, Imported, PullbookRecord } from './repository.ts';
import { withoutUndefined } from './shelf.ts';
import type { Connections, Store } from './store.ts';
import type { IsoTime, Pull, StoredRecording } from './types.ts';

export function makeRecordings(at: Connections): PullbookRecord['recordings'] {
  const find = (sha256: string) => recordingIn(at.reading, sha256);

  async function* pieces(sha256: string): AsyncGenerator<Uint8Array> {
    const recording = await find(sha256);
    if (recording === null) throw new NotInRecordError('recording', sha256);
    yield* piecesOf(at, 'recording_piece', recording);
  }

  return {
    find,
    pieces,
    bytes: (sha256) => whole(pieces(sha256)),
    pulls: (sha256) => pullsWith(at.reading, sha256),
    import: (from, change = {}) => importInto(at, from, change),
  };
}

async function importInto(at: Connections, from: Import, change: Change): Promise<Imported> {
  const sha256 = from.bytes instanceof Uint8Array ? sha256Of(from.bytes) : from.bytes.sha256;
  const say = (draft: Draft) => {
    const count = draft.touched.length;
    return `imported ${from.fileName}: ${count} pull${count === 1 ? '' : 's'}`;
  };
  return inOneChange(at, { ...change, kind: 'import' }, say, async (draft) => {
    await draft.get('day', from.dayId);
    const standing = await pullsWith(draft.trx, sha256);
    const known = await recordingIn(draft.trx, sha256);
    if (known !== null && standing.length > 0) {
      return { recording: known, pulls: standing, duplicate: true };
    }
    const recording = known ?? (await storeBytes(at, draft, sha256, from));
    const first = await nextOrder(draft, from.dayId);
    const pulls: Pull[] = [];
    for (const [index, fresh] of from.pulls.entries()) {
      const id = fresh.id ?? at.newId('pull');
      const pull: Pull = {
        ...NEW_PULL,
        order: first + index,
        ...(withoutUndefined(fresh) as Partial<Pull>),
        id,
        dayId: from.dayId,
        recordingSha256: sha256,
        fileName: from.fileName,
      };
      await draft.insert('pull', id, { ...pull });
      pulls.push(pull);
    }
    return { recording, pulls, duplicate: false };
  });
}

/** Stores the bytes of a recording that is not in the record yet. */
export async function storeBytes(
  at: Connections,
  draft: Draft,
  sha256: string,
  from: Omit<Import, 'dayId' | 'pulls'> & { readonly importedAt?: IsoTime },
): Promise<StoredRecording> {
  const row = {
    sha256,
    file_name: from.fileName,
    size_bytes: from.bytes instanceof Uint8Array ? from.bytes.length : from.bytes.sizeBytes,
    stored_bytes: 0,
    kind: from.kind,
    rows: from.rows,
    shape: from.shape,
    imported_at: from.importedAt ?? at.now().toISOString(),
  } satisfies Row;
  await draft.trx.insertInto('recording').values(row).execute();
  const storedBytes = await writePieces(
    draft,
    'recording_piece',
    sha256,
    from.fileName,
    from.bytes,
  );
  await draft.trx
    .updateTable('recording')
    .set({ stored_bytes: storedBytes })
    .where('sha256', '=', sha256)
    .execute();
  return recordingOf({ ...row, stored_bytes: storedBytes });
}

async function pullsWith(store: Store, sha256: string): Promise<Pull[]> {
  const rows = await store
    .selectFrom('pull')
    .selectAll()
    .where('recording_sha256', '=', sha256)
    .orderBy('day_id')
    .orderBy('pull_order')
    .execute();
  return rows.map((row) => fromRow('pull', row));
}

export async function recordingIn(store: Store, sha256: string): Promise<StoredRecording | null> {
  const row = await store
    .selectFrom('recording')
    .selectAll()
    .where('sha256', '=', sha256)
    .executeTakeFirst();
  return row === undefined ? null : recordingOf(row);
}

const recordingOf = (row: Row): StoredRecording => ({
  sha256: row.sha256 as string,
  fileName: row.file_name as string,
  sizeBytes: row.size_bytes as number,
  storedBytes: row.stored_bytes as number,
  kind: row.kind as StoredRecording['kind'],
  rows: row.rows as number,
  shape: row.shape as string,
  importedAt: row.imported_at as string,
});

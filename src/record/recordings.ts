/** Files as they came: stored with their pulls in one transaction, read back and checked against their digest. */
import { createHash } from 'node:crypto';
import { StoreError } from '../errors.ts';
import { fromRow, type Row } from './codec.ts';
import { NEW_PULL } from './defaults.ts';
import { type Draft, inOneChange } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import { inPieces, packed, sha256Of, unpacked } from './pack.ts';
import { nextOrder } from './pulls.ts';
import type { Change, Import, Imported, PullbookRecord } from './repository.ts';
import { withoutUndefined } from './shelf.ts';
import type { Connections, Store } from './store.ts';
import type { Pull, StoredRecording } from './types.ts';

export function makeRecordings(at: Connections): PullbookRecord['recordings'] {
  const find = (sha256: string) => recordingIn(at.reading, sha256);

  async function* pieces(sha256: string): AsyncGenerator<Uint8Array> {
    const recording = await find(sha256);
    if (recording === null) throw new NotInRecordError('recording', sha256);
    const digest = createHash('sha256');
    // One piece a query, so that a file of any size passes through little memory.
    for (let position = 0; ; position += 1) {
      const row = await at.reading
        .selectFrom('recording_piece')
        .select('packed')
        .where('sha256', '=', sha256)
        .where('position', '=', position)
        .executeTakeFirst();
      if (row === undefined) break;
      const piece = await unpacked(row.packed as Uint8Array).catch((error: unknown) => {
        throw bytesChanged(at.file, recording, error);
      });
      digest.update(piece);
      yield piece;
    }
    if (digest.digest('hex') !== sha256) throw bytesChanged(at.file, recording);
  }

  return {
    find,
    pieces,
    async bytes(sha256) {
      const parts: Uint8Array[] = [];
      for await (const piece of pieces(sha256)) parts.push(piece);
      return new Uint8Array(Buffer.concat(parts));
    },
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

async function storeBytes(
  at: Connections,
  draft: Draft,
  sha256: string,
  from: Import,
): Promise<StoredRecording> {
  const spooled = from.bytes instanceof Uint8Array ? null : from.bytes;
  const row = {
    sha256,
    file_name: from.fileName,
    size_bytes: from.bytes instanceof Uint8Array ? from.bytes.length : from.bytes.sizeBytes,
    stored_bytes: 0,
    kind: from.kind,
    rows: from.rows,
    shape: from.shape,
    imported_at: at.now().toISOString(),
  } satisfies Row;
  await draft.trx.insertInto('recording').values(row).execute();
  const digest = createHash('sha256');
  let position = 0;
  let storedBytes = 0;
  for await (const piece of inPieces(spooled?.read() ?? (from.bytes as Uint8Array))) {
    digest.update(piece);
    const small = await packed(piece);
    storedBytes += small.length;
    await draft.trx
      .insertInto('recording_piece')
      .values({ sha256, position, packed: small })
      .execute();
    position += 1;
  }
  if (digest.digest('hex') !== sha256) {
    throw new StoreError(
      `The bytes of ${from.fileName} changed while they were being stored; nothing was stored, import the file again.`,
      { file: from.fileName },
    );
  }
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

async function recordingIn(store: Store, sha256: string): Promise<StoredRecording | null> {
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

function bytesChanged(file: string, recording: StoredRecording, cause?: unknown): StoreError {
  return new StoreError(
    `The stored bytes of ${recording.fileName} no longer match their SHA-256; restore a backup that still has them.`,
    { file, found: 'other bytes', expected: recording.sha256 },
    cause,
  );
}

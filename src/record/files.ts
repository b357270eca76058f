/** Photos and files of sheets: stored once under their SHA-256, read back and checked against it, never removed. */
import type { Row } from './codec.ts';
import type { Draft } from './draft.ts';
import { NotInRecordError } from './errors.ts';
import { sha256Of } from './pack.ts';
import { piecesOf, writePieces } from './pieces.ts';
import type { PullbookRecord, SpooledFile } from './repository.ts';
import type { Connections, Store } from './store.ts';
import type { StoredFile } from './types.ts';

export function makeFiles(at: Connections): PullbookRecord['files'] {
  async function* pieces(sha256: string): AsyncGenerator<Uint8Array> {
    const file = await fileIn(at.reading, sha256);
    if (file === null) throw new NotInRecordError('file', sha256.slice(0, 64));
    yield* piecesOf(at, 'file_piece', file);
  }
  return { find: (sha256) => fileIn(at.reading, sha256), pieces };
}

/** Stores the bytes where they are not in the record yet. @returns their SHA-256 */
export async function storeFile(
  at: Connections,
  draft: Draft,
  from: {
    readonly fileName: string;
    readonly bytes: Uint8Array | SpooledFile;
    readonly mediaType: string;
  },
): Promise<string> {
  const { bytes } = from;
  const sha256 = bytes instanceof Uint8Array ? sha256Of(bytes) : bytes.sha256;
  if ((await fileIn(draft.trx, sha256)) !== null) return sha256;
  await draft.trx
    .insertInto('file')
    .values({
      sha256,
      file_name: from.fileName,
      size_bytes: bytes instanceof Uint8Array ? bytes.length : bytes.sizeBytes,
      stored_bytes: 0,
      media_type: from.mediaType,
      stored_at: at.now().toISOString(),
    } satisfies Row)
    .execute();
  const storedBytes = await writePieces(draft, 'file_piece', sha256, from.fileName, bytes);
  await draft.trx
    .updateTable('file')
    .set({ stored_bytes: storedBytes })
    .where('sha256', '=', sha256)
    .execute();
  return sha256;
}

export async function fileIn(store: Store, sha256: string): Promise<StoredFile | null> {
  const row = await store
    .selectFrom('file')
    .selectAll()
    .where('sha256', '=', sha256)
    .executeTakeFirst();
  if (row === undefined) return null;
  return {
    sha256: row.sha256 as string,
    fileName: row.file_name as string,
    sizeBytes: row.size_bytes as number,
    storedBytes: row.stored_bytes as number,
    mediaType: row.media_type as string,
    storedAt: row.stored_at as string,
  };
}

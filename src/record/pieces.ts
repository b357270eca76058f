/** The bytes of a file in the record, in pieces, written and read back against their SHA-256. */
import { createHash } from 'node:crypto';
import { StoreError } from '../errors.ts';
import type { Draft } from './draft.ts';
import { inPieces, PIECE_BYTES, packed, unpacked } from './pack.ts';
import type { SpooledFile } from './repository.ts';
import type { Connections } from './store.ts';

/** All of the bytes in one. */
export async function whole(pieces: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const piece of pieces) parts.push(piece);
  return new Uint8Array(Buffer.concat(parts));
}

type PieceTable = 'recording_piece' | 'file_piece';

/** @throws StoreError when the bytes no longer match their digest; checked as the last piece is handed out */
export async function* piecesOf(
  at: Connections,
  table: PieceTable,
  file: { readonly sha256: string; readonly fileName: string },
): AsyncGenerator<Uint8Array> {
  const digest = createHash('sha256');
  // One piece a query, so that a file of any size passes through little memory.
  for (let position = 0; ; position += 1) {
    const row = await at.reading
      .selectFrom(table)
      .select('packed')
      .where('sha256', '=', file.sha256)
      .where('position', '=', position)
      .executeTakeFirst();
    if (row === undefined) break;
    const piece = await unpacked(row.packed as Uint8Array).catch((error: unknown) => {
      throw bytesChanged(at.file, file, error);
    });
    digest.update(piece);
    const isLast = piece.length < PIECE_BYTES;
    yield piece;
    if (isLast) break;
  }
  if (digest.digest('hex') !== file.sha256) throw bytesChanged(at.file, file);
}

/** @returns the bytes that they take packed. @throws StoreError when they are not those of the digest */
export async function writePieces(
  draft: Draft,
  table: PieceTable,
  sha256: string,
  fileName: string,
  bytes: Uint8Array | SpooledFile,
): Promise<number> {
  const digest = createHash('sha256');
  let position = 0;
  let storedBytes = 0;
  for await (const piece of inPieces(bytes instanceof Uint8Array ? bytes : bytes.read())) {
    digest.update(piece);
    const small = await packed(piece);
    storedBytes += small.length;
    await draft.trx.insertInto(table).values({ sha256, position, packed: small }).execute();
    position += 1;
  }
  if (digest.digest('hex') !== sha256) {
    throw new StoreError(
      `The bytes of ${fileName} changed while they were being stored; nothing was stored, import the file again.`,
      { file: fileName },
    );
  }
  return storedBytes;
}

function bytesChanged(
  file: string,
  stored: { readonly sha256: string; readonly fileName: string },
  cause?: unknown,
): StoreError {
  return new StoreError(
    `The stored bytes of ${stored.fileName} no longer match their SHA-256; restore a backup that still has them.`,
    { file, found: 'other bytes', expected: stored.sha256 },
    cause,
  );
}

/** A recording's bytes in pieces, each packed by itself; what comes out is byte for byte what went in. */
import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { brotliCompress, brotliDecompress, brotliDecompressSync, constants } from 'node:zlib';

export const PIECE_BYTES = 1 << 20;
const compress = promisify(brotliCompress);
const decompress = promisify(brotliDecompress);

export const sha256Of = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Packs one piece off the main thread. Quality 4: the ratio of a run file hardly grows past it, the time does. */
export const packed = (piece: Uint8Array): Promise<Uint8Array> =>
  compress(piece, { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } });
/** A small piece is unpacked sooner than another thread can be asked to. */
export const unpacked = async (piece: Uint8Array): Promise<Uint8Array> =>
  piece.length <= SMALL_BYTES ? brotliDecompressSync(piece) : decompress(piece);
const SMALL_BYTES = 1 << 16;

/**
 * The same bytes in pieces of exactly PIECE_BYTES, the last one shorter. A piece is only good until the next is asked
 * for: it is the same memory, because a long file would else leave a gigabyte of it for the collector to find.
 */
export async function* inPieces(
  source: Uint8Array | AsyncIterable<Uint8Array>,
): AsyncGenerator<Uint8Array> {
  if (source instanceof Uint8Array) {
    for (let from = 0; from < source.length; from += PIECE_BYTES) {
      yield source.subarray(from, from + PIECE_BYTES);
    }
    return;
  }
  const piece = new Uint8Array(PIECE_BYTES);
  let filled = 0;
  for await (const chunk of source) {
    for (let from = 0; from < chunk.length; ) {
      const part = chunk.subarray(from, from + PIECE_BYTES - filled);
      piece.set(part, filled);
      filled += part.length;
      from += part.length;
      if (filled === PIECE_BYTES) {
        yield piece;
        filled = 0;
      }
    }
  }
  if (filled > 0) yield piece.subarray(0, filled);
}

/**
 * A zip file read where it lies, entry by entry by its central directory (APPNOTE.TXT of the ZIP format, 4.3), so that
 * an archive larger than the memory is read in little of it. What its structure says is believed only as far as the
 * bytes bear it out.
 */
import { createHash } from 'node:crypto';
import { type FileHandle, open } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { crc32, createInflateRaw } from 'node:zlib';
import { FormatError } from '../../errors.ts';
import { COMMENT_LENGTH, commentOf, mayBeComment } from './archive.ts';

export interface ArchiveLimits {
  /** The most that all entries may unpack to. */
  readonly mostBytes: number;
  readonly mostEntries: number;
}

/** What a whole shop may be: a zip of this form counts to 65,535 entries, and to 4 GiB packed. */
export const SHOP_LIMITS: ArchiveLimits = { mostBytes: 2 ** 36, mostEntries: 65_535 };

export interface OpenArchive {
  readonly entries: ReadonlyMap<string, { readonly sizeBytes: number }>;
  /** The archive is byte for byte as it was made; null: it was packed anew by another program, and cannot tell. */
  readonly isWhole: boolean | null;
  /** An entry in pieces. @throws FormatError where its bytes are not what the directory says */
  read(path: string): AsyncIterable<Uint8Array>;
  close(): Promise<void>;
}

interface Source {
  readonly sizeBytes: number;
  read(from: number, length: number): Promise<Uint8Array>;
  close(): Promise<void>;
}

interface Entry {
  readonly path: string;
  readonly sizeBytes: number;
  readonly packedBytes: number;
  readonly isPacked: boolean;
  readonly crc: number;
  readonly at: number;
}

const CHUNK = 1 << 18;
/** End of the central directory with the longest comment that it can have. */
const END_LENGTH = 22;
const LONGEST_END = END_LENGTH + 65_535;
/** Names of 65,535 files, two hundred letters each, and what stands beside them. */
const LONGEST_DIRECTORY = 2 ** 24;
const MARK = { end: 0x06054b50, entry: 0x02014b50, local: 0x04034b50 } as const;
const IS_SECRET = 1;
const STORED = 0;
const DEFLATED = 8;

/**
 * @param given  the bytes, or the path of a file
 * @throws FormatError  no archive, a damaged one, a path that leaves it or stands twice, or more in it than the limits
 */
export async function openArchive(
  given: Uint8Array | string,
  file: string,
  { what, limits }: { readonly what: string; readonly limits: ArchiveLimits },
): Promise<OpenArchive> {
  const refuse = (found: string, cause?: unknown) =>
    new FormatError(
      `${file} is not ${what} that can be read: ${found}.`,
      { file, found, expected: 'a zip archive as Pullbook makes it' },
      cause,
    );
  const source = typeof given === 'string' ? await fileSource(given) : bytesSource(given);
  try {
    const entries = await directoryOf(source, limits, refuse);
    return {
      entries,
      isWhole: await wholenessOf(source),
      read: (path) => piecesOf(source, entries.get(path)!, refuse),
      close: () => source.close(),
    };
  } catch (error) {
    await source.close();
    throw error;
  }
}

const bytesSource = (bytes: Uint8Array): Source => ({
  sizeBytes: bytes.length,
  read: async (from, length) => bytes.subarray(from, from + length),
  close: async () => {},
});

async function fileSource(path: string): Promise<Source> {
  const handle: FileHandle = await open(path, 'r');
  const { size } = await handle.stat();
  return {
    sizeBytes: size,
    async read(from, length) {
      const bytes = Buffer.alloc(Math.max(0, Math.min(length, size - from)));
      const { bytesRead } = await handle.read(bytes, 0, bytes.length, from);
      return bytes.subarray(0, bytesRead);
    },
    close: () => handle.close(),
  };
}

type Refuse = (found: string, cause?: unknown) => FormatError;
const DAMAGED = 'its zip structure is damaged';

async function directoryOf(source: Source, limits: ArchiveLimits, refuse: Refuse) {
  const tailFrom = Math.max(0, source.sizeBytes - LONGEST_END);
  const tail = viewOf(await source.read(tailFrom, LONGEST_END));
  let at = tail.byteLength - END_LENGTH;
  while (at >= 0 && !isEnd(tail, at)) at -= 1;
  if (at < 0) throw refuse(DAMAGED);
  const count = tail.getUint16(at + 10, true);
  const length = tail.getUint32(at + 12, true);
  const from = tail.getUint32(at + 16, true);
  if (count === 0xffff && from === 0xffff_ffff) throw refuse('it is larger than 4 GiB');
  if (count > limits.mostEntries) throw refuse('there is too much in it');
  if (from + length > tailFrom + at) throw refuse(DAMAGED);
  if (length > LONGEST_DIRECTORY) throw refuse('there is too much in it');
  const directory = await source.read(from, length);
  const view = viewOf(directory);
  const entries = new Map<string, Entry>();
  let total = 0;
  let place = 0;
  for (let n = 0; n < count; n += 1) {
    if (place + 46 > view.byteLength || view.getUint32(place, true) !== MARK.entry)
      throw refuse(DAMAGED);
    const isSecret = (view.getUint16(place + 8, true) & IS_SECRET) !== 0;
    const method = view.getUint16(place + 10, true);
    const nameLength = view.getUint16(place + 28, true);
    const entry: Entry = {
      path: Buffer.from(directory.subarray(place + 46, place + 46 + nameLength)).toString('utf8'),
      isPacked: method === DEFLATED,
      crc: view.getUint32(place + 16, true),
      packedBytes: view.getUint32(place + 20, true),
      sizeBytes: view.getUint32(place + 24, true),
      at: view.getUint32(place + 42, true),
    };
    place += 46 + nameLength + view.getUint16(place + 30, true) + view.getUint16(place + 32, true);
    const { path } = entry;
    if (isSecret || (method !== DEFLATED && method !== STORED))
      throw refuse(`${JSON.stringify(path)} is packed in a way that is not known here`);
    total += entry.sizeBytes;
    if (total > limits.mostBytes) throw refuse('there is too much in it');
    if (entries.has(path)) throw refuse(`${JSON.stringify(path)} stands in it twice`);
    if (path.startsWith('/') || path.includes('\\') || path.split('/').includes('..'))
      throw refuse(`${JSON.stringify(path)} leaves the archive`);
    if (entry.at + entry.packedBytes > from) throw refuse(DAMAGED);
    if (!path.endsWith('/')) entries.set(path, entry);
  }
  return entries;
}

/** A mark of the end whose comment reaches to the end of the file, so that one within a comment is not taken for it. */
const isEnd = (view: DataView, at: number): boolean =>
  view.getUint32(at, true) === MARK.end &&
  at + END_LENGTH + view.getUint16(at + 20, true) === view.byteLength;

async function* piecesOf(source: Source, entry: Entry, refuse: Refuse): AsyncGenerator<Uint8Array> {
  const damaged = (cause?: unknown) =>
    refuse(`${JSON.stringify(entry.path)} in it is damaged`, cause);
  const head = viewOf(await source.read(entry.at, 30));
  if (head.byteLength < 30 || head.getUint32(0, true) !== MARK.local) throw damaged();
  const from = entry.at + 30 + head.getUint16(26, true) + head.getUint16(28, true);
  async function* packed(): AsyncGenerator<Uint8Array> {
    for (let done = 0; done < entry.packedBytes; ) {
      const piece = await source.read(from + done, Math.min(CHUNK, entry.packedBytes - done));
      if (piece.length === 0) throw damaged();
      done += piece.length;
      yield piece;
    }
  }
  let size = 0;
  let crc = 0;
  try {
    for await (const piece of entry.isPacked ? unpacked(packed()) : packed()) {
      size += piece.length;
      if (size > entry.sizeBytes) throw damaged();
      crc = crc32(piece, crc);
      yield piece;
    }
  } catch (error) {
    if (error instanceof FormatError) throw error;
    throw damaged(error);
  }
  if (size !== entry.sizeBytes || crc !== entry.crc) throw damaged();
}

async function* unpacked(packed: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const inflate = createInflateRaw({ chunkSize: CHUNK });
  // Its failure comes out of the loop below as well.
  const flow = pipeline(Readable.from(packed, { objectMode: true }), inflate).catch(() => {});
  try {
    for await (const piece of inflate) yield piece as Uint8Array;
  } finally {
    inflate.destroy();
    await flow;
  }
}

async function wholenessOf(source: Source): Promise<boolean | null> {
  const before = Math.max(0, source.sizeBytes - COMMENT_LENGTH);
  const comment = Buffer.from(await source.read(before, COMMENT_LENGTH)).toString('latin1');
  if (!mayBeComment(comment)) return null;
  const digest = createHash('sha256');
  for (let at = 0; at < before; at += CHUNK)
    digest.update(await source.read(at, Math.min(CHUNK, before - at)));
  return comment === commentOf(digest.digest('hex'));
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.length);

/**
 * One zip file that any program opens (APPNOTE.TXT of the ZIP format). Its comment ends it with the SHA-256 of every
 * byte before it, so that a byte changed anywhere is noticed, also where no entry's contents have it.
 */
import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { constants, crc32, deflateRaw, deflateRawSync } from 'node:zlib';
import {
  type AsyncFlateStreamHandler,
  type UnzipFileInfo,
  unzipSync,
  Zip,
  type ZipInputFile,
} from 'fflate';
import { FormatError, InputError } from '../../errors.ts';

export interface ArchiveEntry {
  readonly path: string;
  readonly bytes: Uint8Array | AsyncIterable<Uint8Array>;
  /** Packed already (a picture, a PDF): stored as it is. */
  readonly isPacked?: boolean;
}

const COMMENT = 'SHA-256 of all bytes before this comment: ';
export const COMMENT_LENGTH = COMMENT.length + 64;
/** End of the central directory, without comment. */
const END_LENGTH = 22;
/** DOS times know no zone: one moment for all, so that the same contents give the same bytes. */
const WHEN = new Date(1980, 0, 1);
/** The most that an archive may unpack to. */
const MOST_BYTES = 2 ** 30;
const MOST_ENTRIES = 20_000;
/** Signs that steer, and a name that a table of names takes for something else. */
const NO_NAME = /\p{Cc}|\p{Bidi_Control}|^__proto__$/u;

/** Where the numbers of a plain zip end; past them it would be written, and could not be read. */
const MOST_PACKED = 2 ** 32 - 2 ** 24;
const MOST_PACKED_ENTRIES = 65_534;
const tooMuch = (what: string) =>
  new InputError(
    `This is more than ${what}, which one archive cannot hold; export engine by engine instead.`,
    { expected: `at most ${what}` },
  );

/** Packs entries one after another and hands the archive on in pieces. @returns its size [bytes] */
export async function packArchive(
  entries: Iterable<ArchiveEntry> | AsyncIterable<ArchiveEntry>,
  write: (piece: Uint8Array) => Promise<void>,
): Promise<number> {
  const digest = createHash('sha256');
  const ready: Uint8Array[] = [];
  let failed: Error | null = null;
  let size = 0;
  const zip = new Zip((error, piece) => {
    if (error !== null) failed = error;
    else ready.push(piece);
  });
  /** All but the last bytes, which hold the length of the comment. */
  let held = new Uint8Array(0);
  const handOn = async () => {
    if (failed !== null) throw failed;
    const all = Buffer.concat([held, ...ready.splice(0)]);
    const now = all.subarray(0, Math.max(0, all.length - END_LENGTH));
    held = new Uint8Array(all.subarray(now.length));
    if (now.length === 0) return;
    digest.update(now);
    size += now.length;
    if (size > MOST_PACKED) throw tooMuch('4 GiB when packed');
    await write(now);
  };
  const inHand: Piece[] = [];
  const take = async () => {
    const piece = inHand.shift()!;
    if ('raw' in piece) piece.entry.give(piece.raw, await piece.packed);
    else if (piece.at === 'start') zip.add(piece.entry);
    else piece.entry.end();
    await handOn();
  };
  for await (const piece of piecesOf(entries)) {
    inHand.push(piece);
    if (inHand.length > MOST_IN_HAND) await take();
  }
  while (inHand.length > 0) await take();
  zip.end();
  await handOn();
  const end = Buffer.from(held);
  end.writeUInt16LE(COMMENT_LENGTH, END_LENGTH - 2);
  digest.update(end);
  const comment = Buffer.from(commentOf(digest.digest('hex')), 'latin1');
  await write(Buffer.concat([end, comment]));
  return size + END_LENGTH + COMMENT_LENGTH;
}

/** Methods of compression, APPNOTE.TXT 4.4.5. */
const STORED = 0;
const DEFLATED = 8;

/** So much is packed at a time. */
const PART_BYTES = 2 ** 20;

/** So many pieces are packed by other threads while this one brings the next. */
const MOST_IN_HAND = 16;

type Piece =
  | { readonly entry: Entry; readonly at: 'start' | 'end' }
  | {
      readonly entry: Entry;
      readonly raw: Uint8Array;
      readonly packed: Promise<Uint8Array<ArrayBuffer>>;
    };

async function* piecesOf(
  entries: Iterable<ArchiveEntry> | AsyncIterable<ArchiveEntry>,
): AsyncGenerator<Piece> {
  let count = 0;
  for await (const { path, bytes, isPacked } of entries) {
    count += 1;
    if (count > MOST_PACKED_ENTRIES) throw tooMuch('65,535 files');
    const entry = new Entry(path, isPacked ? STORED : DEFLATED);
    yield { entry, at: 'start' };
    for await (const part of bytes instanceof Uint8Array ? inParts(bytes) : bytes) {
      // A copy: its owner may use its memory again for the next piece.
      const raw = new Uint8Array(part);
      yield { entry, raw, packed: isPacked ? Promise.resolve(raw) : deflated(raw) };
    }
    yield { entry, at: 'end' };
  }
}

function* inParts(bytes: Uint8Array): Generator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += PART_BYTES)
    yield bytes.subarray(from, from + PART_BYTES);
}

/**
 * One file of the zip. Node's own zlib packs several times as fast as JavaScript; each piece is packed by itself and
 * flushed to a whole byte, so that the pieces one after the other are one deflated file (RFC 1951, 3.2.4).
 */
class Entry implements ZipInputFile {
  readonly mtime = WHEN;
  size = 0;
  crc = 0;
  ondata: AsyncFlateStreamHandler = () => {};

  constructor(
    readonly filename: string,
    readonly compression: number,
  ) {}

  give(raw: Uint8Array, packed: Uint8Array<ArrayBuffer>): void {
    this.size += raw.length;
    this.crc = crc32(raw, this.crc);
    this.ondata(null, packed, false);
  }

  end(): void {
    const nothing = new Uint8Array(0);
    const last = this.compression === STORED ? nothing : new Uint8Array(deflateRawSync(nothing));
    this.ondata(null, last, true);
  }
}

const inOtherThread = promisify(deflateRaw);
const FLUSHED = { level: 6, finishFlush: constants.Z_SYNC_FLUSH } as const;
/** What is smaller is packed sooner than another thread can be asked to. */
const LARGE_BYTES = 2 ** 13;

const deflated = async (piece: Uint8Array): Promise<Uint8Array<ArrayBuffer>> =>
  piece.length < LARGE_BYTES ? deflateRawSync(piece, FLUSHED) : inOtherThread(piece, FLUSHED);

export interface Unpacked {
  readonly entries: ReadonlyMap<string, Uint8Array>;
  /** The archive is byte for byte as it was made; null: it was packed anew by another program, and cannot tell. */
  readonly isWhole: boolean | null;
}

/**
 * Reads an archive whole.
 * @throws FormatError  no archive, a damaged one, a path that leaves it, that no disk could hold or that stands twice
 *                      (also in other case), or more than 1 GiB in it
 */
export function unpackArchive(
  bytes: Uint8Array,
  file: string,
  what = 'a hand-over bundle',
): Unpacked {
  const refuse = (found: string, cause?: unknown) =>
    new FormatError(
      `${file} is not ${what} that can be read: ${found}.`,
      { file, found, expected: 'a zip archive as Pullbook makes it' },
      cause,
    );
  let total = 0;
  let count = 0;
  const seen = new Set<string>();
  let trouble: string | null = null;
  const look = ({ name, size, originalSize }: UnzipFileInfo) => {
    // What is not packed is copied in the size that it has, whatever it says of itself.
    total += Math.max(size, originalSize);
    count += 1;
    if (total > MOST_BYTES || count > MOST_ENTRIES) trouble ??= 'there is too much in it';
    // Two names that one disk holds as the same file would be unpacked over each other.
    const onDisk = name.normalize('NFC').toLowerCase();
    if (seen.has(onDisk))
      trouble ??= `${JSON.stringify(name)} stands in it twice (many disks tell no capitals apart)`;
    if (/^\/|\\|^[a-z]:/i.test(name) || name.split('/').includes('..'))
      trouble ??= `${JSON.stringify(name)} leaves the archive`;
    if (NO_NAME.test(name)) trouble ??= `${JSON.stringify(name)} is not the name of a file`;
    seen.add(onDisk);
    return false;
  };
  let entries: Record<string, Uint8Array> = {};
  try {
    // Looked at whole before anything of it is unpacked.
    unzipSync(bytes, { filter: look });
    if (trouble === null) entries = unzipSync(bytes, { filter: ({ name }) => !name.endsWith('/') });
  } catch (error) {
    throw refuse('its zip structure is damaged', error);
  }
  if (trouble !== null) throw refuse(trouble);
  return { entries: new Map(Object.entries(entries)), isWhole: wholeness(bytes) };
}

function wholeness(bytes: Uint8Array): boolean | null {
  const text = Buffer.from(bytes.subarray(Math.max(0, bytes.length - COMMENT_LENGTH))).toString(
    'latin1',
  );
  if (!mayBeComment(text)) return null;
  const before = bytes.subarray(0, bytes.length - COMMENT_LENGTH);
  const isAsSaid = text === commentOf(createHash('sha256').update(before).digest('hex'));
  return isAsSaid && isGapless(Buffer.from(before.buffer, before.byteOffset, before.length));
}

/**
 * Whether the entries stand one after another from the first byte, each under the name that the directory at the end
 * gives it, and nothing between. Else programs that read it from either end could show different contents.
 */
function isGapless(zip: Buffer): boolean {
  const end = zip.length - END_LENGTH;
  if (end < 0 || zip.readUInt32LE(end) !== 0x06054b50) return false;
  const first = zip.readUInt32LE(end + 16);
  if (first + zip.readUInt32LE(end + 12) !== end) return false;
  let at = first;
  let next = 0;
  for (let count = zip.readUInt16LE(end + 10); count > 0; count -= 1) {
    if (at + 46 > end || zip.readUInt32LE(at) !== 0x02014b50) return false;
    const nameLength = zip.readUInt16LE(at + 28);
    const name = zip.subarray(at + 46, at + 46 + nameLength);
    const own = zip.readUInt32LE(at + 42);
    if (own !== next || own + 30 > first || zip.readUInt32LE(own) !== 0x04034b50) return false;
    const ownNameLength = zip.readUInt16LE(own + 26);
    const contents = own + 30 + ownNameLength + zip.readUInt16LE(own + 28);
    if (!zip.subarray(own + 30, own + 30 + ownNameLength).equals(name)) return false;
    next = contents + zip.readUInt32LE(at + 20);
    // Sizes that stand behind the contents, as where they were not known before.
    if ((zip.readUInt16LE(own + 6) & 8) !== 0) next += 16;
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return at === end && next === first;
}

/** The comment of an archive, from the digest of all bytes before it. */
export const commentOf = (sha256: string): string => `${COMMENT}${sha256}`;

/** It is meant as such a comment, also where a byte of it was changed. */
export const mayBeComment = (text: string): boolean =>
  text.startsWith(COMMENT.slice(0, 8)) || text.includes(COMMENT.slice(-8));

/** A file as it streams in: counted against the limit, hashed, kept in memory while small, on disk when large. */
import { createHash } from 'node:crypto';
import { type FileHandle, mkdtemp, open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { SpooledFile } from '../../record/index.ts';
import { RequestRefused } from '../errors.ts';

const IN_MEMORY_BYTES = 16 * 1024 * 1024;
const CHUNK_BYTES = 256 * 1024;

export interface Spool {
  readonly sha256: string;
  readonly sizeBytes: number;
  /** For the record. */
  readonly file: Uint8Array | SpooledFile;
  /** For intake: the bytes, or the path of the file. */
  readonly source: Uint8Array | string;
  /** Its first bytes. */
  head(): Promise<Uint8Array>;
  /** Lets the file on disk go. */
  release(): Promise<void>;
}

/**
 * @throws RequestRefused 413 as soon as more than `maxBytes` have come; 400 where nothing came
 */
export async function spool(
  stream: ReadableStream<Uint8Array> | null,
  options: {
    readonly folder: string;
    readonly fileName: string;
    readonly maxBytes: number;
    readonly onBytes?: (bytes: number) => void;
    /** Why more is not taken. */
    readonly tooLarge?: () => RequestRefused;
  },
): Promise<Spool> {
  const refused = options.tooLarge ?? (() => tooLarge(options.fileName, options.maxBytes));
  const digest = createHash('sha256');
  const parts: Uint8Array[] = [];
  let sizeBytes = 0;
  let disk: { folder: string; path: string; handle: FileHandle } | null = null;
  const release = async () => {
    await disk?.handle.close().catch(() => {});
    if (disk !== null) await rm(disk.folder, { recursive: true, force: true });
  };
  try {
    // biome-ignore lint/suspicious/noExplicitAny: web streams are async iterable in Node, their DOM type is not.
    for await (const chunk of (stream ?? []) as any as AsyncIterable<Uint8Array>) {
      sizeBytes += chunk.length;
      if (sizeBytes > options.maxBytes) throw refused();
      digest.update(chunk);
      if (disk === null && sizeBytes > IN_MEMORY_BYTES) {
        const folder = await mkdtemp(join(options.folder, 'incoming-'));
        const path = join(folder, 'file');
        disk = { folder, path, handle: await open(path, 'wx') };
        for (const part of parts.splice(0)) await disk.handle.write(part);
      }
      if (disk === null) parts.push(chunk);
      else await disk.handle.write(chunk);
      options.onBytes?.(sizeBytes);
    }
  } catch (error) {
    await release();
    if (error instanceof RequestRefused || isOfDisk(error)) throw error;
    throw new RequestRefused(
      400,
      'cancelled',
      `The sending of ${options.fileName} broke off; nothing of it was stored.`,
      { file: options.fileName },
    );
  }
  const sha256 = digest.digest('hex');
  if (disk === null) {
    const bytes = new Uint8Array(Buffer.concat(parts));
    const head = async () => bytes.subarray(0, CHUNK_BYTES);
    return { sha256, sizeBytes, file: bytes, source: bytes, head, release };
  }
  const { path } = disk;
  const file: SpooledFile = { sha256, sizeBytes, read: () => chunksOf(path) };
  const head = async () => {
    for await (const chunk of chunksOf(path)) return chunk;
    return new Uint8Array();
  };
  return { sha256, sizeBytes, file, source: path, head, release };
}

/** Pieces of a stored file as the body of an answer, each read when it is asked for. */
export function bodyOf(pieces: AsyncIterable<Uint8Array>): ReadableStream<Uint8Array> {
  const each = pieces[Symbol.asyncIterator]();
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      const { done, value } = await each.next();
      if (done === true) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await each.return?.();
    },
  });
}

/** The file in chunks, all read into the same memory: each is only good until the next is asked for. */
async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path, 'r');
  const chunk = new Uint8Array(CHUNK_BYTES);
  try {
    for (;;) {
      const { bytesRead } = await file.read(chunk, 0, CHUNK_BYTES, null);
      if (bytesRead === 0) return;
      yield chunk.subarray(0, bytesRead);
    }
  } finally {
    await file.close();
  }
}

/** Errors of the file system carry the call that failed; those of a connection do not. */
function isOfDisk(error: unknown): boolean {
  const { syscall } = error as NodeJS.ErrnoException;
  return syscall === 'write' || syscall === 'open' || syscall === 'mkdtemp';
}

export function tooLarge(fileName: string, maxBytes: number): RequestRefused {
  return new RequestRefused(
    413,
    'too-large',
    `${fileName} is larger than this server takes; start it with a higher --max-upload, or cut the file.`,
    { file: fileName, expected: `at most ${Math.round(maxBytes / 1e6)} MB` },
  );
}

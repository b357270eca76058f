import { open, stat } from 'node:fs/promises';
import { FormatError, InputError } from '../errors.ts';

/** A path, the bytes themselves, or bytes as they arrive. */
export type RunSource = string | Uint8Array | AsyncIterable<Uint8Array>;

/** A file's bytes with its first part looked at already; `chunks` gives all of them, from the start. */
export interface OpenedSource {
  readonly head: Uint8Array;
  /** The head is all there is. */
  readonly whole: boolean;
  readonly totalBytes: number | null;
  chunks(): AsyncIterable<Uint8Array>;
  /** Lets go of the file, whether or not it was read to its end. */
  close(): Promise<void>;
}

/** Enough to see preamble, header and some hundred rows. */
const HEAD_BYTES = 256 * 1024;
const CHUNK_BYTES = 1024 * 1024;

/**
 * A disk file as chunks, the next being read while one is worked on. Each chunk is only good until the next is asked
 * for.
 */
async function* chunksOfFile(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path, 'r');
  let here = new Uint8Array(CHUNK_BYTES);
  let ahead = new Uint8Array(CHUNK_BYTES);
  let reading = file.read(here, 0, CHUNK_BYTES, null);
  try {
    for (;;) {
      const { bytesRead } = await reading;
      if (bytesRead === 0) return;
      reading = file.read(ahead, 0, CHUNK_BYTES, null);
      // Whether it fails is found out when it is waited for.
      reading.catch(() => undefined);
      yield here.subarray(0, bytesRead);
      [here, ahead] = [ahead, here];
    }
  } finally {
    await reading.catch(() => undefined);
    await file.close();
  }
}

async function* chunksOfBytes(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += CHUNK_BYTES) {
    // Room for progress and cancelling between chunks, as with a file on disk.
    if (at > 0) await new Promise((resolve) => setImmediate(resolve));
    yield bytes.subarray(at, at + CHUNK_BYTES);
  }
}

/**
 * Opens a source and looks at its head.
 * @throws InputError   there is no such file, or it cannot be read
 * @throws FormatError  the file is empty
 */
export async function openSource(source: RunSource, fileName: string): Promise<OpenedSource> {
  let totalBytes: number | null = null;
  let stream: AsyncIterable<Uint8Array>;
  if (typeof source === 'string') {
    totalBytes = await sizeOf(source, fileName);
    stream = chunksOfFile(source);
  } else if (source instanceof Uint8Array) {
    totalBytes = source.length;
    stream = chunksOfBytes(source);
  } else stream = source;

  const iterator = stream[Symbol.asyncIterator]();
  const parts: Uint8Array[] = [];
  let length = 0;
  let ended = false;
  while (length < HEAD_BYTES) {
    const next = await iterator.next();
    if (next.done === true) {
      ended = true;
      break;
    }
    // A reader may use its buffer again: what is kept is copied.
    parts.push(new Uint8Array(next.value));
    length += next.value.length;
  }
  const head = Buffer.concat(parts);
  if (head.length === 0)
    throw new FormatError('the file is empty: it has no bytes at all', {
      file: fileName,
      line: 1,
      found: 'nothing',
      expected: 'a header and rows of a run',
    });
  async function* chunks(): AsyncGenerator<Uint8Array> {
    yield head;
    while (!ended) {
      const next = await iterator.next();
      if (next.done === true) return;
      yield next.value;
    }
  }
  return {
    head,
    whole: ended,
    totalBytes: ended ? head.length : totalBytes,
    chunks,
    close: async () => {
      await iterator.return?.();
    },
  };
}

async function sizeOf(path: string, fileName: string): Promise<number> {
  let found: Awaited<ReturnType<typeof stat>>;
  try {
    found = await stat(path);
  } catch (cause) {
    const missing = (cause as NodeJS.ErrnoException).code === 'ENOENT';
    throw new InputError(
      missing ? 'there is no such file' : 'the file cannot be read',
      { file: fileName, expected: 'the path of a run file' },
      cause,
    );
  }
  if (!found.isFile())
    throw new InputError('this is a folder or a device, not a file: name the files in it', {
      file: fileName,
      expected: 'the path of a run file',
    });
  return found.size;
}

/** All bytes of a source, for formats that cannot be read in one pass. */
export async function allBytes(
  opened: OpenedSource,
  fileName: string,
  maxBytes: number,
): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of opened.chunks()) {
    length += chunk.length;
    if (length > maxBytes)
      throw new FormatError(
        `the file is larger than ${Math.round(maxBytes / 1e6)} MB, too large to read whole in this format: export the run as text`,
        { file: fileName, found: `more than ${Math.round(maxBytes / 1e6)} MB` },
      );
    parts.push(new Uint8Array(chunk));
  }
  return Buffer.concat(parts);
}

import { FormatError } from '../errors.ts';

type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** What the first bytes of a file say about how its text is written. */
interface EncodingGuess {
  readonly encoding: Encoding;
  /** Bytes of the byte-order mark to leave out. */
  readonly skip: number;
}

const SIGNATURES: readonly (readonly [readonly number[], string])[] = [
  [[0x25, 0x50, 0x44, 0x46], 'a PDF document'],
  [[0x89, 0x50, 0x4e, 0x47], 'a picture'],
  [[0xff, 0xd8, 0xff], 'a picture'],
  [[0x47, 0x49, 0x46, 0x38], 'a picture'],
  [[0x1f, 0x8b], 'a gzip archive'],
  [[0x50, 0x4b, 0x03, 0x04], 'a zip archive'],
  [[0x37, 0x7a, 0xbc, 0xaf], 'an archive'],
  [[0xd0, 0xcf, 0x11, 0xe0], 'an old binary spreadsheet or document (save it as .xlsx or as text)'],
  [[0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], 'a database'],
  [[0x7f, 0x45, 0x4c, 0x46], 'a program'],
  [[0x4d, 0x5a], 'a program'],
];

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, at) => bytes[at] === byte);
}

/** `PK`, as every .xlsx starts. */
export function isZip(head: Uint8Array): boolean {
  return startsWith(head, [0x50, 0x4b, 0x03, 0x04]);
}

/** `PAR1`, as every Parquet file starts and ends. */
export function isParquet(head: Uint8Array): boolean {
  return startsWith(head, [0x50, 0x41, 0x52, 0x31]);
}

/**
 * Encoding of a text file from its first bytes.
 * @param whole  the head is the whole file, so a cut character at its end is a fault
 * @throws FormatError  the bytes are not text
 */
export function sniffEncoding(head: Uint8Array, fileName: string, whole: boolean): EncodingGuess {
  if (startsWith(head, [0xef, 0xbb, 0xbf])) {
    refuseControls(head, fileName);
    return { encoding: 'utf-8', skip: 3 };
  }
  if (startsWith(head, [0xff, 0xfe])) return { encoding: 'utf-16le', skip: 2 };
  if (startsWith(head, [0xfe, 0xff])) return { encoding: 'utf-16be', skip: 2 };
  const wide = sniffWide(head);
  if (wide !== null) return { encoding: wide, skip: 0 };
  refuseControls(head, fileName);
  return { encoding: isUtf8(head, whole) ? 'utf-8' : 'windows-1252', skip: 0 };
}

/** Text in 16-bit units without a mark: every other byte of ASCII is zero. */
function sniffWide(head: Uint8Array): Encoding | null {
  const pairs = Math.min(head.length >> 1, 2048);
  if (pairs < 2) return null;
  let evenZeros = 0;
  let oddZeros = 0;
  for (let pair = 0; pair < pairs; pair++) {
    if (head[2 * pair] === 0) evenZeros++;
    if (head[2 * pair + 1] === 0) oddZeros++;
  }
  if (oddZeros > 0.8 * pairs && evenZeros < 0.05 * pairs) return 'utf-16le';
  if (evenZeros > 0.8 * pairs && oddZeros < 0.05 * pairs) return 'utf-16be';
  return null;
}

function refuseControls(bytes: Uint8Array, fileName: string): void {
  // Loggers that claim their file's room beforehand leave zeros behind the last line.
  let length = bytes.length;
  while (length > 0 && bytes[length - 1] === 0) length--;
  const head = length === 0 ? bytes : bytes.subarray(0, length);
  const kind = SIGNATURES.find(([signature]) => startsWith(head, signature))?.[1];
  let strange = 0;
  for (const byte of head) {
    if (byte === 0) strange += 2;
    else if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13 && byte !== 12 && byte !== 26)
      strange++;
  }
  // A stray control byte in a comment is no reason to refuse; a file of them is not text.
  const binary = strange > 0.04 * head.length && strange > 4;
  if (kind === undefined && !binary) return;
  if (kind !== undefined && !binary && head.every((byte) => byte < 128)) return;
  throw new FormatError(
    `the file is binary${kind === undefined ? '' : ` (${kind})`}, not a table: export the run as text, .xlsx or Parquet`,
    {
      file: fileName,
      line: 1,
      found: kind ?? 'binary data',
      expected: 'delimited text, a spreadsheet (.xlsx) or Parquet',
    },
  );
}

function isUtf8(head: Uint8Array, whole: boolean): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: !whole });
    return true;
  } catch {
    return false;
  }
}

/** The chunks as bytes in which ASCII means ASCII: 16-bit text becomes UTF-8, all else stays as it is. */
export async function* asBytes(
  chunks: AsyncIterable<Uint8Array>,
  guess: EncodingGuess,
): AsyncGenerator<Uint8Array> {
  let skip = guess.skip;
  const wide =
    guess.encoding === 'utf-16le' || guess.encoding === 'utf-16be'
      ? new TextDecoder(guess.encoding, { ignoreBOM: true })
      : null;
  const encoder = new TextEncoder();
  for await (const chunk of chunks) {
    const left = Math.min(skip, chunk.length);
    skip -= left;
    const bytes = left === 0 ? chunk : chunk.subarray(left);
    if (bytes.length === 0) continue;
    yield wide === null ? bytes : encoder.encode(wide.decode(bytes, { stream: true }));
  }
  if (wide !== null) {
    const rest = encoder.encode(wide.decode());
    if (rest.length > 0) yield rest;
  }
}

/** Text of bytes that asBytes gave out. */
export function decoderFor(encoding: Encoding): TextDecoder {
  return new TextDecoder(encoding === 'windows-1252' ? 'windows-1252' : 'utf-8', {
    ignoreBOM: true,
  });
}

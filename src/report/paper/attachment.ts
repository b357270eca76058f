import { inflateSync } from 'node:zlib';

/** The most that an attached bundle may unpack to. */
const MOST_BYTES = 2 ** 30;
/** How far the words that describe a stream may reach to either side of its type [bytes]. */
const MOST_HEAD = 4096;
const TYPE = '/EmbeddedFile';

export interface Attached {
  readonly bytes: Uint8Array;
  /** How many files ride in the report; ours have one. */
  readonly count: number;
}

/**
 * The first file that rides in a PDF of ours: the stream that calls itself an embedded file (ISO 32000-2, 7.11.4). Null
 * where the file is no PDF, or holds none that can be read.
 */
export function attachedIn(pdf: Uint8Array): Attached | null {
  const all = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.length);
  if (all.toString('latin1', 0, 5) !== '%PDF-') return null;
  let bytes: Uint8Array | null = null;
  let count = 0;
  for (let at = all.indexOf(TYPE); at !== -1; at = all.indexOf(TYPE, at + 1)) {
    const from = Math.max(0, at - MOST_HEAD);
    const near = all.toString('latin1', from, at + MOST_HEAD);
    const own = near.lastIndexOf(' obj', at - from);
    const start = near.indexOf('stream', at - from);
    if (own === -1 || start === -1) continue;
    const head = near.slice(own, start);
    const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
    if (!/\/Type\s*\/EmbeddedFile\b/.test(head) || !(length > 0)) continue;
    count += 1;
    if (bytes !== null) continue;
    const first = from + start + 'stream'.length + (near.startsWith('\r\n', start + 6) ? 2 : 1);
    bytes = unpacked(pdf.subarray(first, first + length), head);
    if (bytes === null) return null;
  }
  return bytes === null ? null : { bytes, count };
}

function unpacked(bytes: Uint8Array, head: string): Uint8Array | null {
  if (!/\/FlateDecode/.test(head)) return bytes;
  try {
    return new Uint8Array(inflateSync(bytes, { maxOutputLength: MOST_BYTES }));
  } catch {
    return null;
  }
}

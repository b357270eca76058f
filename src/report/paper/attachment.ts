import { inflateSync } from 'node:zlib';

/** The most that an attached bundle may unpack to. */
const MOST_BYTES = 2 ** 30;

/**
 * The file that rides in a PDF of ours: the stream that calls itself an embedded file (ISO 32000-2, 7.11.4). Null where
 * the file is no PDF, or holds none that can be read.
 */
export function attachedIn(pdf: Uint8Array): Uint8Array | null {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.length).toString('latin1');
  if (!text.startsWith('%PDF-')) return null;
  for (
    let at = text.indexOf('/EmbeddedFile');
    at !== -1;
    at = text.indexOf('/EmbeddedFile', at + 1)
  ) {
    const from = text.lastIndexOf(' obj', at);
    const start = text.indexOf('stream', at);
    if (from === -1 || start === -1) continue;
    const head = text.slice(from, start);
    const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
    if (!/\/Type\s*\/EmbeddedFile\b/.test(head) || !(length > 0)) continue;
    const first = start + 'stream'.length + (text.startsWith('\r\n', start + 6) ? 2 : 1);
    const bytes = pdf.subarray(first, first + length);
    if (!/\/FlateDecode/.test(head)) return bytes;
    try {
      return new Uint8Array(inflateSync(bytes, { maxOutputLength: MOST_BYTES }));
    } catch {
      return null;
    }
  }
  return null;
}

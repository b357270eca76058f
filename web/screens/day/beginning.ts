/** Enough for a header and some rows of any logger. */
const BYTES = 6000;
const LINES = 8;

/** The first lines of a file as text, so that a person sees what stands under its headers; null where it is no text. */
export async function beginningOf(file: Blob): Promise<string | null> {
  const bytes = new Uint8Array(await file.slice(0, BYTES).arrayBuffer());
  const text = new TextDecoder(encodingOf(bytes)).decode(bytes);
  if (/[^\P{Cc}\s]/u.test(text)) return null;
  // The last line may be cut off, unless it is all there is.
  const lines = text.split(/\r\n|\n|\r/);
  return lines
    .slice(0, Math.min(LINES, Math.max(1, lines.length - 1)))
    .join('\n')
    .trimEnd();
}

function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return 'utf-8';
}

/** What a file is, by its bytes and never by its name, and how a browser may be handed it without running any of it. */
/** Formats say what they are at their beginning; those in a zip within their first entries. */
const LOOKED_AT_BYTES = 256 * 1024;

/** Pictures that browsers draw, and that hold nothing that could run. */
const PICTURES = new Set(['image/jpeg', 'image/png', 'image/webp', 'image/gif', 'image/avif']);

/**
 * Media type of a file. Text is told apart by its first mark: `image/svg+xml`, `text/html`, else `text/csv` where the
 * name says so and `text/plain` where not.
 * @returns `application/octet-stream` where the bytes say nothing known
 */
export async function mediaTypeOf(head: Uint8Array, fileName: string): Promise<string> {
  const looked = head.subarray(0, LOOKED_AT_BYTES);
  const text = textOf(looked);
  if (text !== null) {
    const marked = markupOf(text);
    if (marked !== null) return marked;
  }
  // Damaged files may end where the format says that more follows.
  const { fileTypeFromBuffer } = await import('file-type');
  const found = await fileTypeFromBuffer(looked).catch(() => undefined);
  if (found !== undefined) return found.mime.toLowerCase();
  if (text === null) return 'application/octet-stream';
  return /\.[ct]sv$/i.test(fileName) ? 'text/csv' : 'text/plain';
}

/** The beginning as text; null where it is none. */
function textOf(head: Uint8Array): string | null {
  if (head.length === 0) return null;
  // A character may be cut at the end of what is looked at.
  const decoder = new TextDecoder(
    isUtf16(head) ? `utf-16${head[0] === 0xfe ? 'be' : 'le'}` : 'utf-8',
    {
      fatal: true,
    },
  );
  try {
    const text = decoder.decode(head, { stream: true });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: such characters are what tells bytes from text
    return /[\u0000-\u0008\u000b\u000e-\u001a\u001c-\u001f]/.test(text) ? null : text;
  } catch {
    return null;
  }
}

const isUtf16 = (head: Uint8Array) =>
  (head[0] === 0xff && head[1] === 0xfe) || (head[0] === 0xfe && head[1] === 0xff);

/** What a text that begins with a mark is: drawings and pages may carry scripts, so they are never taken for plain text. */
function markupOf(text: string): string | null {
  const bare = text
    .replace(/^\uFEFF/, '')
    .replace(/^(?:\s+|<\?[^>]*\?>|<!--[\s\S]*?-->|<!doctype[^>[]*(?:\[[^\]]*\])?\s*>)+/i, '');
  if (/^<(?:[\w.-]+:)?svg[\s>/]/i.test(bare)) return 'image/svg+xml';
  if (/^\uFEFF?\s*<!doctype\s+html|<(?:html|head|body|script|iframe)[\s>/]/i.test(text))
    return 'text/html';
  return bare.startsWith('<') ? 'application/xml' : null;
}

/**
 * Headers under which the bytes are handed out. Only pictures and plain text open in the browser; everything else is
 * kept as a file by whoever opens it. A policy without any permission goes with all of them, so that a drawing or a page
 * that is opened all the same runs nothing and fetches nothing.
 */
export function safeToOpen(mediaType: string, fileName: string): Record<string, string> {
  const opens = PICTURES.has(mediaType) || mediaType === 'text/plain';
  // A page or program is nothing to a browser but bytes; a drawing is drawn, without its scripts, where it is a picture.
  const named =
    opens ||
    mediaType === 'image/svg+xml' ||
    /^(?:image|application\/pdf|text\/csv)/.test(mediaType);
  return {
    'content-type': !named
      ? 'application/octet-stream'
      : mediaType.startsWith('text/')
        ? `${mediaType}; charset=utf-8`
        : mediaType,
    'content-disposition': `${opens ? 'inline' : 'attachment'}; filename*=UTF-8''${headerText(fileName)}`,
    'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    'x-content-type-options': 'nosniff',
  };
}

/** A file name as a header may carry it: RFC 5987 leaves fewer characters alone than encodeURIComponent. */
export const headerText = (text: string) =>
  encodeURIComponent(text.replace(/[\ud800-\udfff]/gu, '\ufffd')).replace(
    /['()*]/g,
    (letter) => `%${letter.charCodeAt(0).toString(16).toUpperCase()}`,
  );

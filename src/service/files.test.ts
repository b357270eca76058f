import { describe, expect, it } from 'vitest';
import type { BuildFile } from '../record/index.ts';
import { MAX_FILE_BYTES } from './routes/files.ts';
import { type Asked, withApp } from './testing.ts';

type Shown = BuildFile & { mediaType: string; sizeBytes: number };

/** The smallest whole picture of each kind that the check of its first bytes asks for. */
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);
const JPEG = Buffer.from('ffd8ffe000104a46494600010100000100010000ffd9', 'hex');
const WEBP = Buffer.concat([
  Buffer.from('RIFF\x1a\0\0\0WEBPVP8L', 'latin1'),
  Buffer.from('0d0000002f00000010071011118888fe0700', 'hex'),
]);
const HEIC = Buffer.concat([
  Buffer.from('00000018', 'hex'),
  Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1'),
  Buffer.alloc(64),
]);
const SCRIPT = '<script>fetch("/api/v1/shop")</script>';
const SVG = `<?xml version="1.0"?><!-- a --><svg xmlns="http://www.w3.org/2000/svg">${SCRIPT}</svg>`;

async function oneBuild({ json }: Asked): Promise<string> {
  const engine = await json<{ id: string }>('POST', '/engines', { name: 'Six' }, 201);
  const path = `/engines/${engine.id}/builds`;
  return (await json<{ id: string }>('POST', path, { name: 'First' }, 201)).id;
}
const put = ({ json }: Asked, build: string, name: string, bytes: Uint8Array | string, more = '') =>
  json<Shown>(
    'POST',
    `/builds/${build}/files?name=${encodeURIComponent(name)}${more}`,
    typeof bytes === 'string' ? Buffer.from(bytes) : bytes,
    201,
  );

describe('photos and files over HTTP', () => {
  it('are put, listed, opened, captioned, moved, removed and brought back', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const build = await oneBuild(asked);
      const list = () => json<Shown[]>('GET', `/builds/${build}/files`);
      expect(await list()).toEqual([]);
      const photo = await put(
        asked,
        build,
        'bore 1.png',
        PNG,
        '&section=block&caption=after%20hone',
      );
      expect(photo).toMatchObject({
        fileName: 'bore 1.png',
        section: 'block',
        caption: 'after hone',
        mediaType: 'image/png',
        sizeBytes: PNG.length,
      });
      const again = `/builds/${build}/files?name=copy.png&section=block`;
      expect(await json('POST', again, PNG)).toEqual(photo);
      const bytes = await ask('GET', `/api/v1/files/${photo.id}/bytes`);
      expect(Buffer.from(await bytes.arrayBuffer()).equals(PNG)).toBe(true);
      const moved = { section: null, caption: '' };
      expect(await json('PATCH', `/files/${photo.id}`, moved)).toMatchObject(moved);
      await json('PATCH', `/files/${photo.id}`, { section: 'engine room' }, 422);
      await json('PATCH', `/files/${photo.id}`, { sha256: 'x' }, 400);
      await json('DELETE', `/files/${photo.id}`, undefined, 204);
      expect(await list()).toEqual([]);
      await json('GET', `/files/${photo.id}/bytes`, undefined, 404);
      await json('POST', '/undo');
      expect(await list()).toEqual([{ ...photo, ...moved }]);
      await json('POST', '/builds/build_none/files?name=a.png', PNG, 404);
      await json('POST', `/builds/${build}/files?name=a.png&section=nowhere`, PNG, 422);
      await json('POST', `/builds/${build}/files?name=a.png`, Buffer.alloc(0), 422);
      await json('GET', '/builds/build_none/files', undefined, 404);
    }));

  it('are what their bytes say, whatever they are called, and never run when they are opened', () =>
    withApp(async (asked) => {
      const build = await oneBuild(asked);
      const cases: [name: string, bytes: Uint8Array | string, type: string, opens: boolean][] = [
        ['a.jpg', JPEG, 'image/jpeg', true],
        ['a.webp', WEBP, 'image/webp', true],
        ['a.heic', HEIC, 'image/heic', false],
        ['page.html', PNG, 'image/png', true],
        ['card.pdf', '%PDF-1.7\n1 0 obj<<>>endobj', 'application/pdf', false],
        ['flow.csv', 'lift,cfm\n0.1,62\n', 'text/csv', false],
        ['note.txt', 'ring gaps filed twice', 'text/plain', true],
        ['less.txt', 'clearance < 0.04 mm', 'text/plain', true],
        // Words with a mark that would run are kept, not opened.
        ['page.txt', 'clearance, then <script>alert(1)</script', 'text/html', false],
        ['photo.jpg', `<!doctype html>${SCRIPT}`, 'text/html', false],
        ['photo.png', SVG, 'image/svg+xml', false],
        ['drawing.svg', `\uFEFF <!DOCTYPE svg [<!ENTITY a "b">]>${SVG}`, 'image/svg+xml', false],
        ['wide.txt', Buffer.from(`\uFEFF<html>${SCRIPT}`, 'utf16le'), 'text/html', false],
        ['a.png', Buffer.from([0, 1, 2, 3, 250, 251]), 'application/octet-stream', false],
        ['cut.png', PNG.subarray(0, 9), 'application/octet-stream', false],
        ['cut.zip', Buffer.from('PK\x03\x04\xff', 'latin1'), 'application/zip', false],
      ];
      for (const [name, bytes, type, opens] of cases) {
        const file = await put(asked, build, name, bytes);
        const answer = await asked.ask('GET', `/api/v1/files/${file.id}/bytes`);
        await answer.arrayBuffer();
        const head = (key: string) => answer.headers.get(key) ?? '';
        expect([name, file.mediaType, head('content-disposition').startsWith('inline')]).toEqual([
          name,
          type,
          opens,
        ]);
        expect(head('content-security-policy')).toMatch(/default-src 'none'.*sandbox$/);
        expect(head('x-content-type-options')).toBe('nosniff');
        expect(head('content-type')).not.toMatch(/html|xml(?!$)|javascript/);
        if (head('content-type').includes('svg')) expect(opens).toBe(false);
      }
    }));

  it('keep a name as it came, as text: another direction, a script, an emoji, a path, a long one', () =>
    withApp(async (asked) => {
      const build = await oneBuild(asked);
      const names = [
        'photo\u202egpj.exe',
        'צילום בלוק.jpg',
        '"><img src=x onerror=alert(1)>.jpg',
        '🔧👨‍🔧.jpg',
        '../../etc/passwd',
        "a'b(c)*;\r\nset-cookie: x=1.jpg",
        `${'long '.repeat(50)}.jpg`,
      ];
      for (const [index, name] of names.entries()) {
        const file = await put(asked, build, name, Buffer.concat([JPEG, Buffer.from([index])]));
        expect(file.fileName).toBe(name);
        const answer = await asked.ask('GET', `/api/v1/files/${file.id}/bytes`);
        await answer.arrayBuffer();
        const header = answer.headers.get('content-disposition')!;
        expect(header).toMatch(/^inline; filename\*=UTF-8''[\w.%!~-]+$/);
        expect(decodeURIComponent(header.split("''")[1]!)).toBe(name);
      }
      const tooLong = `/builds/${build}/files?name=${'n'.repeat(256)}`;
      await asked.json('POST', tooLong, JPEG, 400);
    }));

  it('may be larger than any form, and are refused past 40 MB, told or counted', () =>
    withApp(async (asked) => {
      const build = await oneBuild(asked);
      const large = Buffer.alloc(18e6, 'x');
      JPEG.copy(large);
      const file = await put(asked, build, 'large.jpg', large);
      expect(file).toMatchObject({ sizeBytes: large.length, mediaType: 'image/jpeg' });
      const path = `/api/v1/builds/${build}/files?name=huge.jpg`;
      const told = await asked.ask('POST', path, JPEG, {
        'content-length': String(MAX_FILE_BYTES + 1),
      });
      expect(told.status).toBe(413);
      const counted = await asked.ask('POST', path, Buffer.alloc(MAX_FILE_BYTES + 1));
      expect(counted.status).toBe(413);
      const { error } = (await counted.json()) as { error: { message: string } };
      expect(error.message).toBe(
        'huge.jpg has more than 40 MB; make it smaller, or keep it beside the book.',
      );
      expect(await asked.json('GET', `/builds/${build}/files`)).toHaveLength(1);
    }));
});

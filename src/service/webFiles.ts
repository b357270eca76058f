/**
 * The built browser side, read once into memory. A request picks from this fixed list by its whole path; no
 * part of a request ever reaches the file system.
 */
import { createHash, randomBytes } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import type { MiddlewareHandler } from 'hono';
import { contentSecurityPolicy } from './guard.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
};
const NONCE_PLACE = '__CSP_NONCE__';

interface WebFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
  readonly etag: string;
}

/** Files by the path under which they are asked for; an empty map where nothing was built. */
export function readWebFiles(root: string | null): ReadonlyMap<string, WebFile> {
  const files = new Map<string, WebFile>();
  if (root === null || !existsSync(root)) return files;
  const walk = (folder: string, path: string) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const inner = join(folder, entry.name);
      if (entry.isDirectory()) walk(inner, `${path}${entry.name}/`);
      const type = TYPES[extname(entry.name)];
      if (!entry.isFile() || type === undefined) continue;
      const bytes = new Uint8Array(readFileSync(inner));
      const etag = `"${createHash('sha256').update(bytes).digest('hex').slice(0, 32)}"`;
      files.set(`${path}${entry.name}`, { bytes, type, etag });
    }
  };
  walk(root, '/');
  return files;
}

export function serveWeb(files: ReadonlyMap<string, WebFile>): MiddlewareHandler {
  const index = files.get('/index.html');
  return async (c, next) => {
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') return next();
    const file = files.get(c.req.path);
    if (file !== undefined && file !== index) {
      if (c.req.header('if-none-match') === file.etag) return c.body(null, 304);
      return c.body(file.bytes, 200, {
        'content-type': file.type,
        etag: file.etag,
        // Vite writes a digest into the name of everything under assets.
        'cache-control': c.req.path.startsWith('/assets/')
          ? 'public, max-age=31536000, immutable'
          : 'no-cache',
      });
    }
    // The root, and any other path that asks for a page, is a place inside the app.
    const wantsPage =
      c.req.path === '/' || file === index || (c.req.header('accept') ?? '').includes('text/html');
    if (index === undefined || !wantsPage || c.req.path.startsWith('/api/')) return next();
    const html = new TextDecoder().decode(index.bytes);
    const nonce = html.includes(NONCE_PLACE) ? randomBytes(16).toString('base64url') : null;
    return c.body(nonce === null ? html : html.replaceAll(NONCE_PLACE, nonce), 200, {
      'content-type': file?.type ?? 'text/html; charset=utf-8',
      'content-security-policy': contentSecurityPolicy(nonce),
      'cache-control': 'no-cache',
    });
  };
}

/**
 * Who may ask: only pages and programs that address this server by a name it goes by. A page of another site
 * can neither read (no sharing header is ever sent) nor write (Origin and Sec-Fetch-Site are checked), and a
 * foreign name that was made to point here is refused by the Host check.
 */
import type { MiddlewareHandler } from 'hono';
import { RequestRefused } from './errors.ts';

interface GuardOptions {
  /** Port the server listens on; known only once it does. */
  port(): number;
  /** Names beside localhost, 127.0.0.1 and [::1] under which it may be addressed. */
  readonly names: readonly string[];
}

const SAFE_METHODS = new Set(['GET', 'HEAD', 'OPTIONS']);
const OWN_NAMES = ['localhost', '127.0.0.1', '[::1]'];

export function guard(options: GuardOptions): MiddlewareHandler {
  const names = new Set([...OWN_NAMES, ...options.names.map((name) => name.toLowerCase())]);
  const isOurs = (host: string): boolean => {
    const match = /^(\[[0-9a-f:.]+\]|[^:[\]]+)(?::(\d+))?$/.exec(host.toLowerCase());
    if (match === null || !names.has(match[1]!)) return false;
    return Number(match[2] ?? '80') === options.port();
  };
  const isOurOrigin = (origin: string): boolean => {
    const match = /^https?:\/\/([^/]+)$/.exec(origin);
    return match !== null && isOurs(match[1]!);
  };

  return async (c, next) => {
    const host = c.req.header('host') ?? '';
    if (!isOurs(host)) {
      throw new RequestRefused(
        403,
        'host',
        'This server is not addressed by that name; open it as localhost, or start it with --name and the name you use.',
        { found: host.slice(0, 200), expected: `localhost:${options.port()}` },
      );
    }
    const origin = c.req.header('origin');
    const site = c.req.header('sec-fetch-site');
    const isWrite = !SAFE_METHODS.has(c.req.method);
    const foreign =
      (isWrite && origin !== undefined && !isOurOrigin(origin)) ||
      (isWrite && site !== undefined && site !== 'same-origin' && site !== 'none') ||
      // Links from elsewhere may open the app, but nothing elsewhere may embed or fetch from it.
      (site === 'cross-site' && c.req.header('sec-fetch-mode') !== 'navigate');
    if (foreign) {
      throw new RequestRefused(403, 'origin', 'A page of another site may not use this server.', {
        found: (origin ?? site ?? '').slice(0, 200),
      });
    }
    await next();
  };
}

/** What a page of ours may load: from here, and nothing from anywhere else. */
export function contentSecurityPolicy(nonce: string | null): string {
  const withNonce = nonce === null ? "'self'" : `'self' 'nonce-${nonce}'`;
  return [
    "default-src 'self'",
    `script-src ${withNonce}`,
    `style-src ${withNonce}`,
    // Pictures that the page itself makes for export.
    "img-src 'self' data: blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');
}

/** Headers of every answer. */
export function safeHeaders(): MiddlewareHandler {
  return async (c, next) => {
    await next();
    const set = (name: string, value: string) => {
      if (!c.res.headers.has(name)) c.res.headers.set(name, value);
    };
    set('content-security-policy', contentSecurityPolicy(null));
    set('x-content-type-options', 'nosniff');
    set('referrer-policy', 'no-referrer');
    set('x-frame-options', 'DENY');
    set('cross-origin-opener-policy', 'same-origin');
    set('cross-origin-resource-policy', 'same-origin');
    set('permissions-policy', 'camera=(), geolocation=(), microphone=()');
    if (c.req.path.startsWith('/api/')) set('cache-control', 'no-store');
  };
}

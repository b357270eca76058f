import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../record/testing.ts';
import { openApiDocument } from './contract/document.ts';
import { withApp } from './testing.ts';

const OURS = 'http://localhost:4040';

function builtWeb(folder: string): string {
  const root = join(folder, 'web');
  mkdirSync(join(root, 'assets'), { recursive: true });
  writeFileSync(
    join(root, 'index.html'),
    '<html><body><script nonce="__CSP_NONCE__" src="/assets/a.js"></script></body></html>',
  );
  writeFileSync(join(root, 'assets', 'a.js'), 'export {}');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  return root;
}

async function withWeb(
  work: (ask: Parameters<Parameters<typeof withApp>[0]>[0]['ask']) => Promise<void>,
) {
  const { folder, remove } = temporaryFolder();
  try {
    await withApp(({ ask }) => work(ask), { webRoot: builtWeb(folder) });
  } finally {
    remove();
  }
}

describe('who may ask', () => {
  it.each(['localhost:4040', '127.0.0.1:4040', '[::1]:4040', 'LOCALHOST:4040', 'shop.lan:4040'])(
    'answers to its own name %s',
    (host) =>
      withApp(
        async ({ ask }) => {
          expect((await ask('GET', '/api/v1/health', undefined, { host })).status).toBe(200);
        },
        { names: ['Shop.lan'] },
      ),
  );

  it.each([
    '',
    'localhost',
    'localhost:4041',
    'evil.example:4040',
    'localhost.evil.example:4040',
    'localhost:4040@evil.example',
    '127.0.0.1.evil.example:4040',
    '127.0.0.2:4040',
    'evil.example#localhost:4040',
  ])('refuses the strange host "%s" before anything is read', (host) =>
    withApp(async ({ ask }) => {
      for (const path of ['/api/v1/health', '/', '/anything']) {
        const answer = await ask('GET', path, undefined, { host });
        expect(answer.status).toBe(403);
        expect(await answer.json()).toMatchObject({ error: { code: 'host' } });
      }
    }),
  );

  it.each([
    [{ origin: 'http://evil.example' }],
    [{ origin: 'null' }],
    [{ origin: 'http://localhost:4041' }],
    [{ origin: 'http://localhost:4040.evil.example' }],
    [{ origin: `${OURS}/path` }],
    [{ 'sec-fetch-site': 'cross-site' }],
    [{ 'sec-fetch-site': 'same-site' }],
  ])('refuses a write by a page of another site: %j', (headers) =>
    withApp(async ({ ask, record }) => {
      const answer = await ask('POST', '/api/v1/cells', { name: 'C' }, headers as never);
      expect(answer.status).toBe(403);
      expect(await record.cells.list()).toEqual([]);
    }),
  );

  it('takes a write from its own page, and from a script that is no page', () =>
    withApp(async ({ ask }) => {
      for (const headers of [{}, { origin: OURS, 'sec-fetch-site': 'same-origin' }]) {
        expect((await ask('POST', '/api/v1/cells', { name: 'C' }, headers as never)).status).toBe(
          201,
        );
      }
    }));

  it('lets nothing of another site embed or fetch, though a link may open it', () =>
    withWeb(async (ask) => {
      const cross = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' };
      expect((await ask('GET', '/assets/a.js', undefined, cross)).status).toBe(403);
      const link = {
        'sec-fetch-site': 'cross-site',
        'sec-fetch-mode': 'navigate',
        accept: 'text/html',
      };
      expect((await ask('GET', '/', undefined, link)).status).toBe(200);
    }));
});

describe('what is served', () => {
  it('carries a strict policy on every answer, refusals too', () =>
    withWeb(async (ask) => {
      for (const path of [
        '/',
        '/assets/a.js',
        '/api/v1/health',
        '/api/v1/',
        '/none',
        '/api/v1/pulls/x',
      ]) {
        const { headers } = await ask('GET', path, undefined, { accept: 'text/html' });
        const policy = headers.get('content-security-policy') ?? '';
        expect(policy).toContain("default-src 'self'");
        expect(policy).toContain("frame-ancestors 'none'");
        expect(policy).not.toMatch(/unsafe|\*|https?:/);
        expect(headers.get('x-content-type-options')).toBe('nosniff');
        expect(headers.get('referrer-policy')).toBe('no-referrer');
        expect(headers.get('access-control-allow-origin')).toBeNull();
      }
      const strange = await ask('GET', '/', undefined, { host: 'evil.example' });
      expect(strange.headers.get('content-security-policy')).toContain("default-src 'self'");
    }));

  it('gives each page its own nonce', () =>
    withWeb(async (ask) => {
      const nonces = new Set<string>();
      for (const path of ['/', '/index.html', '/engines/abc']) {
        const answer = await ask('GET', path, undefined, { accept: 'text/html' });
        const nonce = /nonce="([\w-]{20,})"/.exec(await answer.text())![1]!;
        expect(answer.headers.get('content-security-policy')).toContain(`'nonce-${nonce}'`);
        nonces.add(nonce);
      }
      expect(nonces.size).toBe(3);
    }));

  it.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/assets/../../secret.txt',
    '/assets/..%5c..%5csecret.txt',
    '//secret.txt',
    '/assets/%00a.js',
    '/assets/a.js%00.html',
    '/etc/passwd',
    '/pullbook.sqlite',
    '/api/v1/recordings/..%2f..%2fpullbook.sqlite/bytes',
  ])('reaches no file of the computer by %s', (path) =>
    withWeb(async (ask) => {
      const answer = await ask('GET', path);
      expect(answer.status).toBe(404);
      expect(await answer.text()).not.toContain('secret\n');
    }),
  );

  it('opens at its root for whoever asks, and inside only for those who want a page', () =>
    withWeb(async (ask) => {
      expect((await ask('GET', '/', undefined, { accept: '*/*' })).status).toBe(200);
      expect((await ask('GET', '/engines/abc', undefined, { accept: '*/*' })).status).toBe(404);
      expect((await ask('GET', '/api/v1/none', undefined, { accept: 'text/html' })).status).toBe(
        404,
      );
    }));

  it('answers an unchanged file with 304', () =>
    withWeb(async (ask) => {
      const first = await ask('GET', '/assets/a.js');
      expect(first.headers.get('content-type')).toContain('text/javascript');
      const etag = first.headers.get('etag')!;
      expect((await ask('GET', '/assets/a.js', undefined, { 'if-none-match': etag })).status).toBe(
        304,
      );
    }));

  it('publishes its document and a page of it that loads nothing from elsewhere', () =>
    withApp(async ({ ask, json }) => {
      const document = await json<{ paths: object }>('GET', '/openapi.json');
      expect(document).toEqual(JSON.parse(JSON.stringify(openApiDocument())));
      const page = await (await ask('GET', '/api/v1/page')).text();
      for (const path of Object.keys(document.paths))
        expect(page).toContain(`<code>${path}</code>`);
      expect(page).not.toMatch(/<script|style=|(src|href)="(?!\/api\/v1\/|#)/);
    }));

  it('answers on every route that its document promises', () =>
    withApp(async ({ ask }) => {
      for (const [path, operations] of Object.entries(openApiDocument().paths!)) {
        for (const method of Object.keys(operations as object)) {
          const asked = path.replace(/\{event\}/, '1').replace(/\{\w+\}/g, 'none');
          const answer = await ask(method.toUpperCase(), `/api/v1${asked}?name=x`);
          const told = await answer.text();
          const isJson = answer.headers.get('content-type')?.includes('json') === true;
          const code = isJson && answer.status >= 400 ? JSON.parse(told).error.code : '';
          expect(code, `${method} ${path}`).not.toBe('not-found');
          expect(answer.status, `${method} ${path}: ${told.slice(0, 200)}`).toBeLessThan(500);
        }
      }
    }));

  it('hands out a whole backup', () =>
    withApp(async ({ ask, record, folder }) => {
      await record.cells.create({ name: 'Kept' });
      const answer = await ask('GET', '/api/v1/backup');
      expect(answer.headers.get('content-disposition')).toMatch(/attachment; filename="pullbook-/);
      const file = join(folder, 'downloaded.sqlite');
      writeFileSync(file, Buffer.from(await answer.arrayBuffer()));
      const db = new Database(file, { readonly: true });
      expect(db.prepare('SELECT name FROM cell').pluck().all()).toEqual(['Kept']);
      db.close();
    }));
});

describe('any body at all', () => {
  const writes = Object.entries(openApiDocument().paths!).flatMap(([path, operations]) =>
    Object.keys(operations as object)
      .filter((method) => method !== 'get')
      .map((method) => ({ method: method.toUpperCase(), path })),
  );

  it('is refused as the sender’s mistake, never as a fault of ours', async () => {
    await withApp(async ({ ask, record }) => {
      const cell = await record.cells.create({ name: 'C' });
      const engine = await record.engines.create({ name: 'E' });
      const build = await record.builds.create({ engineId: engine.id, name: 'B' });
      const day = await record.days.create({ buildId: build.id, cellId: cell.id });
      const pull = await record.pulls.create({ dayId: day.id });
      const [ladder] = await record.ladders.list();
      const ids = [cell.id, engine.id, build.id, day.id, pull.id, ladder!.id, 'none', '%00', '..'];
      const field = fc.oneof(
        fc.constantFrom(
          'name',
          'leadDeg',
          'bandRpm',
          'cellId',
          'configuration',
          'uses',
          'answers',
          'order',
          'patch',
          'id',
        ),
        fc.constantFrom(
          'torqueIs',
          'date',
          'knockHeard',
          'cylinders',
          'cycle',
          '__proto__',
          'peakPowerW',
        ),
        fc.string(),
      );
      const value = fc.oneof(
        fc.jsonValue(),
        fc.constantFrom(1e308, -1, 0.5, '', [6000, 3000], null),
      );
      const body = fc.oneof(
        fc.dictionary(field, value).map((object) => JSON.stringify(object)),
        fc.json(),
        fc.string(),
        fc.constant('{"name": "C"'),
      );
      await fc.assert(
        fc.asyncProperty(
          fc.constantFrom(...writes),
          fc.constantFrom(...ids),
          body,
          fc.constantFrom('application/json', 'text/plain', 'application/json; charset=utf-16'),
          async ({ method, path }, id, text, type) => {
            const answer = await ask(
              method,
              `/api/v1${path.replace(/\{\w+\}/g, id)}${path.endsWith('recordings') ? '?name=x.csv' : ''}`,
              method === 'DELETE' ? undefined : text,
              { 'content-type': type },
            );
            const told = await answer.text();
            expect(answer.status, `${method} ${path} ${text}: ${told}`).toBeLessThan(500);
            if (answer.status >= 400)
              expect((JSON.parse(told) as { error: { message: string } }).error.message).toMatch(
                /\w+ \w+/,
              );
          },
        ),
        { seed: 20260517, numRuns: 400 },
      );
    });
  }, 60_000);

  it('is refused when it is larger than any form', () =>
    withApp(async ({ ask }) => {
      const answer = await ask('POST', '/api/v1/cells', { name: 'x'.repeat(3_000_000) });
      expect(answer.status).toBe(413);
      expect(await answer.json()).toMatchObject({ error: { code: 'too-large' } });
    }));
});

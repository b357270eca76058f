/** A real service over a record of its own, and a real browser before it. */
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { serve } from '@hono/node-server';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { openRecord, type PullbookRecord } from '../../src/record/index.ts';
import { createApp } from '../../src/service/app.ts';
import { launchBrowser } from './browser.ts';

const root = resolve(import.meta.dirname, '../..');

export interface Stand {
  readonly url: string;
  readonly record: PullbookRecord;
  /** What the page and the service complained of; a test ends with none. */
  readonly complaints: readonly string[];
  /** A page in a browser of its own, without memory of any other. */
  open(path: string, look?: Look): Promise<Page>;
  close(): Promise<void>;
}

export interface Look {
  readonly scheme?: 'light' | 'dark';
  readonly width?: number;
  readonly height?: number;
}

export async function openStand(): Promise<Stand> {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-browser-'));
  const webRoot = await builtWeb(folder);
  const record = await openRecord(join(folder, 'data'));
  const complaints: string[] = [];
  let port = 0;
  const app = createApp(record, {
    port: () => port,
    webRoot,
    report: (error) => complaints.push(`service: ${String(error)}`),
  });
  const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: 0 });
  await new Promise<void>((ready) => server.once('listening', ready));
  port = (server.address() as AddressInfo).port;
  const browser: Browser = await launchBrowser();
  const contexts: BrowserContext[] = [];
  const url = `http://127.0.0.1:${port}`;

  return {
    url,
    record,
    complaints,
    async open(path, { scheme = 'light', width = 1440, height = 900 } = {}) {
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: scheme,
        reducedMotion: 'reduce',
        permissions: ['clipboard-read', 'clipboard-write'],
      });
      contexts.push(context);
      const page = await context.newPage();
      page.setDefaultTimeout(15_000);
      page.on('pageerror', (error) => complaints.push(`page: ${error.message}`));
      page.on('console', (message) => {
        // A refused request is an answer that tests ask for on purpose; the browser logs it as an error.
        if (message.type() === 'error' && !/status of (4\d\d)/.test(message.text()))
          complaints.push(`console on ${page.url()}: ${message.text()} ${message.location().url}`);
      });
      await page.goto(`${url}${path}`);
      return page;
    },
    async close() {
      for (const context of contexts) await context.close();
      await browser.close();
      await new Promise((done) => server.close(done));
      await record.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The built browser's side: dist/web where it is newer than all it is made of, otherwise made anew beside the record. */
async function builtWeb(folder: string): Promise<string> {
  const built = join(root, 'dist', 'web');
  const sources = ['web', 'src', 'vite.config.ts'].map((name) => newestMs(join(root, name)));
  const index = join(built, 'index.html');
  if (existsSync(index) && statSync(index).mtimeMs >= Math.max(...sources)) return built;
  const { build } = await import('vite');
  const outDir = join(folder, 'web');
  await build({
    configFile: join(root, 'vite.config.ts'),
    root: join(root, 'web'),
    logLevel: 'warn',
    build: { outDir },
  });
  return outDir;
}

function newestMs(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newestMs(join(path, name))));
}

/** From a folder to a server that answers: demo on the first run, record opened, listening, closing again. */
import { existsSync, readdirSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { createAdaptorServer } from '@hono/node-server';
import { InputError } from '../errors.ts';
import { openRecord, type PullbookRecord } from '../record/index.ts';
import { createApp } from './app.ts';
import { type DemoLoader, firstRun } from './firstRun.ts';

/** Taken where it is free; else any free one, unless a port was asked for. */
export const USUAL_PORT = 4310;
const LOOPBACK = '127.0.0.1';
/** A large recording over a workshop's network takes its time. */
const REQUEST_TIMEOUT_MS = 60 * 60 * 1000;

export interface StartOptions {
  /** Folder of the record; made where it is missing. */
  readonly folder: string;
  /** Left out: 4310, or a free one where that is taken. 0: any free one. */
  readonly port?: number;
  /** Left out: 127.0.0.1, which only this computer reaches. */
  readonly host?: string;
  /** Further names under which browsers may address it (a name in the workshop's network). */
  readonly names?: readonly string[];
  /** Left out: the built browser side beside this program; null: only the interface. */
  readonly webRoot?: string | null;
  /** Loaded when the folder has no record yet; null: start with an empty shop. Left out: the shipped demo. */
  readonly demo?: DemoLoader | null;
  readonly maxUploadBytes?: number;
  readonly version?: string;
  /** Lines for the terminal: progress of the first run, and what went wrong. */
  readonly say?: (line: string) => void;
}

export interface RunningService {
  /** `http://localhost:4310`, as a person opens it. */
  readonly address: string;
  readonly port: number;
  readonly record: PullbookRecord;
  /** Ends connections, closes the record, gives the folder back. */
  close(): Promise<void>;
}

/**
 * Starts the service and answers once it listens.
 * @throws StoreError when the record cannot be opened; InputError when the port or address cannot be had
 */
export async function startService(options: StartOptions): Promise<RunningService> {
  const say = options.say ?? ((line) => process.stderr.write(`${line}\n`));
  await firstRun(options.folder, options.demo, say);
  const record = await openRecord(options.folder);
  sweepLeftovers(record.folder);
  const host = options.host ?? LOOPBACK;
  const isWildcard = host === '0.0.0.0' || host === '::';
  let port = 0;
  const app = createApp(record, {
    port: () => port,
    names: [...(options.names ?? []), ...(isWildcard ? [] : [bracketed(host)])],
    webRoot: options.webRoot === undefined ? builtWebRoot() : options.webRoot,
    report: (error) => say(error instanceof Error ? (error.stack ?? error.message) : String(error)),
    ...(options.version === undefined ? {} : { version: options.version }),
    ...(options.maxUploadBytes === undefined ? {} : { maxUploadBytes: options.maxUploadBytes }),
  });
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  server.requestTimeout = REQUEST_TIMEOUT_MS;
  try {
    port = await listen(server, host, options.port);
  } catch (error) {
    await record.close();
    throw error;
  }
  const shown = host === LOOPBACK || isWildcard ? 'localhost' : bracketed(host);
  return {
    address: `http://${shown}:${port}`,
    port,
    record,
    async close() {
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
      await record.close();
    },
  };
}

/** Files in passing of a server that was killed; only whoever holds the folder may clear them away. */
function sweepLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (/^(incoming|backup)-\w{6}$/.test(name)) {
      rmSync(join(folder, name), { recursive: true, force: true });
    }
  }
}

const bracketed = (host: string) => (host.includes(':') ? `[${host}]` : host);

async function listen(server: Server, host: string, asked: number | undefined): Promise<number> {
  const at = (port: number) =>
    new Promise<number>((resolve, reject) => {
      server.once('error', reject);
      server.listen(port, host, () => {
        server.off('error', reject);
        resolve((server.address() as AddressInfo).port);
      });
    });
  try {
    return await at(asked ?? USUAL_PORT);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EADDRINUSE' && asked === undefined) return at(0);
    throw new InputError(
      code === 'EADDRINUSE'
        ? `Port ${asked} is taken by another program; choose another one with --port.`
        : code === 'EACCES'
          ? `Port ${asked ?? USUAL_PORT} may not be used by this user; choose one above 1024 with --port.`
          : `The address ${host} cannot be listened on; check --host.`,
      { found: code ?? String(error) },
      error,
    );
  }
}

/** `dist/web` beside the built command, or in the tree when run from the sources; null where nothing was built. */
function builtWebRoot(): string | null {
  const here = import.meta.dirname;
  const places = [join(here, 'web'), join(here, '..', '..', 'dist', 'web')];
  return places.find((place) => existsSync(join(place, 'index.html'))) ?? null;
}

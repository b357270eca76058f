/** The app over a fresh record, asked in process; for tests. */
import type { PullbookRecord } from '../record/index.ts';
import { withRecord } from '../record/testing.ts';
import { type AppOptions, createApp } from './app.ts';

const PORT = 4040;

export interface Asked {
  readonly record: PullbookRecord;
  readonly folder: string;
  /** Sends a request as our own page would; path with its base. */
  ask(
    method: string,
    path: string,
    body?: unknown,
    headers?: Record<string, string>,
  ): Promise<Response>;
  /** The same, read as JSON, refusing any other status than expected. */
  json<T = Record<string, unknown>>(
    method: string,
    path: string,
    body?: unknown,
    status?: number,
  ): Promise<T>;
}

export function withApp(
  work: (asked: Asked) => Promise<void>,
  options: Partial<AppOptions> = {},
): Promise<void> {
  return withRecord(async (record, folder) => {
    const app = createApp(record, {
      port: () => PORT,
      report: (error) => {
        throw error;
      },
      ...options,
    });
    const ask: Asked['ask'] = async (method, path, body, headers = {}) => {
      const raw = body instanceof Uint8Array || typeof body === 'string';
      return app.request(`http://localhost:${PORT}${path}`, {
        method,
        headers: {
          host: `localhost:${PORT}`,
          ...(body === undefined || raw ? {} : { 'content-type': 'application/json' }),
          ...headers,
        },
        ...(body === undefined
          ? {}
          : { body: raw ? (body as Uint8Array<ArrayBuffer>) : JSON.stringify(body) }),
      });
    };
    await work({
      record,
      folder,
      ask,
      async json<T>(method: string, path: string, body?: unknown, status = 200) {
        const answer = await ask(method, `/api/v1${path}`, body);
        const text = await answer.text();
        if (answer.status !== status)
          throw new Error(`${method} ${path}: ${answer.status} instead of ${status}: ${text}`);
        return (text === '' ? undefined : JSON.parse(text)) as T;
      },
    });
  });
}

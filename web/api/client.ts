/** The one way from the browser's side to the service: sends, reads, and turns refusals into one sentence. */

import type { Routes } from './types.gen.ts';

export const API_BASE = '/api/v1';

/** Where the trouble stands, as far as the service can say. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number | string;
  readonly found?: string;
  readonly expected?: string;
}

/** A refusal by the service (or its silence), with one sentence for the person at the screen. */
export class ServiceError extends Error {
  readonly code: string;
  readonly place: Place;

  constructor(message: string, code: string, place: Place = {}) {
    super(message);
    this.name = 'ServiceError';
    this.code = code;
    this.place = place;
  }
}

/** Reads the refusal's body; anything that is not one of ours becomes a plain sentence. */
export function refusalOf(status: number, text: string): ServiceError {
  try {
    const { error } = JSON.parse(text) as {
      error?: Place & { code?: string; message?: string };
    };
    if (error?.message !== undefined) {
      const { code = 'unknown', message, ...place } = error;
      return new ServiceError(message, code, place);
    }
  } catch {
    // Not JSON: the sentence below says what is known.
  }
  return new ServiceError(`The service answered with status ${status} and no reason.`, 'unknown');
}

export const SILENT = 'The service does not answer. Is Pullbook still running on this computer?';

let who = '';

/** The name under which changes are written down from now on. */
export function signChangesAs(name: string): void {
  who = name.trim();
}

/** The header that names who changes; left out where nobody said. */
export function signature(): Record<string, string> {
  return who === '' ? {} : { 'x-pullbook-who': encodeURIComponent(who) };
}

type Route = keyof Routes;
type Params<R extends Route> = Routes[R]['params'];
type Query<R extends Route> = Routes[R]['query'];
type Body<R extends Route> = Routes[R]['body'];

/** What a route needs: only those of params, query and body that it knows. */
export type Wants<R extends Route> = (Params<R> extends undefined
  ? { readonly params?: undefined }
  : { readonly params: Params<R> }) &
  (Body<R> extends undefined ? { readonly body?: undefined } : { readonly body: Body<R> }) & {
    readonly query?: Query<R>;
  };

/** Address of a route with its parameters filled in; what is undefined or null is left out of the query. */
export function addressOf(
  path: string,
  params: Readonly<Record<string, unknown>> = {},
  query: Readonly<Record<string, unknown>> = {},
): string {
  const filled = path.replace(/\{(\w+)\}/g, (_, name: string) =>
    encodeURIComponent(String(params[name])),
  );
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query))
    if (value !== undefined && value !== null) search.set(name, String(value));
  return `${API_BASE}${filled}${search.size === 0 ? '' : `?${search}`}`;
}

/**
 * Asks the service: `ask('GET /days/{id}/page', { params: { id } })`.
 * `keepalive`: goes out even where the page is closed meanwhile; for small bodies.
 * @throws ServiceError  with the service's own sentence, or with code `silent` where it does not answer
 */
export async function ask<R extends Route>(
  route: R,
  wants: Wants<R>,
  { keepalive = false }: { readonly keepalive?: boolean } = {},
): Promise<Routes[R]['answer']> {
  const [method, path] = route.split(' ') as [string, string];
  const body = wants.body as unknown;
  let answer: Response;
  try {
    answer = await fetch(
      addressOf(path, wants.params ?? {}, (wants.query ?? {}) as Record<string, unknown>),
      {
        method,
        keepalive,
        headers: {
          accept: 'application/json',
          ...signature(),
          ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      },
    );
  } catch {
    throw new ServiceError(SILENT, 'silent');
  }
  if (!answer.ok) throw refusalOf(answer.status, await answer.text());
  return (answer.status === 204 ? undefined : await answer.json()) as Routes[R]['answer'];
}

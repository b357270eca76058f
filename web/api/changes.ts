import { useMutation } from '@tanstack/react-query';
import { say, sayTrouble } from '../shell/toasts.tsx';
import { asSentence } from '../shell/words.ts';
import { ask } from './client.ts';
import { queryClient } from './queries.ts';
import type { DayPage, Pull, PullPatch, RecordEvent } from './types.gen.ts';

/**
 * Every change can touch counts and curves anywhere, so all that is shown is asked again. What was just being asked for
 * the first time may have been answered before the change, and is not asked anew while it is on its way: it is asked
 * once more when it has come.
 */
export async function refresh(): Promise<void> {
  const onTheirWay = new Set(
    queryClient
      .getQueryCache()
      .findAll({ fetchStatus: 'fetching' })
      .filter(({ state }) => state.data === undefined),
  );
  await queryClient.invalidateQueries();
  if (onTheirWay.size > 0)
    await queryClient.invalidateQueries({ predicate: (query) => onTheirWay.has(query) });
}

const sentenceOf = (error: unknown) => (error instanceof Error ? error.message : String(error));

async function travel(request: () => Promise<RecordEvent>, back: () => void): Promise<void> {
  try {
    const event = await request();
    await refresh();
    say(asSentence(event.summary), back);
  } catch (error) {
    sayTrouble(sentenceOf(error));
  }
}

/** Takes back the newest change that stands. */
export const undoLatest = (): Promise<void> =>
  travel(
    () => ask('POST /undo', {}),
    () => void redoLatest(),
  );
/** Brings back what was last taken back. */
export const redoLatest = (): Promise<void> =>
  travel(
    () => ask('POST /redo', {}),
    () => void undoLatest(),
  );
/** Takes back one change of the list. */
export const undoEvent = (event: number): Promise<void> =>
  travel(
    () => ask('POST /events/{event}/undo', { params: { event } }),
    () => void redoEvent(event),
  );
/** Brings back one change of the list. */
export const redoEvent = (event: number): Promise<void> =>
  travel(
    () => ask('POST /events/{event}/redo', { params: { event } }),
    () => void undoEvent(event),
  );

/** Says what was done; its way back takes back that very change, whatever came after it. */
export async function sayDone(sentence: string): Promise<void> {
  const [event] = await ask('GET /events', { query: { limit: 1 } });
  say(sentence, event === undefined ? undefined : () => void undoEvent(event.id));
}

interface ChangeOptions<T> {
  /** Said when done, with a way back; left out: done silently. */
  readonly done?: string | ((result: T) => string);
  readonly after?: (result: T) => void;
}

/** One change of the record: asked of the service, told in passing, undone from there. */
export function useChange<A, T>(
  request: (argument: A) => Promise<T>,
  { done, after }: ChangeOptions<T> = {},
) {
  return useMutation({
    mutationFn: request,
    onSuccess: async (result) => {
      await refresh();
      if (done !== undefined) await sayDone(typeof done === 'string' ? done : done(result));
      after?.(result);
    },
    onError: (error) => sayTrouble(sentenceOf(error)),
  });
}

export interface PullChanges {
  readonly dayId: string;
  readonly patches: readonly { readonly id: string; readonly patch: PullPatch }[];
  readonly what: string;
}

/** Changes pulls of a day; the table shows it at once and turns back where the service refuses. */
export function useChangePulls() {
  return useMutation({
    mutationFn: ({ dayId, patches }: PullChanges) =>
      ask('PATCH /days/{id}/pulls', { params: { id: dayId }, body: patches }),
    onMutate: async ({ dayId, patches }) => {
      const key = ['days', dayId, 'page'];
      await queryClient.cancelQueries({ queryKey: key });
      const before = queryClient.getQueryData<DayPage>(key);
      const byId = new Map(patches.map(({ id, patch }) => [id, patch]));
      if (before !== undefined)
        queryClient.setQueryData<DayPage>(key, {
          ...before,
          pulls: before.pulls.map((pull) => ({ ...pull, ...byId.get(pull.id) }) as Pull),
        });
      return { key, before };
    },
    onSuccess: (_, { what }) => sayDone(asSentence(what)),
    onError: (error, _, context) => {
      if (context?.before !== undefined) queryClient.setQueryData(context.key, context.before);
      sayTrouble(sentenceOf(error));
    },
    onSettled: refresh,
  });
}

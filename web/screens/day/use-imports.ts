import { useCallback, useReducer, useRef } from 'react';
import { refresh } from '../../api/changes.ts';
import { ServiceError } from '../../api/client.ts';
import { importFile, type Stage, UnknownColumns } from '../../api/import-file.ts';
import type { Imported, Understood } from '../../api/types.gen.ts';

/** One dropped file from the drop to its pulls, or to the sentence that says why not. */
export interface FileJob {
  readonly key: number;
  readonly file: File;
  readonly name: string;
  readonly state: 'waiting' | 'running' | 'done' | 'refused' | 'cancelled';
  readonly stage: Stage | null;
  readonly imported: Imported | null;
  readonly error: ServiceError | null;
}

/** What is known of a file that was refused only because nobody said what its columns are. */
export function unnamedColumnsOf({
  state,
  error,
}: Pick<FileJob, 'state' | 'error'>): Understood | null {
  return state === 'refused' && error instanceof UnknownColumns ? error.understood : null;
}

type Step =
  | { readonly kind: 'add'; readonly jobs: readonly FileJob[] }
  | { readonly kind: 'set'; readonly key: number; readonly to: Partial<FileJob> }
  | { readonly kind: 'clear' };

function reduce(jobs: readonly FileJob[], step: Step): readonly FileJob[] {
  if (step.kind === 'add') return [...jobs, ...step.jobs];
  if (step.kind === 'clear')
    return jobs.filter((job) => job.state === 'waiting' || job.state === 'running');
  return jobs.map((job) => (job.key === step.key ? { ...job, ...step.to } : job));
}

const byName = new Intl.Collator('en', { numeric: true });

/** The files on their way into a day: one after the other by name, since the order of pulls counts. */
export function useImports(dayId: string) {
  const [jobs, step] = useReducer(reduce, []);
  const nextKey = useRef(1);
  const cancels = useRef(new Map<number, AbortController>());
  const line = useRef<Promise<void>>(Promise.resolve());

  const run = useCallback(
    async (key: number, file: File) => {
      const { signal } = cancels.current.get(key)!;
      const set = (to: Partial<FileJob>) => step({ kind: 'set', key, to });
      if (signal.aborted) return;
      set({ state: 'running', stage: { words: 'sending', share: 0 } });
      try {
        const imported = await importFile(dayId, file, (stage) => set({ stage }), signal);
        set({ state: 'done', imported, stage: null });
        await refresh();
      } catch (error) {
        const known =
          error instanceof ServiceError ? error : new ServiceError(String(error), 'unknown');
        set({
          state: known.code === 'cancelled' ? 'cancelled' : 'refused',
          error: known,
          stage: null,
        });
      } finally {
        cancels.current.delete(key);
      }
    },
    [dayId],
  );

  const queue = useCallback(
    (key: number, file: File) => {
      cancels.current.set(key, new AbortController());
      line.current = line.current.then(() => run(key, file));
    },
    [run],
  );

  const add = useCallback(
    (files: readonly File[]) => {
      const sorted = [...files].sort((a, b) => byName.compare(a.name, b.name));
      const fresh = sorted.map((file): FileJob => {
        const key = nextKey.current++;
        queue(key, file);
        return {
          key,
          file,
          name: file.name,
          state: 'waiting',
          stage: null,
          imported: null,
          error: null,
        };
      });
      step({ kind: 'add', jobs: fresh });
    },
    [queue],
  );

  /** Tries every file again that was refused for columns of this shape. */
  const tryAgain = useCallback(
    (shape: string) => {
      for (const job of jobs) {
        if (unnamedColumnsOf(job)?.shape !== shape) continue;
        step({ kind: 'set', key: job.key, to: { state: 'waiting', error: null } });
        queue(job.key, job.file);
      }
    },
    [jobs, queue],
  );

  const cancel = useCallback((key: number) => {
    cancels.current.get(key)?.abort();
    step({ kind: 'set', key, to: { state: 'cancelled' } });
  }, []);

  return { jobs, add, cancel, tryAgain, clear: useCallback(() => step({ kind: 'clear' }), []) };
}

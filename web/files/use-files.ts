import { useQuery } from '@tanstack/react-query';
import { useCallback, useRef, useState } from 'react';
import { refresh, sayDone, useChange } from '../api/changes.ts';
import { ask } from '../api/client.ts';
import { putFile } from '../api/put-file.ts';
import { buildFilesQuery } from '../api/queries.ts';
import { plainName } from '../shell/FileName.tsx';

/** A file on its way, or why it was not taken. */
export interface Sending {
  readonly key: number;
  readonly name: string;
  readonly trouble: string | null;
}

type FilePatch = { caption: string } | { section: string | null };

/** The photos and files of a build: one after the other in, changed, and taken off. */
export function useFiles(buildId: string) {
  const files = useQuery(buildFilesQuery(buildId));
  const [sending, setSending] = useState<readonly Sending[]>([]);
  const line = useRef<Promise<void>>(Promise.resolve());
  const nextKey = useRef(1);
  const drop = useCallback(
    (key: number) => setSending((all) => all.filter((one) => one.key !== key)),
    [],
  );
  const send = useCallback(
    async (key: number, file: File, section: string | null) => {
      try {
        const query = { name: file.name, ...(section === null ? {} : { section }) };
        await putFile('POST /builds/{id}/files', { id: buildId }, file, query);
        drop(key);
        await refresh();
        await sayDone(`${plainName(file.name)} is put to the build.`);
      } catch (error) {
        const trouble = error instanceof Error ? error.message : String(error);
        setSending((all) => all.map((one) => (one.key === key ? { ...one, trouble } : one)));
      }
    },
    [buildId, drop],
  );
  const add = useCallback(
    (given: readonly File[], section: string | null) => {
      for (const file of given) {
        const key = nextKey.current++;
        setSending((all) => [...all, { key, name: file.name, trouble: null }]);
        line.current = line.current.then(() => send(key, file, section));
      }
    },
    [send],
  );
  const change = useChange(({ id, patch }: { id: string; patch: FilePatch }) =>
    ask('PATCH /files/{id}', { params: { id }, body: patch }),
  );
  const remove = useChange((id: string) => ask('DELETE /files/{id}', { params: { id } }), {
    done: 'The file is taken off.',
  });
  return {
    all: files.data,
    error: files.error,
    sending,
    add,
    forget: drop,
    change: (id: string, patch: FilePatch) => change.mutate({ id, patch }),
    remove: (id: string) => remove.mutate(id),
  };
}

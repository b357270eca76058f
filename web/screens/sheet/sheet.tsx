import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams, useRouter } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import type { Sheet } from '../../../src/build/index.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { queryClient, sheetQuery } from '../../api/queries.ts';
import { SheetWork } from '../../build/SheetWork.tsx';
import { Start } from '../../build/Start.tsx';
import { FilesPanel } from '../../files/FilesPanel.tsx';
import { Page } from '../../shell/page.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { readOnto, SheetFile } from './sheet-file.tsx';
import { useSheetPage } from './sheet-page.ts';

/** The sheet of one build: begun, worked on, and kept as it is typed. */
export function SheetScreen() {
  const { id, section } = useParams({ from: '/builds/$id/sheet/{-$section}' });
  const navigate = useNavigate();
  const router = useRouter();
  const around = useSheetPage(id);
  // What is typed here is ahead of the record, so nothing fetched later may take its place unasked.
  const kept = useQuery({ ...sheetQuery(id), staleTime: Number.POSITIVE_INFINITY });
  const [turn, setTurn] = useState(0);
  const { build, engine, shop, before, earlier } = around;
  const params = { id };
  const sheet = kept.data?.sheet ?? null;
  // Photos and files are no part of what is typed, and a page that is left may send only a little.
  const keep = async ({ attachments: _, ...now }: Sheet, version: number, leaving = false) => {
    const answer = await ask(
      'PUT /builds/{id}/sheet',
      { params, body: { version, sheet: now } },
      { keepalive: leaving },
    );
    queryClient.setQueryData(sheetQuery(id).queryKey, answer);
    return answer;
  };
  const begin = useChange((first: Sheet) => keep(first, kept.data?.version ?? 0));
  const takeTheirs = async () => {
    await queryClient.fetchQuery({ ...sheetQuery(id), staleTime: 0 });
    setTurn((now) => now + 1);
  };
  const to = (name: string | null) =>
    `/builds/${encodeURIComponent(id)}/sheet${name === null ? '' : `/${name}`}`;
  const partWay = useMemo(
    () => ({
      href: (serial: string) => router.buildLocation({ to: '/parts', search: { serial } }).href,
      go: (serial: string) => void router.navigate({ to: '/parts', search: { serial } }),
    }),
    [router],
  );
  const error = around.error ?? kept.error;
  const isReady = build && engine && shop && kept.data && earlier !== undefined;
  return (
    <Page
      title={build ? `Sheet of ${build.name}` : 'Build sheet'}
      crumbs={[...around.crumbs, { label: 'Sheet' }]}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {!isReady && error === null && <Waiting what="the build sheet" />}
      {isReady && sheet === null && (
        <div className="stack">
          <h1>Sheet of {build.name}</h1>
          <Start
            cylinders={build.cylinders ?? engine.cylinders}
            earlier={
              before !== null && earlier?.sheet ? { name: before.name, sheet: earlier.sheet } : null
            }
            read={(file, cylinders) => readOnto(id, file, cylinders)}
            onStart={begin.mutate}
          />
          <FilesPanel buildId={id} section={null} />
        </div>
      )}
      {isReady && sheet !== null && (
        <SheetWork
          key={`${id} ${turn}`}
          first={{ sheet, version: kept.data.version }}
          save={keep}
          load={() => ask('GET /builds/{id}/sheet', { params })}
          takeTheirs={() => void takeTheirs()}
          section={section ?? null}
          href={to}
          go={(name) => void navigate({ to: to(name) })}
          own={shop.windows}
          uses={shop.uses.map((use) => use.name)}
          parts={partWay}
          tools={(inHand) => <SheetFile buildId={id} inHand={inHand} />}
          files={(of) => <FilesPanel key={of} buildId={id} section={of} />}
          head={
            <>
              {before !== null && earlier?.sheet && (
                <Button
                  variant="default"
                  size="compact-md"
                  renderRoot={(props) => (
                    <Link to="/builds/$id/changes" params={params} {...props} />
                  )}
                >
                  Changed since {before.name}
                </Button>
              )}
              <Button
                variant="default"
                size="compact-md"
                renderRoot={(props) => <Link to="/builds/$id/paper" params={params} {...props} />}
              >
                On paper
              </Button>
            </>
          }
        />
      )}
    </Page>
  );
}

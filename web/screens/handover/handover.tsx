import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import { buildQuery, enginePageQuery, handOversQuery } from '../../api/queries.ts';
import type { Build, EnginePage, HandOverKept } from '../../api/types.gen.ts';
import { Page } from '../../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { Made } from './made.tsx';
import { MadeList } from './made-list.tsx';
import { MakeSheet } from './make-sheet.tsx';

/** What is handed to the owner of an engine: made, looked at, taken away. */
export function HandOverScreen() {
  const { id } = useParams({ from: '/builds/$id/handover' });
  const { made } = useSearch({ from: '/builds/$id/handover' });
  const build = useQuery(buildQuery(id));
  const page = useQuery({
    ...enginePageQuery(build.data?.engineId ?? ''),
    enabled: build.data !== undefined,
  });
  const all = useQuery(handOversQuery(id));
  const error = build.error ?? page.error ?? all.error;
  const engine = page.data?.engine;
  const name = build.data?.name ?? 'Build';
  return (
    <Page
      title={engine ? `Hand-over, ${engine.name}, ${name}` : 'Hand-over'}
      crumbs={[
        { label: 'Shop', to: '/' },
        ...(engine ? [{ label: engine.name, to: `/engines/${engine.id}` }] : []),
        { label: name, to: `/builds/${id}` },
        { label: 'Hand-over' },
      ]}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {build.data && page.data && all.data ? (
        <HandOverPage build={build.data} page={page.data} all={all.data} made={made ?? null} />
      ) : (
        error === null && <Waiting what="the hand-overs" />
      )}
    </Page>
  );
}

interface HandOverPageProps {
  readonly build: Build;
  readonly page: EnginePage;
  /** The oldest first. */
  readonly all: readonly HandOverKept[];
  /** Which is looked at; null: the newest. */
  readonly made: string | null;
}

function HandOverPage({ build, page, all, made }: HandOverPageProps) {
  const [making, setMaking] = useState(false);
  const navigate = useNavigate();
  const shown = all.find((one) => one.id === made) ?? all.at(-1) ?? null;
  // The page of an engine has the newest first; a report tells them as they came.
  const days = page.days.filter((day) => day.buildId === build.id && day.pullCount > 0).reverse();
  const title = `${page.engine.name}, ${build.name}`;
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>Hand over {title}</h1>
          <p className="lede">
            A hand-over keeps what the book says today, whatever is changed later. Its files hold
            the recordings too, so that anybody can check every figure.
          </p>
        </div>
        <div className="acts">
          <Button variant="default" renderRoot={(props) => <Link to="/verify" {...props} />}>
            Check a hand-over
          </Button>
          {all.length > 0 && days.length > 0 && (
            <Button onClick={() => setMaking(true)}>Make another</Button>
          )}
        </div>
      </div>
      {made !== null && shown !== null && shown.id !== made && (
        <Trouble error="That hand-over is not in the book any more; the list of changes can bring it back. The newest is shown." />
      )}
      {shown !== null && <Made key={shown.id} kept={shown} title={title} page={page} />}
      {shown === null &&
        (days.length === 0 ? (
          <Nothing
            title="Nothing to hand over yet"
            action={
              <Button renderRoot={(props) => <Link to={`/builds/${build.id}`} {...props} />}>
                To the build
              </Button>
            }
          >
            A hand-over tells what the pulls of this build gave. Open a test day on the build and
            drop its run files in first.
          </Nothing>
        ) : (
          <Nothing
            title="Not handed over yet"
            action={<Button onClick={() => setMaking(true)}>Make the hand-over</Button>}
          >
            It becomes a report (PDF), a page for the owner (HTML) and a bundle (zip) with every
            recording and figure.
          </Nothing>
        ))}
      {all.length > 0 && <MadeList all={all} shown={shown} page={page} />}
      {making && (
        <MakeSheet
          build={build}
          page={page}
          days={days}
          onClose={() => setMaking(false)}
          onMade={(kept) => {
            setMaking(false);
            void navigate({
              to: '/builds/$id/handover',
              params: { id: build.id },
              search: { made: kept.id },
            });
          }}
        />
      )}
    </div>
  );
}

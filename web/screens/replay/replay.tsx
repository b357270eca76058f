import { Button, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router';
import {
  buildQuery,
  dayPageQuery,
  enginePageQuery,
  handOverReplayQuery,
  handOversQuery,
  pullQuery,
  pullReplayQuery,
} from '../../api/queries.ts';
import type { DayPage, Pull, ReplayWanted } from '../../api/types.gen.ts';
import { fileName } from '../../charts/save.ts';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { dayCrumbs } from '../day/day.tsx';
import { labelOf } from '../day/series.ts';
import { Player } from './player.tsx';

const LEDE =
  'The curve grows as fast as the cell swept the engine, with every pause and slow part that is in the recording.';

/** What was handed over, drawn in the time of its pull. */
export function HandOverReplayScreen() {
  const { id } = useParams({ from: '/builds/$id/replay' });
  const { made, language = 'en' } = useSearch({ from: '/builds/$id/replay' });
  const { units } = usePreferences();
  const build = useQuery(buildQuery(id));
  const page = useQuery({
    ...enginePageQuery(build.data?.engineId ?? ''),
    enabled: build.data !== undefined,
  });
  const all = useQuery({ ...handOversQuery(id), enabled: made === undefined });
  // An address without one means the newest.
  const handed = made ?? all.data?.at(-1)?.id;
  const replay = useQuery({
    ...handOverReplayQuery(handed ?? '', language, units),
    enabled: handed !== undefined,
  });
  const engine = page.data?.engine;
  const name = build.data?.name ?? 'Build';
  return (
    <Page
      title={engine ? `Replay, ${engine.name}, ${name}` : 'Replay'}
      crumbs={[
        { label: 'Shop', to: '/' },
        ...(engine ? [{ label: engine.name, to: `/engines/${engine.id}` }] : []),
        { label: name, to: `/builds/${id}` },
        { label: 'Hand-over', to: `/builds/${id}/handover` },
        { label: 'Replay' },
      ]}
    >
      <div className="stack">
        <div className="opening">
          <div>
            <h1>Replay{engine && ` of ${engine.name}, ${name}`}</h1>
            <p className="lede">{LEDE}</p>
          </div>
        </div>
        {all.data?.length === 0 ? (
          <Nothing
            title="Not handed over yet"
            action={
              <Button
                renderRoot={(props) => (
                  <Link to="/builds/$id/handover" params={{ id }} {...props} />
                )}
              >
                Hand over
              </Button>
            }
          >
            A replay shows the curve that was handed over; make the hand-over first.
          </Nothing>
        ) : (
          <Played
            replay={replay.data}
            error={build.error ?? page.error ?? all.error ?? replay.error}
            retry={() => void replay.refetch()}
          />
        )}
      </div>
    </Page>
  );
}

/** One pull in its own time, another of its day beside it where one is chosen. */
export function PullReplayScreen() {
  const { id } = useParams({ from: '/pulls/$id/replay' });
  const { beside } = useSearch({ from: '/pulls/$id/replay' });
  const { units, standard } = usePreferences();
  const navigate = useNavigate();
  const pull = useQuery(pullQuery(id));
  const page = useQuery({
    ...dayPageQuery(pull.data?.dayId ?? ''),
    enabled: pull.data !== undefined,
  });
  const replay = useQuery(pullReplayQuery(id, beside ?? null, standard, units));
  const name = pull.data === undefined ? 'Pull' : `Pull ${pull.data.order + 1}`;
  return (
    <Page
      title={page.data === undefined ? 'Replay' : `Replay, ${name}, ${page.data.engine.name}`}
      crumbs={
        page.data === undefined
          ? [{ label: 'Shop', to: '/' }, { label: 'Replay' }]
          : [
              ...dayCrumbs(page.data, name).slice(0, -1),
              { label: name, to: `/pulls/${id}` },
              { label: 'Replay' },
            ]
      }
    >
      <div className="stack">
        <div className="opening">
          <div>
            <h1>Replay of {name.toLowerCase()}</h1>
            <p className="lede">{LEDE}</p>
          </div>
          {page.data && (
            <Beside
              page={page.data}
              id={id}
              beside={beside ?? null}
              onBeside={(other) =>
                void navigate({
                  to: '/pulls/$id/replay',
                  params: { id },
                  search: other === null ? {} : { beside: other },
                  replace: true,
                })
              }
            />
          )}
        </div>
        <Played
          replay={replay.data}
          error={pull.error ?? page.error ?? replay.error}
          retry={() => void replay.refetch()}
        />
      </div>
    </Page>
  );
}

function Beside({
  page,
  id,
  beside,
  onBeside,
}: {
  readonly page: DayPage;
  readonly id: string;
  readonly beside: string | null;
  readonly onBeside: (id: string | null) => void;
}) {
  // Typed peaks have no curve to stand beside another.
  const others = page.pulls.filter((one) => one.id !== id && one.recordingSha256 !== null);
  if (others.length === 0) return null;
  return (
    <NativeSelect
      label="Beside it"
      value={beside ?? ''}
      data={[
        { value: '', label: 'nothing' },
        ...others.map((one) => ({ value: one.id, label: nameOf(one, page) })),
      ]}
      onChange={({ currentTarget: { value } }) => onBeside(value === '' ? null : value)}
    />
  );
}

/** `pull 3, 28°`, and only the number where that is its whole label. */
function nameOf(pull: Pull, { pulls }: DayPage): string {
  const [number, label] = [String(pull.order + 1), labelOf(pull, pulls)];
  return label === '' || label === number ? `pull ${number}` : `pull ${number}, ${label}`;
}

function Played({
  replay,
  error,
  retry,
}: {
  readonly replay: ReplayWanted | undefined;
  readonly error: Error | null;
  readonly retry: () => void;
}) {
  if (error !== null) return <Trouble error={error} retry={retry} />;
  if (replay === undefined) return <Waiting what="the replay" lines={8} />;
  const { title } = replay.shown;
  const name = fileName({ title, scenario: 'replay' }, '').replace(/\.$/, '');
  // Another line beside it is another replay: it begins anew.
  return <Player key={replay.told.join()} replay={replay} fileName={name} />;
}

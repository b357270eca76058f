import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { dayPageQuery, ladderQuery, readingQuery } from '../../api/queries.ts';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { dayCrumbs } from '../day/day.tsx';
import { LadderMenu, withMenu } from './ladder-menu.tsx';
import { nameOfLadder } from './ladder-words.ts';
import { LadderWork } from './ladder-work.tsx';

/** The first ladder of a test day. */
export function LadderRoute() {
  const { id } = useParams({ from: '/days/$id/ladder' });
  return <OneLadder dayId={id} ladderId={null} error={null} />;
}

/** Any ladder by its own address. */
export function LadderByIdRoute() {
  const { id } = useParams({ from: '/ladders/$id' });
  const ladder = useQuery(ladderQuery(id));
  return <OneLadder dayId={ladder.data?.dayId ?? null} ladderId={id} error={ladder.error} />;
}

interface OneLadderProps {
  readonly dayId: string | null;
  /** Null: the first of the day. */
  readonly ladderId: string | null;
  readonly error: Error | null;
}

/** Fetches what a ladder is made from; the answer itself is computed here, live. */
function OneLadder({ dayId, ladderId, error: lost }: OneLadderProps) {
  const { standard } = usePreferences();
  const page = useQuery({ ...dayPageQuery(dayId ?? ''), enabled: dayId !== null });
  const ladders = page.data?.ladders ?? [];
  const ladder = ladderId === null ? ladders[0] : ladders.find((one) => one.id === ladderId);
  const reading = useQuery({
    ...readingQuery(ladder?.id ?? '', standard),
    enabled: ladder !== undefined,
  });
  const read = reading.data?.ladderId === ladder?.id ? reading.data : undefined;
  if (page.data !== undefined && ladder !== undefined && read?.input != null)
    // Another ladder is another page: what was tried on one does not stay on the next.
    return <LadderWork key={ladder.id} page={page.data} ladder={ladder} input={read.input} />;
  const error = lost ?? page.error ?? reading.error;
  const name = ladder === undefined ? 'Ladder' : nameOfLadder(ladder);
  return (
    <Page
      title={name}
      crumbs={
        page.data === undefined
          ? [{ label: 'Shop', to: '/' }, { label: name }]
          : withMenu(
              dayCrumbs(page.data, name),
              ladder && <LadderMenu ladder={ladder} ladders={ladders} pulls={page.data.pulls} />,
            )
      }
    >
      {error !== null ? (
        <Trouble
          error={error}
          retry={() => {
            void page.refetch();
            void reading.refetch();
          }}
        />
      ) : page.data !== undefined && ladder === undefined ? (
        <Nothing title="This day has no ladder">Its list of changes can bring it back.</Nothing>
      ) : read !== undefined ? (
        <Nothing
          title="No ladder yet"
          action={
            <Button component={Link} to={`/days/${page.data?.day.id}`}>
              To the pulls of the day
            </Button>
          }
        >
          {read.whyNone}
        </Nothing>
      ) : (
        <Waiting what="the ladder" lines={8} />
      )}
    </Page>
  );
}

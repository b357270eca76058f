import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { dayPageQuery, readingQuery } from '../../api/queries.ts';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { dayCrumbs } from '../day/day.tsx';
import { LadderWork } from './ladder-work.tsx';

/** The ladder of a test day: fetches what it is made from; the answer itself is computed here, live. */
export function LadderRoute() {
  const { id } = useParams({ from: '/days/$id/ladder' });
  const { standard } = usePreferences();
  const page = useQuery(dayPageQuery(id));
  const ladder = page.data?.ladders[0];
  const reading = useQuery({
    ...readingQuery(ladder?.id ?? '', standard),
    enabled: ladder !== undefined,
  });
  if (page.data !== undefined && ladder !== undefined && reading.data?.input != null)
    return <LadderWork page={page.data} ladder={ladder} input={reading.data.input} />;
  const error = page.error ?? reading.error;
  return (
    <Page
      title="Spark ladder"
      crumbs={
        page.data === undefined
          ? [{ label: 'Shop', to: '/' }, { label: 'Spark ladder' }]
          : dayCrumbs(page.data, 'Spark ladder')
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
      ) : reading.data !== undefined ? (
        <Nothing title="No ladder yet">{reading.data.whyNone}</Nothing>
      ) : (
        <Waiting what="the ladder" lines={8} />
      )}
    </Page>
  );
}

import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { dayPageQuery, pullCurveQuery, pullQuery, shopSettingsQuery } from '../../api/queries.ts';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { dayCrumbs } from '../day/day.tsx';
import { PullWork } from './pull-work.tsx';

/** One pull: its curve, what it says of itself, and the samples it was made from. */
export function PullScreen() {
  const { id } = useParams({ from: '/pulls/$id' });
  const { standard } = usePreferences();
  const pull = useQuery(pullQuery(id));
  const page = useQuery({
    ...dayPageQuery(pull.data?.dayId ?? ''),
    enabled: pull.data !== undefined,
  });
  const curve = useQuery(pullCurveQuery(id, standard));
  const shop = useQuery(shopSettingsQuery);
  const name = pull.data === undefined ? 'Pull' : `Pull ${pull.data.order + 1}`;
  const error = pull.error ?? page.error;
  return (
    <Page
      title={page.data === undefined ? name : `${name}, ${page.data.engine.name}`}
      crumbs={
        page.data === undefined
          ? [{ label: 'Shop', to: '/' }, { label: name }]
          : dayCrumbs(page.data, name)
      }
      standard={page.data?.day.standard ?? shop.data?.standard ?? 'SAE J1349'}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {pull.data && page.data ? (
        <PullWork
          pull={pull.data}
          page={page.data}
          answer={curve.data ?? null}
          error={curve.error}
          retry={() => void curve.refetch()}
        />
      ) : (
        error === null && <Waiting what="the pull" lines={8} />
      )}
    </Page>
  );
}

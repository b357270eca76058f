import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import {
  dayCurvesQuery,
  dayPageQuery,
  readingQuery,
  shopSettingsQuery,
} from '../../api/queries.ts';
import type { BandRpm, DayPage } from '../../api/types.gen.ts';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { useBand } from '../use-band.ts';
import { DayWork } from './day-work.tsx';
import { speed } from './overlay.tsx';
import { speedsOf, withCurves } from './series.ts';

/** One test day: its files, its pulls, its curves. */
export function DayScreen() {
  const { id } = useParams({ from: '/days/$id' });
  const page = useQuery(dayPageQuery(id));
  if (page.data !== undefined) return <Day page={page.data} />;
  return (
    <Page title="Test day" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Test day' }]}>
      {page.isError ? (
        <Trouble error={page.error} retry={() => void page.refetch()} />
      ) : (
        <Waiting what="the test day" lines={8} />
      )}
    </Page>
  );
}

/** The crumbs down to a day; `here` names what stands under it. */
export function dayCrumbs({ engine, build, day }: DayPage, ...here: readonly string[]) {
  return [
    { label: 'Shop', to: '/' },
    { label: engine.name, to: `/engines/${engine.id}` },
    { label: build.name, to: `/builds/${build.id}` },
    { label: dayLabel(day), ...(here.length === 0 ? {} : { to: `/days/${day.id}` }) },
    ...here.map((label) => ({ label })),
  ];
}

/** The scenario line's last part. */
export function BandWords({ band }: { band: BandRpm | null }) {
  return (
    <span>
      {band === null ? 'no band yet' : `judged from ${speed(band[0])} to ${speed(band[1])} rpm`}
    </span>
  );
}

function Day({ page }: { page: DayPage }) {
  const { day, pulls, ladders } = page;
  const { standard } = usePreferences();
  const shop = useQuery(shopSettingsQuery);
  const curves = useQuery({ ...dayCurvesQuery(day.id, standard), enabled: pulls.length > 0 });
  const [ladder] = ladders;
  const reading = useQuery({
    ...readingQuery(ladder?.id ?? '', standard),
    enabled: ladder !== undefined && pulls.length > 0,
  });
  const all = withCurves(pulls, curves.data ?? []);
  const [band, setBand] = useBand(
    day,
    ladder,
    reading.data?.input?.bandRpm ?? upperHalf(speedsOf(all)),
  );
  return (
    <Page
      title={`${page.engine.name}, ${dayLabel(day)}`}
      crumbs={dayCrumbs(page)}
      standard={day.standard ?? shop.data?.standard ?? 'SAE J1349'}
      scenario={<BandWords band={band} />}
    >
      <DayWork
        page={page}
        all={all}
        curves={curves}
        reading={reading.data ?? null}
        shop={shop.data ?? null}
        band={band}
        onBand={setBand}
      />
    </Page>
  );
}

/** Where nobody has chosen a band: the upper half of what was run, in whole hundreds. */
function upperHalf(speeds: readonly [number, number] | null): BandRpm | null {
  if (speeds === null) return null;
  const middle = Math.round((speeds[0] + speeds[1]) / 200) * 100;
  return [middle, Math.floor(speeds[1] / 100) * 100];
}

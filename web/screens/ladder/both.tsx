import { Button, SegmentedControl } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { findFuel } from '../../../src/trade/index.ts';
import { API_BASE } from '../../api/client.ts';
import { bothQuery, dayPageQuery } from '../../api/queries.ts';
import type { DayPage, TwoReading } from '../../api/types.gen.ts';
import { BothView } from '../../ladder/BothView.tsx';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { nameOfStandard } from '../../shell/words.ts';
import { BandWords, dayCrumbs } from '../day/day.tsx';

const TITLE = 'Lead and lambda';

/** Lead and lambda of a day at once. */
export function BothRoute() {
  const { id } = useParams({ from: '/days/$id/both' });
  const { standard } = usePreferences();
  const page = useQuery(dayPageQuery(id));
  const reading = useQuery(bothQuery(id, standard));
  // What stands in for another day while this one is fetched is not shown.
  const read = reading.data?.dayId === id ? reading.data : undefined;
  if (page.data !== undefined && read !== undefined)
    return <Both page={page.data} reading={read} />;
  const error = page.error ?? reading.error;
  return (
    <Page
      title={TITLE}
      crumbs={
        page.data === undefined
          ? [{ label: 'Shop', to: '/' }, { label: TITLE }]
          : dayCrumbs(page.data, TITLE)
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
      ) : (
        <Waiting what="lead and lambda" lines={8} />
      )}
    </Page>
  );
}

function Both({ page, reading }: { readonly page: DayPage; readonly reading: TwoReading }) {
  const { day, build, engine, pulls } = page;
  const { loads, whyNone, standard } = reading;
  const [wanted, setWanted] = useState<string | null>(null);
  const at = loads.find((one) => loadKey(one) === wanted) ?? loads[0];
  const { units } = usePreferences();
  const fuel = findFuel(reading.fuel);
  const csv = new URLSearchParams({ standard });
  const nameOf = (pullId: string) => {
    const pull = pulls.find((one) => one.id === pullId);
    return pull === undefined ? pullId : (pull.fileName ?? `typed ${pull.order + 1}`);
  };
  return (
    <Page
      title={`${TITLE}, ${engine.name}`}
      crumbs={dayCrumbs(page, TITLE)}
      standard={standard}
      {...(at === undefined ? {} : { scenario: <BandWords band={at.input.bandRpm} /> })}
    >
      {loads.length > 1 && (
        <SegmentedControl
          aria-label="Load that was held"
          mb="md"
          value={loadKey(at!)}
          onChange={setWanted}
          data={loads.map((one) => ({ value: loadKey(one), label: loadInWords(one.loadPercent) }))}
        />
      )}
      {at === undefined ? (
        <Nothing
          title="Nothing to answer from yet"
          action={
            <Button component={Link} to={`/days/${day.id}`}>
              To the pulls of the day
            </Button>
          }
        >
          {whyNone}
        </Nothing>
      ) : (
        <BothView
          input={at.input}
          answer={at.answer}
          load={loads.length > 1 || at.loadPercent !== null ? loadInWords(at.loadPercent) : null}
          title={{
            ladder: TITLE,
            scenario: `${engine.name}, ${build.name}, ${dayLabel(day)}`,
            standard: nameOfStandard(standard),
          }}
          units={units}
          fuel={fuel ?? null}
          use={day.use}
          nameOf={nameOf}
          csvOf={(use) => {
            csv.set('use', use);
            return `${API_BASE}/days/${day.id}/both/table?${csv}`;
          }}
        />
      )}
    </Page>
  );
}

const loadKey = ({ loadPercent }: TwoReading['loads'][number]) => String(loadPercent ?? 'full');

/** `full throttle`, or `60 % load`. */
const loadInWords = (loadPercent: number | null) =>
  loadPercent === null ? 'full throttle' : `${loadPercent} % load`;

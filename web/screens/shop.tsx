import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { ask } from '../api/client.ts';
import { shopQuery } from '../api/queries.ts';
import type { DaySummary, EngineSummary, NewEngine, ShopSummary } from '../api/types.gen.ts';
import { ChangeSheet } from '../form/change-sheet.tsx';
import { ENGINE_FIELDS } from '../form/specs.ts';
import { useFigures } from '../shell/figures.tsx';
import { Page } from '../shell/page.tsx';
import { dayLabel } from '../shell/places.ts';
import { Nothing, Trouble, Waiting } from '../shell/states.tsx';
import { count } from '../shell/words.ts';
import { Heads } from '../table/Heads.tsx';
import { TakeTable } from '../table/TakeTable.tsx';
import { DayState } from './day-state.tsx';
import { daysTable } from './days-table.ts';
import { engineBody } from './engine-body.ts';
import { decidedInWords, engineInWords, leadsInWords } from './engine-words.ts';
import { LadderLinks } from './ladder-links.tsx';
import styles from './shop.module.css';

/** The first screen: every engine with where it stands, and the days made last. */
export function ShopScreen() {
  const shop = useQuery(shopQuery);
  return (
    <Page title={shop.data?.shop.name ?? 'Pullbook'} crumbs={[{ label: 'Shop' }]}>
      {shop.isPending && <Waiting what="the shop" lines={6} />}
      {shop.isError && <Trouble error={shop.error} retry={() => void shop.refetch()} />}
      {shop.data && <Shop summary={shop.data} />}
    </Page>
  );
}

function Shop({ summary }: { summary: ShopSummary }) {
  const [adding, setAdding] = useState(false);
  const navigate = useNavigate();
  const { engines, latestDays } = summary;
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>{summary.shop.name}</h1>
          <p className="lede">
            {count(summary.engineCount, 'engine')}, {count(summary.dayCount, 'test day')},{' '}
            {count(summary.pullCount, 'pull')} in the book.
            {summary.shop.invented &&
              ' This is the demo shop: nobody and nothing in it is real, and a simulated cell made its recordings. Write down an engine of your own to begin your book.'}
          </p>
        </div>
        <div className="acts">
          {summary.pullCount > 0 && (
            <Button
              variant="default"
              renderRoot={(props) => <Link to="/compare" search={{}} {...props} />}
            >
              Side by side
            </Button>
          )}
          <Button onClick={() => setAdding(true)}>New engine</Button>
        </div>
      </div>
      {engines.length === 0 ? (
        <Nothing title="The book is empty">
          Write down the first engine: a name is enough. Then give it a build, open a test day, and
          drop in the run files that the cell’s logger wrote.
        </Nothing>
      ) : (
        <ul className={styles.engines} aria-label="Engines">
          {engines.map((engine) => (
            <EngineCard
              key={engine.id}
              engine={engine}
              days={latestDays.filter((day) => day.engineId === engine.id)}
            />
          ))}
        </ul>
      )}
      {latestDays.length > 0 && <RecentDays days={latestDays} />}
      {adding && (
        <ChangeSheet
          title="New engine"
          fields={ENGINE_FIELDS}
          values={{ cycle: '4', aspiration: 'natural', fuel: 'gasoline' }}
          saveLabel="Write it down"
          sendUntouched
          save={(values) => ask('POST /engines', { body: engineBody(values) as NewEngine })}
          done={(engine) => `${engine.name} is in the shop.`}
          after={(engine) => void navigate({ to: '/engines/$id', params: { id: engine.id } })}
          onClose={() => setAdding(false)}
        />
      )}
    </div>
  );
}

function EngineCard({ engine, days }: { engine: EngineSummary; days: readonly DaySummary[] }) {
  const { figure } = useFigures();
  const latest = days[0];
  const build = engine.builds[engine.builds.length - 1];
  return (
    <li className={`panel ${styles.engine}`}>
      <h2>
        <Link to={`/engines/${engine.id}`}>{engine.name}</Link>
      </h2>
      <p className="quiet">{engineInWords(engine, figure)}</p>
      {engine.owner !== '' && <p className="quiet">Owner: {engine.owner}</p>}
      <div className={styles.state}>
        {latest ? (
          <DayState dayId={latest.id} />
        ) : (
          <p>
            {build === undefined
              ? 'No build yet: write down the first one.'
              : `${build.name} has not been tested yet.`}
          </p>
        )}
      </div>
    </li>
  );
}

function RecentDays({ days }: { days: readonly DaySummary[] }) {
  return (
    <section className="panel" aria-labelledby="recent-days">
      <header>
        <h2 id="recent-days">Recent test days</h2>
        <TakeTable title="Recent test days" table={() => daysTable(days)} />
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <Heads of={['Day', 'Engine', 'Build', 'Pulls', 'Decided', 'Ladders']} />
          <tbody>
            {days.map((day) => (
              <tr key={day.id}>
                <td>
                  <Link to={`/days/${day.id}`}>{dayLabel(day)}</Link>
                </td>
                <td>{day.engineName}</td>
                <td>{day.buildName}</td>
                <td>
                  {[count(day.pullCount, 'pull'), leadsInWords(day.lowLeadDeg, day.highLeadDeg)]
                    .filter(Boolean)
                    .join(', ')}
                </td>
                <td>{decidedInWords(day.decisions) ?? <span className="quiet">not yet</span>}</td>
                <td>
                  <LadderLinks ladders={day.ladders} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { DisplayKind } from '../../../src/units/display.ts';
import { quantityText } from '../../../src/units/index.ts';
import { serviceQuery } from '../../api/queries.ts';
import type { ServiceRecord } from '../../api/types.gen.ts';
import { ChartFrame, type DayPoint, DaysChart, daysTable } from '../../charts/index.ts';
import { plain, rpm, setting, UNKNOWN } from '../../charts/numbers.ts';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { count, dateInWords, nameOfStandard, today } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { TakeTable } from '../../table/TakeTable.tsx';
import { ServiceLog } from './log.tsx';
import styles from './service.module.css';
import { conditionTable, dueTable, runTable } from './service-tables.ts';
import { WearOverTime } from './wear.tsx';
import { withDates } from './words.ts';

/** What an engine has run, how its condition and power went, and what is due. */
export function ServiceScreen() {
  const { id } = useParams({ from: '/engines/$id/service' });
  const { units } = usePreferences();
  const service = useQuery(serviceQuery(id, today(), units));
  const name = service.data?.engine.name ?? 'Engine';
  return (
    <Page
      title={`Service record: ${name}`}
      crumbs={[
        { label: 'Shop', to: '/' },
        { label: name, to: `/engines/${id}` },
        { label: 'Service record' },
      ]}
    >
      {service.isPending && <Waiting what="the service record" />}
      {service.isError && <Trouble error={service.error} retry={() => void service.refetch()} />}
      {service.data && <Service of={service.data} />}
    </Page>
  );
}

function Service({ of }: { readonly of: ServiceRecord }) {
  const pulls = of.builds.reduce((sum, build) => sum + build.pulls, 0);
  const seconds = of.builds.reduce((sum, build) => sum + build.fullThrottleS, 0);
  const open = of.builds.reduce((sum, build) => sum + build.pullsOfUnknownTime, 0);
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>{`Service record: ${of.engine.name}`}</h1>
          <p className="lede">
            {pulls === 0
              ? 'This engine has no pull in the record yet.'
              : `${count(pulls, 'pull')} in the record, ${minutes(seconds)} at full throttle${
                  open === 0 ? '' : `; of ${count(open, 'pull')} the time is not known`
                }.`}
          </p>
        </div>
      </div>
      <DueList of={of} />
      <ServiceLog of={of} />
      {of.builds.length === 0 ? (
        <Nothing title="No build yet">
          The record begins with the first build and its first test day.
        </Nothing>
      ) : (
        <>
          <Run of={of} />
          <Power of={of} />
          <WearOverTime of={of} />
          <Condition of={of} />
        </>
      )}
    </div>
  );
}

const STATES = { due: 'due', 'not due': 'not due yet', done: 'done', 'not known': 'not known' };

function DueList({ of }: { readonly of: ServiceRecord }) {
  if (of.due.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="due">
      <header>
        <h2 id="due">What is due</h2>
        <TakeTable title="What is due" table={() => dueTable(of)} />
      </header>
      <table className="sheet">
        <Heads of={['What', 'State', 'Date']} />
        <tbody>
          {of.due.map(({ sentence, state, on }) => (
            <tr key={sentence}>
              <th scope="row" className={styles.sentence}>
                {withDates(sentence)}
              </th>
              <td>{state === 'due' ? <strong>due</strong> : STATES[state]}</td>
              <td>{on === null ? UNKNOWN : dateInWords(on)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Run({ of }: { readonly of: ServiceRecord }) {
  return (
    <section className="panel" aria-labelledby="run">
      <header>
        <h2 id="run">What it has run</h2>
        <TakeTable title="What it has run" table={() => runTable(of)} />
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <Heads
            of={[
              'Build',
              'Assembled',
              'Pulls',
              'At full throttle',
              'Hours, by its sheet',
              'Power over its days',
            ]}
          />
          <tbody>
            {of.builds.map((build) => (
              <tr key={build.buildId}>
                <th scope="row">
                  <Link to={`/builds/${build.buildId}`}>{build.name}</Link>
                </th>
                <td>{build.assembledOn === null ? UNKNOWN : dateInWords(build.assembledOn)}</td>
                <td>{build.pulls}</td>
                <td>
                  {build.pulls === build.pullsOfUnknownTime
                    ? UNKNOWN
                    : minutes(build.fullThrottleS)}
                </td>
                <td>{build.hoursS === null ? UNKNOWN : `${plain(build.hoursS / 3600, 1)} h`}</td>
                <td className={styles.sentence}>{build.drift.sentence}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className={`quiet ${styles.note}`}>
        Each build is a refresh after the one before; a refresh within a build stands above. Time at
        full throttle follows from the speeds of each pull and its sweep rate.
      </p>
    </section>
  );
}

function Power({ of }: { readonly of: ServiceRecord }) {
  const { units } = usePreferences();
  const nameOf = new Map(of.builds.map(({ buildId, name }) => [buildId, name]));
  const days = of.days.flatMap((day): DayPoint[] =>
    day.power === null
      ? []
      : [
          {
            label: dayLabel(day),
            date: day.date,
            build: nameOf.get(day.buildId) ?? '',
            pulls: day.power.pulls,
            powerW: day.power.meanPowerW,
            peakPowerW: day.power.peakPowerW,
          },
        ],
  );
  const undated = days.filter(({ date }) => date === null).length;
  if (undated === days.length)
    return (
      <Nothing title="No power over time yet">
        {undated === 0
          ? 'A test day with a recorded pull gives the first point.'
          : 'No test day of this engine has a date: give it one on the page of the day, and its power stands here.'}
      </Nothing>
    );
  const over = of.builds.flatMap(({ name, bandRpm, leadDeg }) =>
    bandRpm === null
      ? []
      : [
          `${name}: ${rpm(bandRpm[0])} to ${rpm(bandRpm[1])}${leadDeg === null ? '' : ` at ${setting(leadDeg, 'deg')}`}`,
        ],
  );
  return (
    <section className="panel" aria-label="Power over time">
      <ChartFrame
        title="Power over time"
        subtitle={`Mean power of each day with its 95 % interval, ${nameOfStandard(of.standard)}. ${over.join('; ')}.`}
        scenario={`${of.engine.name}, service record`}
        table={() => daysTable(days, units)}
        className={styles.chart!}
      >
        {({ width, height }) => <DaysChart {...{ width, height, units, days }} />}
      </ChartFrame>
      <p className={`quiet ${styles.note}`}>
        Each build over the speeds and at the setting that its days share, so heights of two builds
        are not to be held against each other here; side by side does that.
        {undated > 0 && ` ${count(undated, 'test day')} without a date: in the table only.`}
      </p>
    </section>
  );
}

function Condition({ of }: { readonly of: ServiceRecord }) {
  const { units } = usePreferences();
  const { builds, measures } = of.condition;
  if (measures.length === 0 && of.wear.some(({ readings }) => readings.length > 0)) return null;
  if (measures.length === 0)
    return (
      <Nothing title="No leak-down and no cranking compression yet">
        Those of an assembly are written on the build sheet, under assembly and condition; those of
        later dates with the readings above.
      </Nothing>
    );
  const text = (value: number | null, shown: string | null) =>
    value === null
      ? UNKNOWN
      : shown === null
        ? plain(value, 1)
        : quantityText(value, shown as DisplayKind, units);
  return (
    <section className="panel" aria-labelledby="condition">
      <header>
        <h2 id="condition">Leak-down and compression by build</h2>
        <TakeTable
          title="Leak-down and compression by build"
          table={() => conditionTable(of, units)}
        />
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <thead>
            <tr>
              <th scope="col">Measured</th>
              {builds.map(({ name, on }) => (
                <th key={name} scope="col">
                  {name}
                  {on !== null && <span className="quiet">, {dateInWords(on)}</span>}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {measures.map(({ path, label, readings, shown }) => (
              <tr key={path}>
                <th scope="row">{label}</th>
                {readings.map((one, at) => (
                  <td key={builds[at]!.name}>
                    {one === null
                      ? UNKNOWN
                      : `${text(one.mean, shown)} (${text(one.low, shown)} to ${text(one.high, shown)})`}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className={`quiet ${styles.note}`}>
        Mean of the cylinders, and the lowest and highest of them.
      </p>
    </section>
  );
}

function minutes(seconds: number): string {
  return seconds < 120 ? `${plain(seconds, 0)} s` : `${plain(seconds / 60, 1)} min`;
}

import { Button, Checkbox, Menu } from '@mantine/core';
import type { UseQueryResult } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { useChangePulls } from '../../api/changes.ts';
import type {
  BandRpm,
  DayPage,
  LadderReading,
  Pull,
  PullCurve,
  Shop,
} from '../../api/types.gen.ts';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { SafetyLine } from '../../shell/safety.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { count, kept } from '../../shell/words.ts';
import { settingsSearch } from '../compare/ready.ts';
import { nameOfLadder } from '../ladder/ladder-words.ts';
import { COLUMNS, columnsOf } from './cells.ts';
import { DayFacts } from './day-facts.tsx';
import { type DaySheet, DaySheets } from './day-sheets.tsx';
import { DropZone, FileList } from './drop-zone.tsx';
import { InertiaQuestion } from './inertia-question.tsx';
import { Ladders } from './ladders.tsx';
import { LeadTable } from './lead-table.tsx';
import { Overlay } from './overlay.tsx';
import { PartTestsOfDay } from './part-tests-of-day.tsx';
import { TailHead, usePullRows } from './pull-rows.tsx';
import { Questions } from './questions.tsx';
import { Remarks } from './remarks.tsx';
import type { PullWithCurve } from './series.ts';
import { TakeTables } from './take-tables.tsx';
import { useImports } from './use-imports.ts';
import { useRemovals } from './use-removals.ts';

interface DayWorkProps {
  readonly page: DayPage;
  readonly all: readonly PullWithCurve[];
  readonly curves: UseQueryResult<readonly PullCurve[], Error>;
  readonly reading: LadderReading | null;
  readonly shop: Shop | null;
  readonly band: BandRpm | null;
  readonly onBand: (band: BandRpm) => void;
}

/** What one does on a test day, from the answer so far down to the facts of the day. */
export function DayWork({ page, all, curves, reading, shop, band, onBand }: DayWorkProps) {
  const { day, engine, build, cell, pulls, recordings, ladders } = page;
  const { standard } = usePreferences();
  const [sheet, setSheet] = useState<DaySheet>(null);
  const [wantsAll, setWantsAll] = useState(false);
  const stepsLambda = ladders.some(({ setting }) => setting === 'lambda');
  const columns = columnsOf(pulls, { stepsLambda, wantsAll });
  const imports = useImports(day.id);
  const changePulls = useChangePulls();
  const { removeDay, removePull } = useRemovals(page, useNavigate());
  const change = (patches: readonly { id: string; patch: object }[], what: string) =>
    changePulls.mutate({ dayId: day.id, patches, what });

  const move = (pull: Pull, by: -1 | 1) => {
    const at = all.findIndex((one) => one.pull.id === pull.id);
    const other = all[at + by]?.pull;
    if (other === undefined) return;
    change(
      [
        { id: pull.id, patch: { order: other.order } },
        { id: other.id, patch: { order: pull.order } },
      ],
      `Pull ${pull.order + 1} is now pull ${other.order + 1}`,
    );
  };
  const rows = usePullRows(all, {
    configure: (pull) => setSheet({ kind: 'pull', pull }),
    move,
    remove: (pull) => removePull.mutate(pull),
  });
  const shown = standard ?? day.standard ?? shop?.standard ?? 'SAE J1349';
  const empty = pulls.length === 0;
  const settings = settingsSearch(page);

  const head = (
    <div className="opening">
      <div>
        <h1>{headlineOf(reading) ?? dayLabel(day)}</h1>
        <p className="lede">{ledeOf(reading, page)}</p>
      </div>
      <div className="acts">
        <Menu position="bottom-end">
          <Menu.Target>
            <Button variant="default">More</Button>
          </Menu.Target>
          <Menu.Dropdown>
            <Menu.Item
              renderRoot={(props) => (
                <Link to="/days/$id/plan" params={{ id: day.id }} {...props} />
              )}
            >
              Test plan
            </Menu.Item>
            <Menu.Item
              renderRoot={(props) => (
                <Link to="/days/$id/part-tests" params={{ id: day.id }} {...props} />
              )}
            >
              A fair test of a part
            </Menu.Item>
            {!empty && (
              <Menu.Item
                renderRoot={(props) => (
                  <Link to="/builds/$id/handover" params={{ id: build.id }} {...props} />
                )}
              >
                Hand over this build
              </Menu.Item>
            )}
            {settings !== null && (
              <Menu.Item
                renderRoot={(props) => <Link to="/compare" search={settings} {...props} />}
              >
                Compare settings
              </Menu.Item>
            )}
            <Menu.Item onClick={() => setSheet({ kind: 'day' })}>Facts of the day …</Menu.Item>
            <Menu.Item onClick={() => setSheet({ kind: 'configuration' })}>
              Configuration …
            </Menu.Item>
            <Menu.Item onClick={() => setSheet({ kind: 'typed' })}>Type in a peak …</Menu.Item>
            <Menu.Item onClick={() => removeDay.mutate(undefined)}>Remove the day</Menu.Item>
          </Menu.Dropdown>
        </Menu>
        {isPartTest(reading, pulls) ? (
          <Button component={Link} to={`/days/${day.id}/part-tests`}>
            Part test
          </Button>
        ) : (
          <Button component={Link} to={`/days/${day.id}/ladder`} disabled={empty}>
            {nameOfLadder(ladders[0] ?? { name: 'Spark lead', setting: 'lead' })}
          </Button>
        )}
      </div>
    </div>
  );

  return (
    <DropZone
      onFiles={imports.add}
      onTyped={empty ? () => setSheet({ kind: 'typed' }) : null}
      head={head}
    >
      <FileList cell={cell} {...imports} />
      {!empty && <Questions cell={cell} recordings={recordings} pulls={pulls} />}
      <InertiaQuestion page={page} all={all} />
      {!empty && (
        <section className="panel" aria-labelledby="pulls-of-day">
          <header>
            <h2 id="pulls-of-day">Pulls</h2>
            <span className="quiet">{leftOutInWords(pulls)}</span>
            {(wantsAll || columns.length < COLUMNS.length) && (
              <Checkbox
                size="xs"
                label="Columns for jets, lambda read and load"
                checked={wantsAll}
                onChange={(event) => setWantsAll(event.currentTarget.checked)}
              />
            )}
          </header>
          <LeadTable rows={rows} columns={columns} tailHead={<TailHead />} change={change} />
          <TakeTables dayId={day.id} standard={shown} />
        </section>
      )}
      {curves.isError && <Trouble error={curves.error} retry={() => void curves.refetch()} />}
      {!empty && curves.isPending && <Waiting what="the curves" lines={6} />}
      <Overlay
        all={all}
        scenario={`${engine.name}, ${build.name}, ${dayLabel(day)}`}
        standard={shown}
        band={band}
        onBand={onBand}
      />
      <Remarks all={all} />
      {!empty && <Ladders page={page} />}
      <PartTestsOfDay dayId={day.id} />
      <section className="panel" aria-labelledby="facts-of-day">
        <header>
          <h2 id="facts-of-day">The day</h2>
          <Button variant="subtle" size="compact-sm" onClick={() => setSheet({ kind: 'day' })}>
            Edit
          </Button>
        </header>
        <DayFacts day={day} cell={cell} calibration={page.calibration} />
      </section>
      <SafetyLine />
      <DaySheets
        sheet={sheet}
        page={page}
        uses={shop?.uses.map((use) => use.name) ?? []}
        close={() => setSheet(null)}
        changePull={(pull, patch) =>
          change([{ id: pull.id, patch }], `What differs in pull ${pull.order + 1}`)
        }
      />
    </DropZone>
  );
}

function headlineOf(reading: LadderReading | null): string | null {
  return reading?.answer?.headline ?? null;
}

/** A day whose pulls are all of a part test has no ladder to open. */
const isPartTest = (reading: LadderReading | null, pulls: readonly Pull[]): boolean =>
  reading !== null &&
  reading.answer === null &&
  pulls.length > 0 &&
  pulls.every(({ group }) => group !== null);

function ledeOf(reading: LadderReading | null, { pulls, cell, day }: DayPage): string {
  if (reading?.answer) return kept(reading.answer.next.why);
  const parts = [count(pulls.length, 'pull'), `on ${cell.name}`];
  if (day.fuel !== null) parts.push(`on ${day.fuel}`);
  const why = isPartTest(reading, pulls) ? 'All are of a part test.' : (reading?.whyNone ?? null);
  return `${parts.join(' ')}.${why === null || pulls.length === 0 ? '' : ` ${why}`}`;
}

function leftOutInWords(pulls: readonly Pull[]): string {
  const out = pulls.filter((pull) => pull.excludedBecause !== null).length;
  return out === 0
    ? 'all counted'
    : `${count(pulls.length - out, 'pull')} counted, ${out} left out`;
}

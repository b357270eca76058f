import { Button, Menu } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { useChange } from '../api/changes.ts';
import { ask } from '../api/client.ts';
import { buildQuery, cellsQuery, enginePageQuery } from '../api/queries.ts';
import type { Build, BuildPatch, Cell, DaySummary, Engine, NewDay } from '../api/types.gen.ts';
import { ChangeSheet } from '../form/change-sheet.tsx';
import { BUILD_FIELDS, newDayFields } from '../form/specs.ts';
import { Facts, useFigures } from '../shell/figures.tsx';
import { Page } from '../shell/page.tsx';
import { dayLabel } from '../shell/places.ts';
import { Nothing, Trouble, Waiting } from '../shell/states.tsx';
import { count, today } from '../shell/words.ts';
import { Heads } from '../table/Heads.tsx';
import { TakeTable } from '../table/TakeTable.tsx';
import { BuildStanding } from './build-standing.tsx';
import { buildsSearch, lastBefore } from './compare/ready.ts';
import { daysTable } from './days-table.ts';
import { decidedInWords, leadsInWords } from './engine-words.ts';
import { LadderLinks } from './ladder-links.tsx';
import { NextBuild } from './next-build.tsx';

/** One state of the engine's parts, and the days on which it was tested. */
export function BuildScreen() {
  const { id } = useParams({ from: '/builds/$id' });
  const build = useQuery(buildQuery(id));
  const page = useQuery({
    ...enginePageQuery(build.data?.engineId ?? ''),
    enabled: build.data !== undefined,
  });
  const cells = useQuery(cellsQuery);
  const name = build.data?.name ?? 'Build';
  const engine = page.data?.engine;
  const error = build.error ?? page.error ?? cells.error;
  return (
    <Page
      title={engine ? `${engine.name}, ${name}` : name}
      crumbs={[
        { label: 'Shop', to: '/' },
        ...(engine ? [{ label: engine.name, to: `/engines/${engine.id}` }] : []),
        { label: name },
      ]}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {build.data && page.data && cells.data ? (
        <BuildPage
          build={build.data}
          engine={page.data.engine}
          days={page.data.days.filter((day) => day.buildId === id)}
          count={page.data.builds.length}
          against={lastBefore(id, page.data)}
          cells={cells.data}
        />
      ) : (
        error === null && <Waiting what="the build" />
      )}
    </Page>
  );
}

interface BuildPageProps {
  readonly build: Build;
  readonly engine: Engine;
  readonly days: readonly DaySummary[];
  /** Of the engine's builds. */
  readonly count: number;
  readonly cells: readonly Cell[];
  /** The build before this one that was tested; null: none. */
  readonly against: Build | null;
}

function BuildPage({ build, engine, days, count: builds, cells, against }: BuildPageProps) {
  const { figure } = useFigures();
  const navigate = useNavigate();
  const [open, setOpen] = useState<'edit' | 'day' | 'next' | null>(null);
  const close = () => setOpen(null);
  const params = { id: build.id };
  const remove = useChange(() => ask('DELETE /builds/{id}', { params }), {
    done: `${build.name} is removed with its test days.`,
    after: () => void navigate({ to: '/engines/$id', params: { id: engine.id } }),
  });
  const openDay = async ({ cellId: chosen, ...day }: Partial<NewDay>) => {
    const cellId = chosen === undefined || chosen === NEW_CELL ? await firstCell() : chosen;
    return ask('POST /builds/{id}/days', { params, body: { date: today(), ...day, cellId } });
  };
  // What a build leaves open is as its engine says.
  const own = <K extends 'cylinders' | 'displacementM3' | 'strokeM' | 'compressionRatio'>(key: K) =>
    build[key] ?? engine[key];
  const displacement = own('displacementM3');
  const stroke = own('strokeM');
  const compression = own('compressionRatio');
  const isTested = days.some((day) => day.pullCount > 0);
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>
            {engine.name}, {build.name}
          </h1>
          {build.notes !== '' && <p className="lede">{build.notes}</p>}
        </div>
        <div className="acts">
          <Menu position="bottom-end">
            <Menu.Target>
              <Button variant="default">More</Button>
            </Menu.Target>
            <Menu.Dropdown>
              <Menu.Item onClick={() => setOpen('edit')}>Facts of the build …</Menu.Item>
              <Menu.Item onClick={() => setOpen('next')}>Begin the next build …</Menu.Item>
              <Menu.Item onClick={() => remove.mutate(undefined)}>Remove the build</Menu.Item>
            </Menu.Dropdown>
          </Menu>
          <Button
            variant="default"
            renderRoot={(props) => (
              <Link to="/builds/$id/sheet/{-$section}" params={{ id: build.id }} {...props} />
            )}
          >
            Build sheet
          </Button>
          {against !== null && isTested && (
            <Button
              variant="default"
              renderRoot={(props) => (
                <Link to="/compare" search={buildsSearch(against.id, build.id)} {...props} />
              )}
            >
              Compare with the last build
            </Button>
          )}
          {isTested && (
            <Button
              variant="default"
              renderRoot={(props) => (
                <Link
                  to="/use"
                  search={
                    against === null ? buildsSearch(build.id) : buildsSearch(against.id, build.id)
                  }
                  {...props}
                />
              )}
            >
              What it is for
            </Button>
          )}
          {isTested && (
            <Button
              variant="default"
              renderRoot={(props) => <Link to="/builds/$id/handover" params={params} {...props} />}
            >
              Hand over
            </Button>
          )}
          <Button onClick={() => setOpen('day')}>New test day</Button>
        </div>
      </div>
      <section className="panel" aria-label="Facts">
        <Facts
          rows={[
            ['Cylinders', own('cylinders')],
            ['Displacement', displacement === null ? null : figure(displacement, 'displacement')],
            ['Stroke', stroke === null ? null : figure(stroke, 'length')],
            ['Compression', compression === null ? null : `${compression} : 1`],
          ]}
        />
      </section>
      {days.length === 0 ? (
        <Nothing
          title="Not tested yet"
          action={<Button onClick={() => setOpen('day')}>Open a test day</Button>}
        >
          A test day holds the pulls made on this build, on one cell, in one day’s air. Open one,
          then drop the run files in.
        </Nothing>
      ) : (
        <section className="panel" aria-labelledby="days">
          <header>
            <h2 id="days">Test days</h2>
            <TakeTable title="Test days" table={() => daysTable(days)} />
          </header>
          <table className="sheet">
            <Heads of={['Day', 'Pulls', 'Decided', 'Ladders']} />
            <tbody>
              {days.map((day) => (
                <tr key={day.id}>
                  <th scope="row">
                    <Link to={`/days/${day.id}`}>{dayLabel(day)}</Link>
                  </th>
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
        </section>
      )}
      {isTested && <BuildStanding buildId={build.id} title={`${engine.name}, ${build.name}`} />}
      {open === 'edit' && (
        <ChangeSheet
          title={`Edit ${build.name}`}
          fields={BUILD_FIELDS}
          values={build}
          save={(patch) => ask('PATCH /builds/{id}', { params, body: patch as BuildPatch })}
          done={`${build.name} is changed.`}
          onClose={close}
        />
      )}
      {open === 'next' && <NextBuild from={build} name={`Build ${builds + 1}`} onClose={close} />}
      {open === 'day' && (
        <ChangeSheet
          title="New test day"
          fields={newDayFields(cellChoices(cells))}
          values={{ date: today(), cellId: cells[0]?.id ?? NEW_CELL }}
          saveLabel="Open the day"
          sendUntouched
          save={openDay}
          done={(day) => `${dayLabel(day)} is open for pulls.`}
          after={(day) => void navigate({ to: '/days/$id', params: { id: day.id } })}
          onClose={close}
        />
      )}
    </div>
  );
}

const NEW_CELL = 'new';

function cellChoices(cells: readonly Cell[]): { value: string; label: string }[] {
  return cells.length === 0
    ? [{ value: NEW_CELL, label: 'my cell (facts can follow in the settings)' }]
    : cells.map((cell) => ({ value: cell.id, label: cell.name }));
}

/** A shop without a cell gets one whose facts are not known yet. */
async function firstCell(): Promise<string> {
  return (await ask('POST /cells', { body: { name: 'My cell' } })).id;
}

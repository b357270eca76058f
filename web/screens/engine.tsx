import { Button, Menu } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { useChange } from '../api/changes.ts';
import { ask } from '../api/client.ts';
import { enginePageQuery } from '../api/queries.ts';
import type { EnginePage, NewBuild } from '../api/types.gen.ts';
import { ChangeSheet } from '../form/change-sheet.tsx';
import { ASPIRATIONS, BUILD_FIELDS, CYCLES, ENGINE_FIELDS } from '../form/specs.ts';
import { Facts, useFigures } from '../shell/figures.tsx';
import { Page } from '../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../shell/states.tsx';
import { count, dateInWords } from '../shell/words.ts';
import { Heads } from '../table/Heads.tsx';
import { numberColumn, type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { TakeTable } from '../table/TakeTable.tsx';
import { BuildStanding } from './build-standing.tsx';
import { KeptComparisons } from './compare/kept.tsx';
import { buildsSearch, testedBuilds } from './compare/ready.ts';
import { engineBody } from './engine-body.ts';
import { NextBuild } from './next-build.tsx';

/** One engine: what it is, and its builds with what was made of each. */
export function EngineScreen() {
  const { id } = useParams({ from: '/engines/$id' });
  const page = useQuery(enginePageQuery(id));
  const name = page.data?.engine.name ?? 'Engine';
  return (
    <Page title={name} crumbs={[{ label: 'Shop', to: '/' }, { label: name }]}>
      {page.isPending && <Waiting what="the engine" />}
      {page.isError && <Trouble error={page.error} retry={() => void page.refetch()} />}
      {page.data && <Engine page={page.data} />}
    </Page>
  );
}

function Engine({ page }: { page: EnginePage }) {
  const { engine, builds, days } = page;
  const { figure } = useFigures();
  const navigate = useNavigate();
  const [open, setOpen] = useState<'edit' | 'build' | 'next' | null>(null);
  const close = () => setOpen(null);
  const params = { id: engine.id };
  const last = builds.at(-1);
  const nextName = `Build ${builds.length + 1}`;
  const remove = useChange(() => ask('DELETE /engines/{id}', { params }), {
    done: `${engine.name} is removed with all its builds.`,
    after: () => void navigate({ to: '/' }),
  });
  const tested = testedBuilds({ builds, days });
  const newest = tested.at(-1);
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>{engine.name}</h1>
          {engine.notes !== '' && <p className="lede">{engine.notes}</p>}
        </div>
        <div className="acts">
          <Menu position="bottom-end">
            <Menu.Target>
              <Button variant="default">More</Button>
            </Menu.Target>
            <Menu.Dropdown>
              <Menu.Item onClick={() => setOpen('edit')}>Facts of the engine …</Menu.Item>
              {last && (
                <Menu.Item onClick={() => setOpen('build')}>A build from nothing …</Menu.Item>
              )}
              <Menu.Item onClick={() => remove.mutate(undefined)}>Remove the engine</Menu.Item>
            </Menu.Dropdown>
          </Menu>
          <Button
            variant="default"
            renderRoot={(props) => <Link to={`/engines/${engine.id}/service`} {...props} />}
          >
            Service record
          </Button>
          {tested.length > 1 && (
            <Button
              variant="default"
              renderRoot={(props) => (
                <Link
                  to="/compare"
                  search={buildsSearch(...tested.slice(-2).map(({ id }) => id))}
                  {...props}
                />
              )}
            >
              Side by side
            </Button>
          )}
          {tested.length > 0 && (
            <Button
              variant="default"
              renderRoot={(props) => (
                <Link
                  to="/use"
                  search={buildsSearch(...tested.slice(-2).map(({ id }) => id))}
                  {...props}
                />
              )}
            >
              What it is for
            </Button>
          )}
          {last === undefined ? (
            <Button onClick={() => setOpen('build')}>New build</Button>
          ) : (
            <Button onClick={() => setOpen('next')}>Begin the next build</Button>
          )}
        </div>
      </div>
      <section className="panel" aria-label="Facts">
        <Facts
          rows={[
            ['Shop serial', engine.serial],
            ['Owner', engine.owner],
            ['Cylinders', engine.cylinders],
            [
              'Displacement',
              engine.displacementM3 === null ? null : figure(engine.displacementM3, 'displacement'),
            ],
            ['Stroke', engine.strokeM === null ? null : figure(engine.strokeM, 'length')],
            [
              'Compression',
              engine.compressionRatio === null ? null : `${engine.compressionRatio} : 1`,
            ],
            ['Working cycle', CYCLES.find((one) => one.value === String(engine.cycle))?.label],
            ['Aspiration', ASPIRATIONS.find((one) => one.value === engine.aspiration)?.label],
            ['Fuel', engine.fuel],
          ]}
        />
      </section>
      {builds.length === 0 ? (
        <Nothing
          title="No build yet"
          action={<Button onClick={() => setOpen('build')}>Write down the first build</Button>}
        >
          A build is one state of the engine’s parts. Every refresh makes the next one, and every
          test day belongs to one.
        </Nothing>
      ) : (
        <section className="panel" aria-labelledby="builds">
          <header>
            <h2 id="builds">Builds</h2>
            <TakeTable title="Builds" table={() => buildsTable({ builds, days })} />
          </header>
          <table className="sheet">
            <Heads of={['Build', 'Test days', 'Last tested', 'Notes']} />
            <tbody>
              {builds.map((one) => {
                const its = days.filter((day) => day.buildId === one.id);
                const last = its.map((day) => day.date).find((date) => date !== null);
                return (
                  <tr key={one.id}>
                    <th scope="row">
                      <Link to={`/builds/${one.id}`}>{one.name}</Link>
                    </th>
                    <td>
                      {its.length === 0
                        ? 'none yet'
                        : `${count(its.length, 'day')}, ${count(
                            its.reduce((sum, day) => sum + day.pullCount, 0),
                            'pull',
                          )}`}
                    </td>
                    <td>{last ? dateInWords(last) : '–'}</td>
                    <td className="quiet">{one.notes}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </section>
      )}
      {newest && (
        <BuildStanding
          buildId={newest.id}
          title={`${engine.name}, ${newest.name}`}
          heading={`As it stands, by ${newest.name}`}
        />
      )}
      <KeptComparisons engineId={engine.id} />
      {open === 'edit' && (
        <ChangeSheet
          title={`Edit ${engine.name}`}
          fields={ENGINE_FIELDS}
          values={engine}
          save={(patch) => ask('PATCH /engines/{id}', { params, body: engineBody(patch) })}
          done={`${engine.name} is changed.`}
          onClose={close}
        />
      )}
      {open === 'build' && (
        <ChangeSheet
          title={`New build of ${engine.name}`}
          fields={BUILD_FIELDS}
          values={{ name: nextName }}
          saveLabel="Write it down"
          sendUntouched
          save={(values) => ask('POST /engines/{id}/builds', { params, body: values as NewBuild })}
          done={(made) => `${made.name} is written down.`}
          after={(made) => void navigate({ to: '/builds/$id', params: { id: made.id } })}
          onClose={close}
        />
      )}
      {open === 'next' && last && <NextBuild from={last} name={nextName} onClose={close} />}
    </div>
  );
}

const buildsTable = ({ builds, days }: Pick<EnginePage, 'builds' | 'days'>): TableModel => {
  const of = (buildId: string) => days.filter((day) => day.buildId === buildId);
  return tableFrom(builds, [
    wordsColumn('Build', ({ name }) => name),
    numberColumn('Test days', '', ({ id }) => of(id).length, { decimals: 0 }),
    numberColumn('Pulls', '', ({ id }) => of(id).reduce((sum, day) => sum + day.pullCount, 0), {
      decimals: 0,
    }),
    wordsColumn('Last tested', ({ id }) => of(id).find(({ date }) => date !== null)?.date),
    wordsColumn('Notes', ({ notes }) => notes),
  ]);
};

import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { calibrationQuery, cellsQuery } from '../../api/queries.ts';
import type { Calibration, Cell, NewCalibration } from '../../api/types.gen.ts';
import { CalibrationForm } from '../../calibration/CalibrationForm.tsx';
import { DueMark } from '../../calibration/DueMark.tsx';
import { FigureTable } from '../../calibration/FigureTable.tsx';
import { Result } from '../../calibration/Result.tsx';
import { dueInWords } from '../../calibration/words.ts';
import { Facts, useFigures } from '../../shell/figures.tsx';
import { Page } from '../../shell/page.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { dateInWords, today } from '../../shell/words.ts';
import { numberColumn, quantityColumn, tableFrom, wordsColumn } from '../../table/model.ts';
import { cellCrumbs, whatOf } from './calibrations.tsx';

/** A new calibration of a cell: weights on its arm, or a sensor beside a reference. */
export function NewCalibrationScreen() {
  const { id, kind } = useParams({ from: '/cells/$id/calibrate/$kind' });
  const navigate = useNavigate();
  const cells = useQuery(cellsQuery);
  const cell = cells.data?.find((one) => one.id === id);
  const back = () => void navigate({ to: '/cells/$id/calibrations', params: { id } });
  const keep = useChange(
    (body: NewCalibration) => ask('POST /cells/{id}/calibrations', { params: { id }, body }),
    { done: 'The calibration is kept; curves from its day on follow.', after: back },
  );
  const isSensor = kind === 'sensor';
  const title = isSensor ? 'A sensor beside a reference' : 'Weights on the arm';
  return (
    <Page title={title} crumbs={cellCrumbs(cell, title)}>
      {cells.error !== null && <Trouble error={cells.error} />}
      {cell === undefined ? (
        cells.error === null && <Waiting what="the cell" />
      ) : (
        <div className="stack">
          <div className="opening">
            <div>
              <h1>{title}</h1>
              <p className="lede">
                {isSensor
                  ? `A sensor of ${cell.name} and something known better, side by side at one point or more.`
                  : `Known weights on a level arm of ${cell.name}, put on one after the other and taken off again; read the display each time. At the brake’s own shaft, where the torque sensor sits.`}
              </p>
            </div>
          </div>
          <CalibrationForm
            kind={isSensor ? 'sensor' : 'dead weights'}
            standing={null}
            today={today()}
            scenario={`${cell.name}, ${dateInWords(today())}`}
            busy={keep.isPending}
            onSave={(body) => keep.mutate(body)}
            onCancel={back}
          />
        </div>
      )}
    </Page>
  );
}

/** One calibration as it is kept: what was read, and what follows from it. */
export function CalibrationScreen() {
  const { id } = useParams({ from: '/calibrations/$id' });
  const one = useQuery(calibrationQuery(id, today()));
  const cells = useQuery(cellsQuery);
  const cell = cells.data?.find(({ id: own }) => own === one.data?.cellId);
  const error = one.error ?? cells.error;
  const title =
    one.data === undefined ? 'Calibration' : `${whatOf(one.data)}, ${dateInWords(one.data.doneOn)}`;
  return (
    <Page title={title} crumbs={cellCrumbs(cell, title)}>
      {error !== null && <Trouble error={error} retry={() => void one.refetch()} />}
      {one.data !== undefined && cell !== undefined ? (
        <Kept one={one.data} cell={cell} title={title} />
      ) : (
        error === null && <Waiting what="the calibration" />
      )}
    </Page>
  );
}

interface KeptProps {
  readonly one: Calibration;
  readonly cell: Cell;
  readonly title: string;
}

function Kept({ one, cell, title }: KeptProps) {
  const { figure, units } = useFigures();
  const navigate = useNavigate();
  const [editing, setEditing] = useState(false);
  const params = { id: one.id };
  const change = useChange(
    (body: NewCalibration) => ask('PATCH /calibrations/{id}', { params, body }),
    {
      done: 'The calibration is changed; curves from its day on follow.',
      after: () => setEditing(false),
    },
  );
  const remove = useChange(() => ask('DELETE /calibrations/{id}', { params }), {
    done: 'The calibration is removed; curves follow.',
    after: () => void navigate({ to: '/cells/$id/calibrations', params: { id: cell.id } }),
  });
  const scenario = `${cell.name}, ${dateInWords(one.doneOn)}`;
  const { measured } = one;
  if (editing)
    return (
      <div className="stack">
        <h1>{title}</h1>
        <CalibrationForm
          kind={measured.kind}
          standing={one}
          today={today()}
          scenario={scenario}
          busy={change.isPending}
          onSave={(body) => change.mutate(body)}
          onCancel={() => setEditing(false)}
        />
      </div>
    );
  const arm =
    measured.kind === 'sensor'
      ? []
      : ([
          ['Arm', figure(measured.arm.lengthM, 'length')],
          ['Gravity', `${measured.arm.gravityMPerS2} m/s²`],
          ['Step of the display', figure(measured.resolutionNm, 'torque', 2)],
        ] as const);
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>{title}</h1>
          <p className="lede">
            <DueMark due={one.due} />, {dueInWords(one.due)}. On{' '}
            <Link to="/cells/$id/calibrations" params={{ id: cell.id }}>
              {cell.name}
            </Link>
            .
          </p>
        </div>
        <div className="acts">
          <Button variant="default" onClick={() => remove.mutate(undefined)}>
            Remove
          </Button>
          <Button variant="default" onClick={() => setEditing(true)}>
            Edit
          </Button>
        </div>
      </div>
      <section className="panel" aria-labelledby="says">
        <header>
          <h2 id="says">What it says</h2>
        </header>
        <Result measured={measured} answer={one.answer} {...{ units, scenario }} />
      </section>
      <section className="panel" aria-labelledby="as-read">
        <header>
          <h2 id="as-read">As it was read</h2>
        </header>
        <Facts
          rows={[
            ['By', one.who],
            ['Reference', measured.kind === 'sensor' ? measured.reference : null],
            ...arm,
            ['Notes', one.notes],
          ]}
        />
        {measured.kind === 'dead weights' && (
          <FigureTable
            caption="Weights and readings"
            {...tableFrom(measured.points, [
              numberColumn('No.', '', (_, at) => at + 1, { decimals: 0 }),
              quantityColumn('Weight', 'mass', units, ({ massKg }) => massKg),
              quantityColumn('Reading', 'torque', units, ({ readingNm }) => readingNm),
              wordsColumn('Weights going', ({ direction }) =>
                direction === 'up' ? 'on (up)' : 'off (down)',
              ),
            ])}
          />
        )}
      </section>
    </div>
  );
}

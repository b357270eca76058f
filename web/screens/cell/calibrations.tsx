import { Button, Switch } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { UnitSystem } from '../../../src/units/types.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { calibrationsQuery, cellsQuery } from '../../api/queries.ts';
import type { Calibration, CalibrationPage, Cell, Holding } from '../../api/types.gen.ts';
import { HangingCaution } from '../../calibration/Caution.tsx';
import calibration from '../../calibration/calibration.module.css';
import { DueMark } from '../../calibration/DueMark.tsx';
import { Result } from '../../calibration/Result.tsx';
import { dueInWords, inShort } from '../../calibration/words.ts';
import { Page } from '../../shell/page.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { asSentence, dateInWords, kept, today } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { type TableModel, tableFrom, wordsColumn, yesNoColumn } from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import { MarkLine } from '../day/remarks.tsx';
import styles from '../settings/settings.module.css';

/** Where the calibrations of cells stand in the way of pages. */
export const cellCrumbs = (cell: Pick<Cell, 'id' | 'name'> | undefined, last?: string) => [
  { label: 'Shop', to: '/' },
  { label: 'Settings', to: '/settings' },
  ...(last === undefined || cell === undefined
    ? [{ label: cell === undefined ? 'Calibrations' : `Calibrations of ${cell.name}` }]
    : [
        { label: `Calibrations of ${cell.name}`, to: `/cells/${cell.id}/calibrations` },
        { label: last },
      ]),
];

/** What a cell was held against, what it showed, and what of it has fallen due. */
export function CalibrationsScreen() {
  const { id } = useParams({ from: '/cells/$id/calibrations' });
  const cells = useQuery(cellsQuery);
  const page = useQuery(calibrationsQuery(id, today()));
  const cell = cells.data?.find((one) => one.id === id);
  const error = cells.error ?? page.error;
  return (
    <Page
      title={cell === undefined ? 'Calibrations' : `Calibrations of ${cell.name}`}
      crumbs={cellCrumbs(cell)}
    >
      {error !== null && <Trouble error={error} retry={() => void page.refetch()} />}
      {cell !== undefined && page.data !== undefined ? (
        <Calibrations cell={cell} page={page.data} />
      ) : (
        error === null && <Waiting what="the calibrations" />
      )}
    </Page>
  );
}

interface CalibrationsProps {
  readonly cell: Cell;
  readonly page: CalibrationPage;
}

function Calibrations({ cell, page }: CalibrationsProps) {
  const { units } = usePreferences();
  const { state, calibrations } = page;
  const newest = calibrations.find(({ id }) => id === state.torque?.calibrationId);
  const add = (
    <div className="acts">
      <Button
        variant="default"
        renderRoot={(props) => (
          <Link
            to="/cells/$id/calibrate/$kind"
            params={{ id: cell.id, kind: 'sensor' }}
            {...props}
          />
        )}
      >
        A sensor beside a reference
      </Button>
      <Button
        renderRoot={(props) => (
          <Link
            to="/cells/$id/calibrate/$kind"
            params={{ id: cell.id, kind: 'weights' }}
            {...props}
          />
        )}
      >
        Weights on the arm
      </Button>
    </div>
  );
  if (calibrations.length === 0)
    return (
      <div className="stack">
        <Nothing title={`${cell.name} was not calibrated here yet`} action={add}>
          Hang known weights on an arm, one after the other and off again, and write down what the
          cell shows: the line through them says what it reads wrong, and how far its torque can be
          trusted. Until then the figure stated for the cell stands in, one standard deviation of{' '}
          {Number((cell.calibrationRelSd * 100).toFixed(2))} %. Sensors are held against a reference
          the same way. Both fall due again, and pulls made past that day say so.
        </Nothing>
        <HangingCaution />
      </div>
    );
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>Calibrations of {cell.name}</h1>
          <p className="lede">{ledeOf(state.torque)}</p>
        </div>
        {add}
      </div>
      <StateTable torque={state.torque} sensors={state.sensors} calibrations={calibrations} />
      {state.remarks.length > 0 && (
        <ul className="marks">
          {state.remarks.map((mark) => (
            <MarkLine key={mark.sentence} mark={mark} />
          ))}
        </ul>
      )}
      {newest !== undefined && (
        <section className="panel" aria-labelledby="torque">
          <header>
            <h2 id="torque">Torque, {dateInWords(newest.doneOn)}</h2>
            <Link to="/calibrations/$id" params={{ id: newest.id }}>
              Readings
            </Link>
          </header>
          <Result
            measured={newest.measured}
            answer={newest.answer}
            units={units}
            scenario={`${cell.name}, ${dateInWords(newest.doneOn)}`}
          />
        </section>
      )}
      <InTheCurves cell={cell} hasTorque={newest !== undefined} />
      <section className="panel" aria-labelledby="all-calibrations">
        <header>
          <h2 id="all-calibrations">All of them</h2>
          <TakeTable
            title={`Calibrations of ${cell.name}`}
            table={() => calibrationsTable(calibrations, units)}
          />
        </header>
        <div className={styles.scroll}>
          <table className="sheet">
            <Heads of={['Done on', 'What', 'Says', 'By', 'Falls due']} />
            <tbody>
              {calibrations.map((one) => (
                <tr key={one.id}>
                  <th scope="row">
                    <Link to="/calibrations/$id" params={{ id: one.id }}>
                      {dateInWords(one.doneOn)}
                    </Link>
                  </th>
                  <td>{whatOf(one)}</td>
                  <td>
                    {kept(
                      inShort(
                        one.answer,
                        units,
                        one.measured.kind === 'sensor' ? one.measured.unit : null,
                      ),
                    )}
                  </td>
                  <td className="quiet">{one.who}</td>
                  <td className="quiet">{dueInWords(one.due)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </section>
      <HangingCaution />
    </div>
  );
}

export const whatOf = ({ measured }: Pick<Calibration, 'measured'>) =>
  measured.kind === 'sensor' ? measured.sensor : 'Torque, weights on the arm';

const calibrationsTable = (calibrations: readonly Calibration[], units: UnitSystem): TableModel =>
  tableFrom(calibrations, [
    wordsColumn('Done on', ({ doneOn }) => doneOn),
    wordsColumn('What', whatOf),
    wordsColumn('Says', ({ answer, measured }) =>
      inShort(answer, units, measured.kind === 'sensor' ? measured.unit : null),
    ),
    wordsColumn('By', ({ who }) => who),
    wordsColumn('Falls due', ({ due }) => due?.dueIso),
  ]);

const holdingTable = (holding: readonly Holding[]): TableModel =>
  tableFrom(holding, [
    wordsColumn('What', ({ of }) => of),
    yesNoColumn('Due', ({ due }) => due?.isDue),
    wordsColumn('Done on', ({ doneOn }) => doneOn),
    wordsColumn('Falls due', ({ due }) => due?.dueIso),
  ]);

function ledeOf(torque: Holding | null): string {
  if (torque === null) return 'Sensors were held against a reference; torque was not yet.';
  const done = `Torque was calibrated on ${dateInWords(torque.doneOn)}`;
  if (torque.due === null) return `${done}; no day is set on which that falls due.`;
  return torque.due.isDue
    ? `${done} and fell due on ${dueInWords(torque.due)}: pulls made since then say so.`
    : `${done} and holds until ${dueInWords(torque.due)}.`;
}

interface StateTableProps {
  readonly torque: Holding | null;
  readonly sensors: readonly Holding[];
  readonly calibrations: readonly Calibration[];
}

function StateTable({ torque, sensors }: StateTableProps) {
  const holding = [...(torque === null ? [] : [torque]), ...sensors];
  return (
    <section className="panel" aria-labelledby="how-it-stands">
      <header>
        <h2 id="how-it-stands">How the cell stands today</h2>
        <TakeTable title="How the cell stands today" table={() => holdingTable(holding)} />
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <Heads of={['What', 'State', 'Done on', 'Falls due']} />
          <tbody>
            {holding.map((one) => (
              <tr key={one.of}>
                <th scope="row">{asSentence(one.of).slice(0, -1)}</th>
                <td>
                  <DueMark due={one.due} />
                </td>
                <td>
                  <Link to="/calibrations/$id" params={{ id: one.calibrationId }}>
                    {dateInWords(one.doneOn)}
                  </Link>
                </td>
                <td>{dueInWords(one.due)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** What the curves of the cell take of its calibrations. */
function InTheCurves({ cell, hasTorque }: { readonly cell: Cell; readonly hasTorque: boolean }) {
  const change = useChange(
    (applyCalibration: boolean) =>
      ask('PATCH /cells/{id}', { params: { id: cell.id }, body: { applyCalibration } }),
    {
      done: (now) =>
        now.applyCalibration
          ? `Torque of ${now.name} is corrected by its calibration; its curves follow.`
          : `Torque of ${now.name} stands as the cell shows it; its curves follow.`,
    },
  );
  return (
    <section className="panel" aria-labelledby="in-the-curves">
      <header>
        <h2 id="in-the-curves">In the curves</h2>
      </header>
      <Switch
        label="Correct torque by the newest calibration"
        description="Each pull is corrected by the line of the newest calibration on or before its day, and says so. A zero that the run file itself shows with the engine at rest stands before the calibration’s."
        checked={cell.applyCalibration}
        disabled={change.isPending}
        onChange={(event) => change.mutate(event.currentTarget.checked)}
      />
      <p className={`quiet ${calibration.after}`}>
        {hasTorque
          ? cell.applyCalibration
            ? 'What the calibration leaves open is in the band of every curve. It moves all pulls made under it together, so gains do not rest on it.'
            : 'What the cell is known to read wrong stays in the curves, and their bands are wide enough to hold it. It moves all pulls made under it together, so gains do not rest on it.'
          : `Without weights on the arm, one standard deviation of ${Number((cell.calibrationRelSd * 100).toFixed(2))} % stands in, as stated for the cell.`}
      </p>
    </section>
  );
}

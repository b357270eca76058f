import { Button } from '@mantine/core';
import { useState } from 'react';
import type { UnitSystem } from '../../../src/units/types.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type {
  EnginePatch,
  NewServiceEvent,
  NewServiceReading,
  ServiceEvent,
  ServiceEventPatch,
  ServiceReading,
  ServiceReadingPatch,
  ServiceRecord,
} from '../../api/types.gen.ts';
import { plain, UNKNOWN } from '../../charts/numbers.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { dateInWords } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { TakeTable } from '../../table/TakeTable.tsx';
import {
  EVENT_FIELDS,
  eventBody,
  eventValues,
  INTERVAL_FIELDS,
  intervalBody,
  intervalValues,
  readingBody,
  readingFields,
  readingValues,
} from './forms.ts';
import styles from './service.module.css';
import { eventsTable, readingsTable } from './service-tables.ts';
import { textOfCylinders } from './words.ts';

const hours = (seconds: number | null) =>
  seconds === null ? UNKNOWN : `${plain(seconds / 3600, 1)} h`;

/** As many digits as a gauge gives. */
const pressuresIn = (units: UnitSystem) => (one: ServiceReading) =>
  textOfCylinders(one.crankingGaugePa, 'gaugePressure', units, units === 'us' ? 0 : 2);

type Open =
  | { readonly what: 'interval' }
  | { readonly what: 'event'; readonly one: ServiceEvent | null }
  | { readonly what: 'reading'; readonly one: ServiceReading | null };

/** What the shop writes down of an engine between its builds: its interval, what was done, what was read. */
export function ServiceLog({ of }: { readonly of: ServiceRecord }) {
  const { units } = usePreferences();
  const [open, setOpen] = useState<Open | null>(null);
  const pressures = pressuresIn(units);
  const removeEvent = useChange(
    ({ id }: ServiceEvent) => ask('DELETE /service-events/{id}', { params: { id } }),
    { done: 'It is removed.' },
  );
  const removeReading = useChange(
    ({ id }: ServiceReading) => ask('DELETE /service-readings/{id}', { params: { id } }),
    { done: 'The reading is removed.' },
  );
  return (
    <>
      <section className="panel" aria-labelledby="services">
        <header>
          <h2 id="services">What was done</h2>
          <div className={styles.acts}>
            <Button size="xs" variant="default" onClick={() => setOpen({ what: 'interval' })}>
              Refresh interval
            </Button>
            <Button size="xs" onClick={() => setOpen({ what: 'event', one: null })}>
              Write down a refresh
            </Button>
            {of.events.length > 0 && (
              <TakeTable title="What was done" table={() => eventsTable(of.events)} />
            )}
          </div>
        </header>
        {of.events.length === 0 ? (
          <p className="quiet">
            No refresh and no other work is written down; until one is, all is counted from the
            newest build on.
          </p>
        ) : (
          <div className={styles.scroll}>
            <table className="sheet">
              <Heads
                of={['Date', 'What', 'Parts', 'Engine hours', 'Who']}
                acts="Change or remove"
              />
              <tbody>
                {[...of.events].reverse().map((one) => (
                  <tr key={one.id}>
                    <th scope="row">{dateInWords(one.doneOn)}</th>
                    <td className={styles.sentence}>
                      {one.kind === 'refresh' ? 'Refresh' : 'Work'}
                      {one.what === '' ? '' : `: ${one.what}`}
                    </td>
                    <td className={styles.sentence}>{one.parts === '' ? UNKNOWN : one.parts}</td>
                    <td>{hours(one.hoursS)}</td>
                    <td>{one.who === '' ? UNKNOWN : one.who}</td>
                    <td>
                      <RowActs
                        name={`${one.kind} of ${dateInWords(one.doneOn)}`}
                        onChange={() => setOpen({ what: 'event', one })}
                        onRemove={() => removeEvent.mutate(one)}
                      />
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
      </section>
      <section className="panel" aria-labelledby="readings">
        <header>
          <h2 id="readings">What was read</h2>
          <div className={styles.acts}>
            <Button size="xs" onClick={() => setOpen({ what: 'reading', one: null })}>
              Write down a reading
            </Button>
            {of.readings.length > 0 && (
              <TakeTable title="What was read" table={() => readingsTable(of.readings, units)} />
            )}
          </div>
        </header>
        {of.readings.length === 0 ? (
          <p className="quiet">
            Hours, leak-down and cranking compression read between builds are written down here;
            three dates begin to tell whether they move. Those of an assembly stand on the build
            sheet.
          </p>
        ) : (
          <div className={styles.scroll}>
            <table className="sheet">
              <Heads
                of={[
                  'Date',
                  'Engine hours',
                  'Leak-down, %',
                  `Compression, ${units === 'us' ? 'psi' : 'bar'}`,
                  'Note',
                ]}
                acts="Change or remove"
              />
              <tbody>
                {[...of.readings].reverse().map((one) => (
                  <tr key={one.id}>
                    <th scope="row">{dateInWords(one.readOn)}</th>
                    <td>{hours(one.hoursS)}</td>
                    <td>{textOfCylinders(one.leakDown, 'percent', units, 1) || UNKNOWN}</td>
                    <td>{pressures(one) || UNKNOWN}</td>
                    <td className={styles.sentence}>{one.note === '' ? UNKNOWN : one.note}</td>
                    <td>
                      <RowActs
                        name={`reading of ${dateInWords(one.readOn)}`}
                        onChange={() => setOpen({ what: 'reading', one })}
                        onRemove={() => removeReading.mutate(one)}
                      />
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
      </section>
      {open !== null && <Form of={of} open={open} onClose={() => setOpen(null)} />}
    </>
  );
}

function RowActs(props: {
  readonly name: string;
  readonly onChange: () => void;
  readonly onRemove: () => void;
}) {
  return (
    <div className={`${styles.rowActs} offPaper`}>
      <Button
        size="compact-xs"
        variant="subtle"
        aria-label={`Change the ${props.name}`}
        onClick={props.onChange}
      >
        Change
      </Button>
      <Button
        size="compact-xs"
        variant="subtle"
        aria-label={`Remove the ${props.name}`}
        onClick={props.onRemove}
      >
        Remove
      </Button>
    </div>
  );
}

function Form({
  of,
  open,
  onClose,
}: {
  readonly of: ServiceRecord;
  readonly open: Open;
  readonly onClose: () => void;
}) {
  const { units } = usePreferences();
  const engine = { id: of.engine.id };
  if (open.what === 'interval')
    return (
      <ChangeSheet
        title={`When ${of.engine.name} is refreshed`}
        fields={INTERVAL_FIELDS}
        values={intervalValues(of.engine)}
        save={(values) =>
          ask('PATCH /engines/{id}', { params: engine, body: intervalBody(values) as EnginePatch })
        }
        done="The interval is written down."
        onClose={onClose}
      />
    );
  if (open.what === 'event') {
    const { one } = open;
    return (
      <ChangeSheet
        title={one === null ? 'What was done' : `${dateInWords(one.doneOn)}: what was done`}
        fields={EVENT_FIELDS}
        values={eventValues(one)}
        sendUntouched={one === null}
        save={(values) =>
          one === null
            ? ask('POST /engines/{id}/service-events', {
                params: engine,
                body: eventBody(values) as NewServiceEvent,
              })
            : ask('PATCH /service-events/{id}', {
                params: { id: one.id },
                body: eventBody(values) as ServiceEventPatch,
              })
        }
        done="It is written down."
        onClose={onClose}
      />
    );
  }
  const { one } = open;
  return (
    <ChangeSheet
      title={one === null ? 'What was read' : `${dateInWords(one.readOn)}: what was read`}
      fields={readingFields(units)}
      values={readingValues(one, units)}
      sendUntouched={one === null}
      save={async (values) =>
        one === null
          ? ask('POST /engines/{id}/service-readings', {
              params: engine,
              body: readingBody(values, units) as NewServiceReading,
            })
          : ask('PATCH /service-readings/{id}', {
              params: { id: one.id },
              body: readingBody(values, units) as ServiceReadingPatch,
            })
      }
      done="The reading is written down."
      onClose={onClose}
    />
  );
}

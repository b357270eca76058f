import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { redoEvent, undoEvent } from '../api/changes.ts';
import { EVENTS_A_PAGE, eventsQuery } from '../api/queries.ts';
import type { RecordEvent } from '../api/types.gen.ts';
import { plainName } from '../shell/FileName.tsx';
import { Page } from '../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../shell/states.tsx';
import { asSentence, timeInWords } from '../shell/words.ts';
import { type TableModel, tableFrom, wordsColumn, yesNoColumn } from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';

const sentenceOf = ({ summary }: RecordEvent): string => asSentence(plainName(summary));

const KIND = {
  change: 'change',
  import: 'import',
  undo: 'taken back',
  redo: 'brought back',
} as const;

/** Every change of the record, newest first, each with its way back. */
export function ChangesScreen() {
  const [before, setBefore] = useState<number | null>(null);
  const events = useQuery(eventsQuery(before));
  const last = events.data?.at(-1);
  return (
    <Page title="Changes" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Changes' }]}>
      <div className="opening">
        <div>
          <h1>Changes</h1>
          <p className="lede">
            Everything that was written into the book, newest first. Whatever was changed or removed
            can be taken back.
          </p>
        </div>
        {before !== null && (
          <Button variant="default" onClick={() => setBefore(null)}>
            Newest
          </Button>
        )}
      </div>
      {events.isPending && <Waiting what="the changes" lines={8} />}
      {events.isError && <Trouble error={events.error} retry={() => void events.refetch()} />}
      {events.data?.length === 0 && (
        <Nothing title="Nothing was changed yet">
          The first engine will make the first line.
        </Nothing>
      )}
      {events.data && events.data.length > 0 && (
        <section className="panel" aria-label="Changes">
          <TakeRow title="Changes" table={() => changesTable(events.data)} />
          <table className="sheet">
            <thead>
              <tr>
                <th scope="col">When</th>
                <th scope="col">What</th>
                <th scope="col">Who</th>
                <th scope="col">Kind</th>
                <th scope="col">
                  <span className="quiet">Way back</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {events.data.map((event) => (
                <tr key={event.id}>
                  <td>{timeInWords(event.at)}</td>
                  <td>{event.undone ? <s>{sentenceOf(event)}</s> : sentenceOf(event)}</td>
                  <td>{event.who}</td>
                  <td className="quiet">{KIND[event.kind]}</td>
                  <td>
                    {event.kind !== 'undo' && event.kind !== 'redo' && (
                      <Button
                        variant="default"
                        size="compact-xs"
                        aria-label={`${event.undone ? 'Bring back' : 'Take back'}: ${plainName(event.summary)}`}
                        onClick={() =>
                          void (event.undone ? redoEvent(event.id) : undoEvent(event.id))
                        }
                      >
                        {event.undone ? 'Bring back' : 'Take back'}
                      </Button>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          {events.data.length === EVENTS_A_PAGE && last && (
            <Button variant="subtle" mt="sm" onClick={() => setBefore(last.id)}>
              Older
            </Button>
          )}
        </section>
      )}
    </Page>
  );
}

const changesTable = (events: readonly RecordEvent[]): TableModel =>
  tableFrom(events, [
    wordsColumn('When', ({ at }) => at),
    wordsColumn('What', sentenceOf),
    wordsColumn('Who', ({ who }) => who),
    wordsColumn('Kind', ({ kind }) => KIND[kind]),
    yesNoColumn('Taken back', ({ undone }) => undone),
  ]);

import { Button, Group } from '@mantine/core';
import { type DragEvent, useState } from 'react';
import { mergedSheet, type Sheet as SheetData, takenIn } from '../../src/build/index.ts';
import type { SheetReading } from '../api/types.gen.ts';
import { Sheet } from '../form/sheet.tsx';
import { FileName, plainName } from '../shell/FileName.tsx';
import { Trouble } from '../shell/states.tsx';
import { count } from '../shell/words.ts';
import { Heads } from '../table/Heads.tsx';
import { type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';
import fields from './inputs.module.css';
import styles from './start.module.css';
import { titleOf } from './words.ts';

interface ReadFileProps {
  /** The sheet that the file goes onto; null: it begins one. */
  readonly standing: SheetData | null;
  readonly read: (file: File) => Promise<SheetReading>;
  readonly onKeep: (sheet: SheetData) => void;
  readonly onClose: () => void;
}

type State =
  | { readonly at: 'choosing' }
  | { readonly at: 'reading'; readonly name: string }
  | { readonly at: 'refused'; readonly error: unknown }
  | { readonly at: 'read'; readonly name: string; readonly reading: SheetReading };

/** A table or build file put onto a sheet: first what it would fill in and change, and what of it is not taken. */
export function ReadFile({ standing, read, onKeep, onClose }: ReadFileProps) {
  const [state, setState] = useState<State>({ at: 'choosing' });
  const [over, setOver] = useState(false);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setState({ at: 'reading', name: file.name });
    try {
      setState({ at: 'read', name: file.name, reading: await read(file) });
    } catch (error) {
      setState({ at: 'refused', error });
    }
  };
  const dragged = (event: DragEvent) => {
    if (!event.dataTransfer.types.includes('Files')) return;
    event.preventDefault();
    setOver(event.type === 'dragenter' || event.type === 'dragover');
    if (event.type === 'drop') void take(event.dataTransfer.files[0]);
  };
  return (
    <Sheet onClose={onClose} title="Read a table or build file" size="60rem">
      <section
        className={styles.reading}
        aria-label="The file"
        data-over={over || undefined}
        onDragEnter={dragged}
        onDragOver={dragged}
        onDragLeave={dragged}
        onDrop={dragged}
      >
        <p className="quiet">
          Drop a .csv, .xlsx or .json here. A table needs the columns section, field and value, or a
          column for each cylinder; a sheet taken away as a table has them. What the file does not
          hold stays as it is.
        </p>
        <label className={styles.file}>
          {state.at === 'read' || state.at === 'refused' ? 'Choose another file' : 'Choose a file'}
          <input
            type="file"
            className="unseen"
            data-autofocus
            accept=".csv,.tsv,.txt,.xlsx,.json"
            onChange={(event) => {
              void take(event.currentTarget.files?.[0]);
              event.currentTarget.value = '';
            }}
          />
        </label>
        {state.at === 'reading' && (
          <p role="status">
            Reading <FileName name={state.name} /> …
          </p>
        )}
        {state.at === 'refused' && <Trouble error={state.error} />}
        {state.at === 'read' && (
          <Preview
            name={state.name}
            reading={state.reading}
            standing={standing}
            onKeep={onKeep}
            onClose={onClose}
          />
        )}
      </section>
    </Sheet>
  );
}

interface PreviewProps extends Pick<ReadFileProps, 'standing' | 'onKeep' | 'onClose'> {
  readonly name: string;
  readonly reading: SheetReading;
}

function Preview({ name, reading, standing, onKeep, onClose }: PreviewProps) {
  const { given, refused } = reading;
  const put = given === null || standing === null ? given : mergedSheet(standing, given);
  // Held against the sheet in hand, which may be a keystroke ahead of the one that the service knows.
  const taken = put === null || reading.sheet === null ? [] : takenIn(standing, put);
  const filled = taken.filter(({ before }) => before === null).length;
  return (
    <>
      <p role="status">
        <strong>
          <FileName name={name} />
        </strong>
        : {count(filled, 'field')} to be filled in, {taken.length - filled} to be changed,{' '}
        {refused.length} not taken.
      </p>
      {refused.length > 0 && (
        <section aria-labelledby="not-taken">
          <h3 id="not-taken">Not taken</h3>
          <ul className={styles.refusals}>
            {refused.map(({ row, column, path, found, expected }) => (
              <li key={`${row} ${column} ${path} ${expected}`}>
                {path ?? `Row ${row}, column ${column}`}: found <bdi>{plainName(found)}</bdi>
                {`; expected ${expected}.`}
              </li>
            ))}
          </ul>
        </section>
      )}
      {taken.length > 0 && (
        <div className={fields.scroll}>
          <TakeRow title="What would be taken" table={() => takenTable(taken)} />
          <table className="sheet">
            <Heads of={['Section', 'Field', 'Stands now', 'Would stand']} />
            <tbody>
              {taken.map(({ section, label, before, after }) => (
                <tr key={`${section} ${label}`}>
                  <td className="quiet">{section === null ? 'The sheet' : titleOf(section)}</td>
                  <th scope="row">{label}</th>
                  <td className={styles.said}>
                    {before ?? <span className="quiet">nothing</span>}
                  </td>
                  <td className={styles.said}>{after}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {taken.length === 0 && refused.length === 0 && (
        <p className="quiet">Nothing in this file differs from the sheet.</p>
      )}
      <Group justify="flex-end" gap="sm">
        <Button variant="default" onClick={onClose}>
          Cancel
        </Button>
        <Button
          disabled={put === null || taken.length === 0}
          onClick={() => {
            if (put !== null) onKeep(put);
            onClose();
          }}
        >
          {standing === null ? 'Begin with it' : 'Put onto the sheet'}
        </Button>
      </Group>
    </>
  );
}

const takenTable = (taken: ReturnType<typeof takenIn>): TableModel =>
  tableFrom(taken, [
    wordsColumn('Section', ({ section }) => (section === null ? 'The sheet' : titleOf(section))),
    wordsColumn('Field', ({ label }) => label),
    wordsColumn('Stands now', ({ before }) => before),
    wordsColumn('Would stand', ({ after }) => after),
  ]);

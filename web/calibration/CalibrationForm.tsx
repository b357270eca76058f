import { Button } from '@mantine/core';
import { type FormEvent, useMemo, useState } from 'react';
import type { Measured } from '../../src/trade/calibration/index.ts';
import type { NewCalibration } from '../api/types.gen.ts';
import { FieldInput } from '../form/edit-sheet.tsx';
import { type Field, readForm, textOf, unitOf, type Values } from '../form/fields.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { HangingCaution } from './Caution.tsx';
import styles from './calibration.module.css';
import { type Draft, draftOf, fieldsOf, freshDraft, type Kind, understood } from './draft.ts';
import { HEAD_FIELDS } from './fields.ts';
import { Readings } from './Readings.tsx';
import { Result } from './Result.tsx';

export interface CalibrationFormProps {
  readonly kind: Kind;
  /** What is kept; null: a new one. */
  readonly standing: (Omit<NewCalibration, 'measured'> & { readonly measured: Measured }) | null;
  readonly today: string;
  readonly scenario: string;
  readonly busy: boolean;
  readonly onSave: (calibration: NewCalibration) => void;
  readonly onCancel: () => void;
}

/** A calibration as it is read off, with what follows from it at every keystroke. */
export function CalibrationForm(props: CalibrationFormProps) {
  const { kind, standing, today, scenario, busy, onSave, onCancel } = props;
  const preferred = usePreferences().units;
  // The form stays in the units it was begun in: a number typed in pounds is not to be read as kilograms.
  const [units] = useState(preferred);
  const [draft, setDraft] = useState<Draft>(() =>
    standing === null ? freshDraft(kind, units) : draftOf(standing.measured, units),
  );
  const head: Values = standing === null ? { doneOn: today, intervalMonths: 12 } : { ...standing };
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(
      HEAD_FIELDS.map((field) => [field.key, textOf(field, head[field.key], units)]),
    ),
  );
  const [asked, setAsked] = useState(false);
  const found = useMemo(() => understood(draft), [draft]);
  const headRead = readForm(HEAD_FIELDS, texts, head, units, true);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (found.measured === null || Object.keys(headRead.troubles).length > 0) return;
    const { doneOn, who, intervalMonths, notes } = headRead.patch;
    onSave({
      doneOn: doneOn as string,
      who: (who as string | undefined) ?? '',
      intervalMonths: (intervalMonths as number | null | undefined) ?? null,
      notes: (notes as string | undefined) ?? '',
      measured: found.measured,
    });
  };
  const inputs = (
    fields: readonly Field[],
    values: Readonly<Record<string, string>>,
    troubles: Readonly<Record<string, string>>,
    put: (key: string, text: string) => void,
  ) => (
    <div className={styles.fields}>
      {fields.map((field) => (
        <FieldInput
          key={field.key}
          field={field}
          first={false}
          text={values[field.key] ?? ''}
          unit={unitOf(field, units)}
          // What is still empty is not held against anybody before the form is handed in.
          trouble={asked || (values[field.key] ?? '') !== '' ? troubles[field.key] : undefined}
          onChange={(text) => put(field.key, text)}
        />
      ))}
    </div>
  );
  return (
    <form className="stack" onSubmit={submit} noValidate>
      {kind === 'dead weights' && <HangingCaution />}
      <div className={styles.beside}>
        <div className="stack">
          <section className="panel" aria-labelledby="readings">
            <header>
              <h2 id="readings">Readings</h2>
              <span className="quiet">
                {kind === 'sensor'
                  ? 'both in the unit of the sensor'
                  : 'in the order they were read'}
              </span>
            </header>
            <Readings draft={draft} understood={found} onChange={setDraft} />
          </section>
          <section className="panel" aria-labelledby="with">
            <header>
              <h2 id="with">{kind === 'sensor' ? 'Sensor and reference' : 'Arm and weights'}</h2>
            </header>
            {inputs(fieldsOf(kind, draft.values.unit), draft.texts, found.troubles, (key, text) =>
              setDraft({ ...draft, texts: { ...draft.texts, [key]: text } }),
            )}
          </section>
          <section className="panel" aria-labelledby="when">
            <header>
              <h2 id="when">When and by whom</h2>
            </header>
            {inputs(HEAD_FIELDS, texts, headRead.troubles, (key, text) =>
              setTexts({ ...texts, [key]: text }),
            )}
          </section>
        </div>
        <section className={`panel ${styles.said}`} aria-labelledby="result" aria-live="polite">
          <header>
            <h2 id="result">What it says</h2>
          </header>
          {found.measured !== null && found.answer !== null ? (
            <Result measured={found.measured} answer={found.answer} {...{ units, scenario }} />
          ) : (
            <>
              <p className="quiet">
                {kind === 'sensor'
                  ? 'As you type: how far the sensor stands off, and how far a corrected reading can be trusted.'
                  : 'As you type: what the cell reads wrong, what hangs on the way down, and how far its torque can be trusted.'}
              </p>
              <p>{found.missing}</p>
            </>
          )}
        </section>
      </div>
      <div className={styles.foot}>
        {asked && found.missing !== null && <span className="look">{found.missing}</span>}
        <Button variant="default" onClick={onCancel}>
          Cancel
        </Button>
        <Button type="submit" loading={busy}>
          Keep it
        </Button>
      </div>
    </form>
  );
}

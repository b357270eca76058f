import { Button, Textarea, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { EachEntry, Entry, FieldSpec } from '../../src/build/index.ts';
import { readDate } from '../form/fields.ts';
import { Sheet } from '../form/sheet.tsx';
import { usePreferences } from '../shell/preferences.tsx';
import { useSheetActs } from './context.ts';
import { setAbout, setEach, setEntry } from './edit.ts';
import styles from './inputs.module.css';
import { readCell } from './typing.ts';

interface AboutProps {
  readonly path: string;
  readonly field: FieldSpec;
  /** What stands at the path. */
  readonly entry: Entry | EachEntry | undefined;
}

/** The small control behind a field: who measured it, with what, when; its tolerance where there is no room beside it. */
export function About({ path, field, entry }: AboutProps) {
  const [open, setOpen] = useState(false);
  const said = entry !== undefined && [entry.by, entry.with, entry.on, entry.note].some(Boolean);
  return (
    <>
      <button
        type="button"
        className={styles.more}
        aria-label={`${field.label}: more${said ? ', something is written' : ''}`}
        title={
          said
            ? [entry.by, entry.with, entry.on, entry.note].filter(Boolean).join(', ')
            : 'Who, with what, when'
        }
        disabled={entry === undefined && field.per === undefined}
        onClick={() => setOpen(true)}
      >
        <span aria-hidden="true">{said ? '●' : '…'}</span>
      </button>
      {open && (
        <AboutSheet path={path} field={field} entry={entry} onClose={() => setOpen(false)} />
      )}
    </>
  );
}

function AboutSheet({
  path,
  field,
  entry,
  onClose,
}: AboutProps & { readonly onClose: () => void }) {
  const { change } = useSheetActs();
  const { who } = usePreferences();
  const [texts, setTexts] = useState({
    by: entry?.by ?? '',
    with: entry?.with ?? '',
    on: entry?.on ?? '',
    note: entry?.note ?? '',
    plusMinus: entry?.plusMinus === undefined ? '' : String(entry.plusMinus),
    all: '',
  });
  const [wrong, setWrong] = useState<{ [K in keyof typeof texts]?: string }>({});
  const numeric = field.kind === 'quantity' || field.kind === 'number';
  const bind = (key: keyof typeof texts) => ({
    value: texts[key],
    autoComplete: 'off' as const,
    ...(wrong[key] === undefined ? {} : { error: wrong[key] }),
    onChange: (event: { currentTarget: { value: string } }) =>
      setTexts({ ...texts, [key]: event.currentTarget.value }),
  });
  const save = () => {
    const on = texts.on.trim() === '' ? '' : readDate(texts.on.trim());
    const plusMinus = texts.plusMinus.trim() === '' ? undefined : readTolerance(texts.plusMinus);
    const all = texts.all.trim() === '' ? null : readCell(field, texts.all, entry?.unit);
    const found = {
      ...(on === null ? { on: 'Expected year, month and day such as 2026-05-17.' } : {}),
      ...(plusMinus === null ? { plusMinus: 'Expected a number that is not negative.' } : {}),
      ...(all !== null && 'wrong' in all ? { all: all.wrong } : {}),
    };
    setWrong(found);
    if (Object.keys(found).length > 0) return;
    change((now) => {
      const typed = all === null || 'wrong' in all ? null : all;
      const filled = typed === null ? now : setEntry(now, path, { ...typed, ...plainAbout(entry) });
      return setAbout(filled, path, {
        by: texts.by.trim(),
        with: texts.with.trim(),
        on: on ?? '',
        note: texts.note.trim(),
        ...(numeric ? { plusMinus } : {}),
      });
    });
    onClose();
  };
  return (
    <Sheet onClose={onClose} title={field.label} size="md">
      <form
        className={styles.about}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        {field.help !== undefined && <p className="quiet">{field.help}</p>}
        {numeric && field.per !== undefined && (
          <TextInput
            label="The same value everywhere"
            description="Replaces what stands in the column."
            {...bind('all')}
          />
        )}
        {numeric && (
          <TextInput
            label={`Off by, plus or minus${entry?.unit === undefined ? '' : `, ${entry.unit}`}`}
            description="Within this it lies 95 times of 100."
            inputMode="decimal"
            {...bind('plusMinus')}
          />
        )}
        <TextInput label="Measured by" placeholder={who} {...bind('by')} />
        <TextInput label="With" placeholder="bore gauge, scale, burette" {...bind('with')} />
        <TextInput label="On, year-month-day" placeholder="2026-05-17" {...bind('on')} />
        <Textarea label="Note" rows={2} {...bind('note')} />
        <div className="acts">
          <Button type="submit">Keep</Button>
          {entry !== undefined && (
            <Button
              variant="default"
              onClick={() => {
                change((now) =>
                  field.per === undefined ? setEntry(now, path, null) : setEach(now, path, []),
                );
                onClose();
              }}
            >
              Clear the {field.per === undefined ? 'field' : 'column'}
            </Button>
          )}
        </div>
      </form>
    </Sheet>
  );
}

function plainAbout(entry: AboutProps['entry']) {
  if (entry?.unit === undefined) return {};
  return { unit: entry.unit };
}

function readTolerance(text: string): number | null {
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) && value >= 0 ? value : null;
}

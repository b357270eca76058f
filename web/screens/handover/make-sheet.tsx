import { Button, Checkbox, Group, NativeSelect, Textarea, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { AIR_STANDARDS, type AirStandard } from '../../../src/pull/recording.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { shopSettingsQuery } from '../../api/queries.ts';
import type {
  Build,
  DaySummary,
  EnginePage,
  HandOverKept,
  HandOverWish,
} from '../../api/types.gen.ts';
import form from '../../form/edit-sheet.module.css';
import { Sheet } from '../../form/sheet.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble } from '../../shell/states.tsx';
import { count, nameOfStandard } from '../../shell/words.ts';
import styles from './handover.module.css';

interface MakeSheetProps {
  readonly build: Build;
  readonly page: EnginePage;
  /** Of the build, with pulls. */
  readonly days: readonly DaySummary[];
  readonly onMade: (kept: HandOverKept) => void;
  readonly onClose: () => void;
}

const NONE = '';
const STEPS = [100, 200, 250, 500, 1000];

/** What is handed over, and in which terms. */
export function MakeSheet({ build, page, days, onMade, onClose }: MakeSheetProps) {
  const shop = useQuery(shopSettingsQuery);
  const preferences = usePreferences();
  const others = page.builds.filter((one) => one.id !== build.id);
  const before = page.builds[page.builds.findIndex((one) => one.id === build.id) - 1];
  const [chosen, setChosen] = useState<readonly string[]>(() => days.map((day) => day.id));
  const [against, setAgainst] = useState(before?.id ?? NONE);
  const [standard, setStandard] = useState<AirStandard | null>(null);
  const [units, setUnits] = useState(preferences.units);
  const [stepRpm, setStepRpm] = useState(250);
  const [notes, setNotes] = useState('');
  const [by, setBy] = useState(preferences.who);
  const make = useChange(
    (body: HandOverWish) => ask('POST /builds/{id}/handovers', { params: { id: build.id }, body }),
    { done: 'The hand-over is made.', after: onMade },
  );

  const submit = (event: FormEvent) => {
    event.preventDefault();
    make.mutate({
      // In the order of the days, whatever was clicked first.
      dayIds: days.filter((day) => chosen.includes(day.id)).map((day) => day.id),
      comparedBuildId: against === NONE ? null : against,
      ...(standard === null ? {} : { standard }),
      units,
      stepRpm,
      notes,
      by: by.trim(),
    });
  };

  return (
    <Sheet onClose={onClose} title="Make a hand-over" size="lg">
      <form onSubmit={submit}>
        <fieldset className={styles.days}>
          <legend>Test days</legend>
          {days.map((day) => (
            <Checkbox
              key={day.id}
              label={`${dayLabel(day)}, ${count(day.pullCount, 'pull')}`}
              checked={chosen.includes(day.id)}
              onChange={(event) =>
                setChosen(
                  event.currentTarget.checked
                    ? [...chosen, day.id]
                    : chosen.filter((id) => id !== day.id),
                )
              }
            />
          ))}
          {chosen.length === 0 && <p className="quiet">Choose at least one.</p>}
        </fieldset>
        <div className={form.fields}>
          <NativeSelect
            label="Held against"
            value={against}
            data={[
              { value: NONE, label: 'no other build' },
              ...others.map((one) => ({ value: one.id, label: one.name })),
            ]}
            onChange={(event) => setAgainst(event.currentTarget.value)}
          />
          <NativeSelect
            label="Air standard"
            value={standard ?? shop.data?.standard ?? ''}
            data={AIR_STANDARDS.map((name) => ({ value: name, label: nameOfStandard(name) }))}
            onChange={(event) =>
              setStandard(AIR_STANDARDS.find((one) => one === event.currentTarget.value) ?? null)
            }
          />
          <NativeSelect
            label="Units"
            value={units}
            data={[
              { value: 'us', label: 'US' },
              { value: 'metric', label: 'Metric' },
            ]}
            onChange={(event) => setUnits(event.currentTarget.value === 'us' ? 'us' : 'metric')}
          />
          <NativeSelect
            label="Step of the table by speed"
            value={String(stepRpm)}
            data={STEPS.map((step) => ({ value: String(step), label: `${step} rpm` }))}
            onChange={(event) => setStepRpm(Number(event.currentTarget.value))}
          />
          <Textarea
            className={form.wide}
            label="Notes for the owner"
            description="In your own words; they stand in the report as you write them. An empty line begins a new paragraph."
            rows={4}
            maxLength={20_000}
            value={notes}
            onChange={(event) => setNotes(event.currentTarget.value)}
          />
          <TextInput
            label="Handed over by"
            maxLength={200}
            value={by}
            onChange={(event) => setBy(event.currentTarget.value)}
          />
        </div>
        {make.isError && <Trouble error={make.error} />}
        <Group justify="flex-end" mt="lg" gap="sm">
          {make.isPending && (
            <span role="status" className="quiet">
              Computing it from the recordings …
            </span>
          )}
          <Button variant="default" onClick={onClose}>
            Cancel
          </Button>
          <Button type="submit" loading={make.isPending} disabled={chosen.length === 0}>
            Make it
          </Button>
        </Group>
      </form>
    </Sheet>
  );
}
